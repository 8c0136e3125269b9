"""What the plan's orders cost against the bound that a MILP solver proves (PL4).

A sample; `make bench` measures 200 houses of each kind.
"""

from statistics import mean

import pytest

from tests.outside.order_cost_bound import proven_bound
from tests.outside.order_cost_houses import drawn

SEEDS = (*range(35), 58, 63, 80, 101, 118)
"""The last five once were above 1.06, by the search or by a bound that no plan could reach."""


@pytest.mark.parametrize("dying", [True, False], ids=["food dies", "nothing dies"])
def test_PL4_orders_cost_within_5_per_cent_of_the_bound_on_average_and_15_at_worst(dying):
    ratios = {}
    for seed in SEEDS:
        house = drawn(seed, dying=dying)
        bound, plan = proven_bound(house), house.planned()
        assert not any(allocation.short for allocation in plan.projection.allocations.values())
        assert plan.cost >= bound * (1 - 1e-6), seed
        ratios[seed] = float(plan.cost) / bound if bound > 1e-6 else 1.0
    assert mean(ratios.values()) <= 1.05
    assert max(ratios.values()) <= 1.15, ratios
