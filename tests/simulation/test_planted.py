"""The simulator sees the faults it is there for."""

import pytest

from tests.simulation.planted import FAULTS


@pytest.mark.parametrize("name", FAULTS)
def test_every_planted_fault_is_caught(premises, name):
    fault = FAULTS[name]
    seen = (fault.played(seed, premises).broken for seed in range(fault.within))
    assert any(seen), f"{fault.within} histories do not see that {fault.says}"
