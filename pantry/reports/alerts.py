"""What has to be ordered by when, or cannot be had any more, as long as something is to be done."""

from collections.abc import Iterable

from pantry.records.alerts import last_turns
from pantry.records.rows import every, find
from pantry.records.tables import AlertRow, DigestRow, NoLettersRow, PersonRow, SeenToRow
from pantry.reports.due import Due, due
from pantry.reports.order_given import order_given
from pantry.reports.plan import planned
from pantry.reports.report import Row, amount, instant
from pantry.reports.standing_orders import nobody_of
from pantry.reports.view import View
from pantry.reports.ways import WaysOut
from pantry.rules.alerts import STAGES, begins
from pantry.rules.deadlines import Alert
from pantry.rules.plan import Plan, PlanRow

TOLD = frozenset({"chef", "manager"})
"""The roles that are told alerts: those that may read them."""

DIGEST_AT = "07:00"
"""When the day's letter goes out where the house has said nothing: common practice, no source."""


def alerts(view: View) -> list[Row]:
    """A row for each alert that is open, the nearest order-by first, what was missed last.

    It is the plan that says what is to be done; what was raised by the server adds since when it is
    known and who sees to it. `raised_at` null: the server has not told it yet.
    """
    found = planned(view)
    return alerts_of(view, found, due(view, found), last_turns(view.connection, view.id))


def digest_at(view: View) -> str:
    """At what hour the day's letter goes out; empty: none does."""
    row = find(view.connection, DigestRow, house=view.id)
    return DIGEST_AT if row is None else row.at


def readers(view: View, roles: frozenset[str]) -> list[PersonRow]:
    """Who of these roles is told by letter: who has an address and has not declined."""
    declined = set(no_letters_to(view))
    return [
        row
        for row in every(view.connection, PersonRow, house=view.id)
        if row.active and row.email and row.role in roles and row.name not in declined
    ]


def letters_to(view: View) -> list[str]:
    """The names of those who are told by letter, where the house has a mail server."""
    return sorted(row.name for row in readers(view, TOLD))


def no_letters_to(view: View) -> list[str]:
    """The names of those who have declined letters."""
    return sorted(row.person for row in every(view.connection, NoLettersRow, house=view.id))


def alerts_of(
    view: View, found: Plan, all_due: Iterable[Due], kept: dict[str, AlertRow]
) -> list[Row]:
    """The same, of a plan that is known already."""
    near = [each for each in all_due if each.deadline.stage in STAGES]
    return rows_of(view, found, near, kept)


def rows_of(
    view: View, found: Plan, all_due: Iterable[Due], kept: dict[str, AlertRow]
) -> list[Row]:
    """The same of every deadline, near or not."""
    seen_to: dict[tuple[str, int], SeenToRow] = {}
    for row in every(view.connection, SeenToRow, house=view.id):
        known = seen_to.get((row.alert, row.turn))
        if known is None or known.at <= row.at:
            seen_to[row.alert, row.turn] = row
    ways = WaysOut(view, found.projection)
    return [_row(view, ways, each, kept.get(each.deadline.id), seen_to) for each in all_due]


def _row(
    view: View,
    ways: WaysOut,
    of: Due,
    kept: AlertRow | None,
    seen_to: dict[tuple[str, int], SeenToRow],
) -> Row:
    deadline = of.deadline
    raised = kept if kept is not None and kept.why is None else None
    by = seen_to.get((raised.id, raised.turn)) if raised else None
    last_call = None
    if deadline.order_by:
        last_call = begins(deadline.order_by, view.house, view.zone)[Alert.LAST_CALL]
    return {
        "alert": deadline.id,
        "stage": deadline.stage.value,
        "supplier": view.supplier_names.get(deadline.supplier or ""),
        "delivery": instant(deadline.delivery),
        "order_by": instant(deadline.order_by),
        "last_call": instant(last_call),
        "raised_at": instant(raised.raised_at) if raised else None,
        "seen_to": {"command": by.command, "person": by.person, "at": instant(by.at)}
        if by
        else None,
        "order_given": order_given(view, deadline.supplier),
        "lines": [_line(view, row) for row in of.rows],
        "nobody": nobody_of(of.stop),
        "ways_out": [
            way for row in of.rows if row.alert is Alert.MISSED for way in ways.of_row(row)
        ],
    }


def _line(view: View, row: PlanRow) -> Row:
    item = view.items[row.item]
    return {
        "item": item.name,
        "lacking": amount(row.net, item),
        "pack": row.pack.name if row.pack else None,
        "packs": row.packs,
        "wanted_by": instant(row.wanted_by),
        "because": list(row.because),
        "at_risk": row.at_risk,
    }
