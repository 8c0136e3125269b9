"""What the plan's orders cost against the bound that a MILP solver proves (PL4).

A sample; `make bench` measures 200 houses of each kind.
"""

import numpy as np
import pytest

from tests.outside.order_cost_bound import proven_bound
from tests.outside.order_cost_houses import drawn

SEEDS = (*range(35), 58, 63, 80, 101, 118)
"""The last five once were above 1.06, by the search or by a bound that no plan could reach."""


@pytest.fixture(scope="module", params=[True, False], ids=["food dies", "nothing dies"])
def ratios(request):
    """What the plan costs over the proven bound, for each of forty houses."""
    found = []
    for seed in SEEDS:
        house = drawn(seed, dying=request.param)
        bound, plan = proven_bound(house), house.planned()
        assert not any(allocation.short for allocation in plan.projection.allocations.values())
        assert plan.cost >= bound * (1 - 1e-6), seed
        found.append(float(plan.cost) / bound if bound > 1e-6 else 1.0)
    return found


def test_PL4_orders_cost_within_five_per_cent_of_the_proven_bound_on_average(ratios):
    assert np.mean(ratios) <= 1.05


def test_PL4_orders_cost_within_fifteen_per_cent_of_the_proven_bound_at_worst(ratios):
    assert max(ratios) <= 1.15
