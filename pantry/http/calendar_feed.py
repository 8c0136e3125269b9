"""A person's own calendar: its address, and what stands at it.

On the way of the address no cookie is looked at. Whoever has it reads what its person may read now.
"""

import hashlib
from functools import partial

from litestar import Response, get, post

from pantry import world
from pantry.access import calendars, throttle
from pantry.commands.rights import READS, check_reads
from pantry.http.calendar_bodies import CalendarFeed, CalendarMade
from pantry.http.served import Asking, Served, served
from pantry.http.who import OPEN
from pantry.records.tables import CalendarFeedRow
from pantry.refusals import NotThere, declare
from pantry.reports.alert_calendar import calendar
from pantry.reports.report import instant
from pantry.reports.view import view

CALENDAR_WRONG = declare("calendar_wrong", "The address leads to no calendar, or no longer.")

HEADERS = {"cache-control": "private, no-cache", "x-robots-tag": "noindex, nofollow"}
_ENDING = ".ics"
_REPORT = "alerts"


@get("/api/calendar")
async def my_calendar(request: Asking) -> CalendarFeed:
    """Whether who is signed in has a calendar."""
    of, who = served(request), request.user
    check_reads(who.role, _REPORT)
    row = await of.read(partial(calendars.of_person, who=who))
    return (
        CalendarFeed(instant(row.made_at), instant(row.read_at))
        if row
        else CalendarFeed(None, None)
    )


@post("/api/calendar/make", status_code=200)
async def make_calendar(request: Asking) -> CalendarMade:
    """A new address for who is signed in; one they had leads nowhere from now on."""
    of, who, secret = served(request), request.user, world.new_secret()
    check_reads(who.role, _REPORT)
    now = of.now()
    await of.write(who.house, partial(calendars.make, who=who, secret=secret, now=now))
    return CalendarMade(f"/calendar/{secret}{_ENDING}")


@post("/api/calendar/withdraw", status_code=204)
async def withdraw_calendar(request: Asking) -> None:
    """The address of who is signed in leads nowhere from now on."""
    of, who = served(request), request.user
    await of.write(who.house, partial(calendars.withdraw, who=who))


@get("/calendar/{name:str}", opt=OPEN)
async def calendar_at(request: Asking) -> Response[bytes]:
    """The calendar at an address; 304 where the asker has it as it is."""
    of = served(request)
    feed = await _feed(request, of)
    body = await of.read(lambda connection: calendar(view(connection, feed.house, of.now())))
    tag = f'"{hashlib.sha256(body).hexdigest()[:32]}"'
    await of.write(feed.house, partial(calendars.note_read, feed=feed, now=of.now()))
    headers = HEADERS | {"etag": tag}
    if tag in _tags(request.headers.get("if-none-match", "")):
        return Response(b"", status_code=304, headers=headers)
    said = {"content-disposition": 'inline; filename="order-by.ics"'}
    return Response(body, media_type="text/calendar; charset=utf-8", headers=headers | said)


def _tags(written: str) -> set[str]:
    """The entity tags of a header, weak ones as well (RFC 9110, section 13.1.2)."""
    return {tag.strip().removeprefix("W/") for tag in written.split(",")}


async def _feed(request: Asking, of: Served) -> CalendarFeedRow:
    """Whose calendar it is; a wrong address is counted against where it came from.

    Raises:
        NotThere: `calendar_wrong`.
        TooManyTries: `too_many_tries`.
    """
    name = str(request.path_params["name"])
    found = await of.read(partial(calendars.whose, secret=name.removesuffix(_ENDING)))
    if name.endswith(_ENDING) and found and found[1].role in READS[_REPORT]:
        return found[0]
    address = request.client.host if request.client else ""
    counted = (throttle.by_address(f"calendar {address}"),)
    await of.write("", partial(throttle.count, counted=counted, now=of.clock()))
    raise NotThere(
        CALENDAR_WRONG,
        "This address leads to no calendar.",
        "Make a new one in the house, and give that to the calendar program.",
    )
