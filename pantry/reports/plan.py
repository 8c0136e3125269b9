"""What must be ordered by what hour, of whom, because of which service (PL1-PL5, PL7)."""

from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta

from pantry.reports.occupancy import occupancy
from pantry.reports.report import Row, amount, as_data, instant, money
from pantry.reports.view import LOOK_AHEAD, View
from pantry.reports.ways import WaysOut
from pantry.rules.deadlines import Alert
from pantry.rules.plan import Plan, PlanRow
from pantry.rules.plan import plan as plan_of
from pantry.rules.plan_rows import DAILY_USE, PAR
from pantry.world import without_collecting

PAR_AHEAD = timedelta(days=10)
"""So far ahead more than one order for par and daily use is told; menus are, as far as they go."""


def planned(view: View) -> Plan:
    """The plan of the days ahead."""
    full = occupancy(view)
    with without_collecting():
        return plan_of(
            view.house,
            view.kitchen,
            view.suppliers.values(),
            view.packs,
            view.needs,
            view.now,
            view.now + LOOK_AHEAD,
            placed=view.placed,
            covered=view.covered,
            people=full.known,
            at_one_table=full.at_one_table,
        )


def plan(view: View) -> list[Row]:
    """A row for each item on each delivery, and for what no delivery can make, by deadline.

    In `derivation` stands every figure a row follows from, with the rules by number: quantities in
    whole thousandths of the item's base unit, money in minor units.
    """
    found = planned(view)
    ways = WaysOut(view, found.projection)
    return [_row(view, ways, row) for row in _near(found.rows, view.now + PAR_AHEAD)]


def _near(rows: Iterable[PlanRow], until: datetime) -> Iterator[PlanRow]:
    """All rows but the later ones of items that only par and daily use will want again."""
    told: set[str] = set()
    for row in rows:
        menu = any(why not in (PAR, DAILY_USE) for why in row.because)
        near = row.order_by is None or row.order_by <= until
        if menu or near or row.item not in told:
            yield row
        told.add(row.item)


def _row(view: View, ways: WaysOut, row: PlanRow) -> Row:
    item = view.items[row.item]
    return {
        "item": item.name,
        "net": amount(row.net, item),
        "wanted_by": instant(row.wanted_by),
        "supplier": view.supplier_names.get(row.supplier) if row.supplier else None,
        "pack": row.pack.name if row.pack else None,
        "packs": row.packs,
        "order_by": instant(row.order_by),
        "delivery": instant(row.delivery.at) if row.delivery else None,
        "alert": row.alert.value,
        "because": list(row.because),
        "ways_out": ways.of_row(row) if row.alert is Alert.MISSED else [],
        "cost": money(row.cost, view),
        "at_risk": row.at_risk,
        "derivation": as_data(row.derivation),
    }
