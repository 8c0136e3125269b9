"""The routes of a person's own calendar as they are described, and what they answer."""

from msgspec import Struct

from pantry.http.operation import Operation


class CalendarFeed(Struct, frozen=True):
    """Since when a person has a calendar, and when it was last read; null: none, or never."""

    made_at: str | None
    read_at: str | None


class CalendarMade(Struct, frozen=True):
    """The path of a new calendar at the house's address; it is told once."""

    path: str


OPERATIONS = (
    Operation(
        "get",
        "/api/calendar",
        "Whether who is signed in has a calendar of the deadlines; for chef, manager.",
        CalendarFeed,
        problems=(401, 403, 503),
    ),
    Operation(
        "post",
        "/api/calendar/make",
        "A new address for one's calendar, told once; the one before ends. For chef, manager.",
        CalendarMade,
        problems=(401, 403, 503),
    ),
    Operation(
        "post",
        "/api/calendar/withdraw",
        "One's calendar is at no address any more.",
        problems=(401, 403, 503),
        status=204,
    ),
)
