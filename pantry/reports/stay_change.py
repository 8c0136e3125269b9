"""What a stay would do to the menus to come, before anybody says it (RQ5)."""

from dataclasses import replace
from datetime import date

from pantry.records.slugs import slug
from pantry.reports.days_asked import day_asked, days_asked
from pantry.reports.meal_asked import table_asked
from pantry.reports.presence import Told
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.menu import Service, ServiceState
from pantry.rules.presence import Presence, Stay, following, is_clock
from pantry.rules.services import lapsed

_TO_COME = (ServiceState.PROPOSED, ServiceState.CONFIRMED)


def stay_change(view: View, **given: str | int) -> list[Row]:
    """A row for each menu to come for which another number would be said, in the order of time.

    `said` is the number by all that was said, `would_be` what it would be then. `following` is what
    the menu does: it *follows* by itself, the chef is *asked*, it *keeps* a number of its own, or
    it *agrees* as it stands.

    Args:
        view: the house as it stands.
        **given: the stay: `table`, `first`, and `last` (None: until somebody says), `first_at` and
            `last_at` (a meal or a wall time), `heads` (1; 0: they do not come), `stay`: the id of
            one that was said and would be this instead.

    Raises:
        NotThere: `table_not_there`.
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    told, thought = Told(view), Told(view)
    thought.said = _with(told.said, _stay(view, told.said, given))
    return [
        row
        for service in view.services
        if service.state in _TO_COME and not lapsed(service.at, view.now)
        for row in _row(view, service, told, thought)
    ]


def _row(view: View, service: Service, told: Told, thought: Told) -> list[Row]:
    said, would_be = told.covers(service).number, thought.covers(service).number
    if said == would_be:
        return []
    does = following(
        service.covers, said, would_be, is_chosen=service.state is ServiceState.CONFIRMED
    )
    return [
        {
            "service": service.id,
            "date": service.date.isoformat(),
            "meal": service.meal,
            "table": view.tables[service.table].name,
            "at": instant(service.at),
            "state": service.state.value,
            "covers": service.covers,
            "said": said,
            "would_be": would_be,
            "following": does,
        }
    ]


def _with(said: Presence, stay: Stay) -> Presence:
    others = tuple(each for each in said.stays if each.id != stay.id)
    return replace(said, stays=(*others, stay))


def _stay(view: View, said: Presence, given: dict[str, str | int]) -> Stay:
    text = {name: str(value) for name, value in given.items() if value not in ("", None)}
    before = next((each for each in said.stays if each.id == text.get("stay")), None)
    first, last = _days(str(given["first"]), text.get("last"))
    return Stay(
        id=text.get("stay", ""),
        who=before.who if before else "",
        heads=int(given.get("heads", 1)),
        table=table_asked(view, str(given["table"])),
        first=first,
        first_at=_mark(text.get("first_at", "")),
        last=last,
        last_at=_mark(text.get("last_at", "")),
        said_by="",
        said_at=view.now,
    )


def _days(first: str, last: str | None) -> tuple[date, date | None]:
    begins = day_asked(first, "first")
    return (begins, None) if last is None else days_asked(first, last, (begins, begins))


def _mark(written: str) -> str:
    return written if is_clock(written) else slug(written)
