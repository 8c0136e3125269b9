"""What must be ordered by what hour, of whom, because of which service (PL1-PL5, PL7)."""

from datetime import timedelta

from pantry.reports.report import Row, amount, as_data, instant, money
from pantry.reports.view import View
from pantry.reports.ways import ways_out_of
from pantry.rules.deadlines import Alert
from pantry.rules.plan import Plan, PlanRow
from pantry.rules.plan import plan as plan_of

PAR_AHEAD = timedelta(days=10)
"""So far ahead daily use and par are planned; what menus need is planned as far as they go."""


def planned(view: View) -> Plan:
    """The plan of the days ahead."""
    return plan_of(
        view.house,
        view.kitchen,
        view.suppliers.values(),
        view.packs,
        view.needs,
        view.now,
        view.now + PAR_AHEAD,
        placed=view.placed,
        covered=view.covered,
    )


def plan(view: View) -> list[Row]:
    """A row for each item on each delivery, and for what no delivery can make, by deadline.

    In `derivation` stands every figure a row follows from, with the rules by number: quantities in
    whole thousandths of the item's base unit, money in minor units.
    """
    found = planned(view)
    return [_row(view, found, row) for row in found.rows]


def _row(view: View, plan: Plan, row: PlanRow) -> Row:
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
        "ways_out": ways_out_of(view, plan, row) if row.alert is Alert.MISSED else [],
        "cost": money(row.cost, view),
        "at_risk": row.at_risk,
        "derivation": as_data(row.derivation),
    }
