"""The cost of the order plan against a MILP's proven bound (PL4), which shares no code with it.

The bound comes from HiGHS through SciPy: whole packs on deliveries, charges once a delivery, what
an order is below a supplier's minimum paid for, every need covered by what is in before it. Nothing
dies in these houses, so that the model is exact and its optimum is what no plan can be under.
"""

from dataclasses import dataclass
from random import Random  # noqa: TID251 - a test draws by seed

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from tests.rules.planned_house import at, delivers, item, need, pack, planned

HOUSES = 40
FIRST_DAY, DAYS = 10, 10
GAP = 1e-6


@dataclass(frozen=True)
class Case:
    """A random house: suppliers with charge and minimum, packs, needs by item and day."""

    suppliers: dict
    packs: list
    needs: dict


def a_house(seed: int) -> Case:
    draw = Random(seed)  # noqa: S311 - as above
    suppliers = {
        f"s{n}": (
            sorted(draw.sample(range(7), draw.randint(2, 5))),
            draw.choice((0, 300, 500, 900)),
            draw.choice((0, 0, 1500, 3000)),
        )
        for n in range(draw.randint(2, 3))
    }
    items = [f"i{n}" for n in range(draw.randint(2, 5))]
    packs = []
    for name in items:
        sellers = draw.sample(sorted(suppliers), draw.randint(1, len(suppliers)))
        for seller in sellers:
            size = draw.choice((250, 500, 1000, 2000))
            price = round(size * draw.uniform(0.4, 1.0))
            packs.append((seller, name, size, price))
    needs = {
        name: sorted(
            (day, draw.randint(1, 30) * 50)
            for day in draw.sample(range(FIRST_DAY + 5, FIRST_DAY + DAYS), draw.randint(1, 4))
        )
        for name in items
    }
    return Case(suppliers, packs, needs)


def weekday(day: int) -> int:
    return (day - 8) % 7  # 8 March 2027 is a Monday


def bound(case: Case) -> float:
    """The least that any plan for the house can cost, in minor units, by HiGHS."""
    days = range(9, FIRST_DAY + DAYS)  # the first delivery that can still be ordered is tomorrow's
    comes = [
        (s, d) for s, (week, _, _) in case.suppliers.items() for d in days if weekday(d) in week
    ]
    buys = [(p, d) for p in range(len(case.packs)) for s, d in comes if s == case.packs[p][0]]
    used, below = len(buys), len(buys) + len(comes)
    size = below + len(comes)
    cost, rows, least = np.zeros(size), [], []
    for column, (p, _) in enumerate(buys):
        cost[column] = case.packs[p][3]
    for n, (supplier, day) in enumerate(comes):
        _, charge, minimum = case.suppliers[supplier]
        cost[used + n], cost[below + n] = charge, 1
        goods = {c: buys[c] for c in range(used) if buys[c][1] == day
                 and case.packs[buys[c][0]][0] == supplier}  # fmt: skip
        for column in goods:  # a pack comes only on a delivery that is used
            row = np.zeros(size)
            row[used + n], row[column] = 200, -1
            rows.append(row)
            least.append(0)
        row = np.zeros(size)  # goods + what is below the minimum reach the minimum, if it is used
        for column, (p, _) in goods.items():
            row[column] = case.packs[p][3]
        row[below + n], row[used + n] = 1, -minimum
        rows.append(row)
        least.append(0)
    for name, wanted in case.needs.items():
        total = 0
        for day, quantity in wanted:
            total += quantity
            row = np.zeros(size)
            for column, (p, d) in enumerate(buys):
                if case.packs[p][1] == name and d <= day:
                    row[column] = case.packs[p][2]
            rows.append(row)
            least.append(total)
    whole = np.array([1] * (used + len(comes)) + [0] * len(comes))
    upper = np.array([200.0] * used + [1.0] * len(comes) + [np.inf] * len(comes))
    found = milp(
        cost,
        integrality=whole,
        bounds=Bounds(0, upper),
        constraints=LinearConstraint(np.array(rows), np.array(least), np.inf),
        options={"mip_rel_gap": GAP, "time_limit": 30},
    )
    assert found.status == 0, found.message
    return found.mip_dual_bound


def cost_of_plan(case: Case) -> float:
    suppliers = [
        delivers(name, week, charge=charge, minimum=minimum)
        for name, (week, charge, minimum) in case.suppliers.items()
    ]
    packs = [pack(s, name, size, price, sealed=0) for s, name, size, price in case.packs]
    needs = [
        need(name, quantity, day) for name, wanted in case.needs.items() for day, quantity in wanted
    ]
    found = planned([item(name) for name in case.needs], suppliers, packs, needs, horizon=at(22))
    assert not any(row.alert == "missed" for row in found.rows)
    return float(found.cost)


@pytest.fixture(scope="module")
def ratios():
    return [cost_of_plan(case) / bound(case) for case in map(a_house, range(HOUSES))]


def test_PL4_the_order_plan_costs_within_five_percent_of_the_proven_bound_on_average(ratios):
    assert min(ratios) >= 1 - 1e-4  # no plan is cheaper than the bound, or one of them is wrong
    assert sum(ratios) / len(ratios) <= 1.05


def test_PL4_and_at_worst_within_fifteen_percent(ratios):
    assert max(ratios) <= 1.15
