"""What the plan's orders cost, beside the bound that a MILP solver proves (PL4)."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import mean
from typing import Any, NamedTuple

from tests.outside.order_cost_bound import GAP, SECONDS, proven_bound
from tests.outside.order_cost_houses import drawn

MEAN, WORST = 1.05, 1.15
"""What PL4 allows."""


class House(NamedTuple):
    """One random house: what its plan costs and the least that any could, in minor units."""

    seed: int
    cost: float
    bound: float

    @property
    def ratio(self) -> float:
        """Cost over bound; 1 where there is nothing to order."""
        return self.cost / self.bound if self.bound > 1e-6 else 1.0


@dataclass(frozen=True)
class Costs:
    """The houses of one kind."""

    kind: str
    houses: Sequence[House]

    @property
    def mean(self) -> float:
        """The mean of all ratios."""
        return mean(house.ratio for house in self.houses)

    @property
    def worst(self) -> float:
        """The largest ratio."""
        return max(house.ratio for house in self.houses)

    @property
    def above(self) -> int:
        """How many cost more than PL4 allows at worst."""
        return sum(house.ratio > WORST for house in self.houses)

    @property
    def wrong(self) -> Iterator[str]:
        """What PL4 does not allow, and what no bound that is one could be."""
        if self.mean > MEAN or self.above:
            yield f"{self.kind}: orders cost {self.mean:.3f} on average, {self.worst:.3f} at worst"
        for house in self.houses:
            if house.cost < house.bound * (1 - 1e-6):
                yield f"{self.kind}, seed {house.seed}: cost {house.cost} under {house.bound}"

    def as_data(self) -> dict[str, Any]:
        """For the results: both sides of every house."""
        return {
            "kind": self.kind,
            "mean": self.mean,
            "worst": self.worst,
            "above_the_worst_allowed": self.above,
            "solver": {"seconds_at_most": SECONDS, "relative_gap": GAP},
            "houses": [house._asdict() | {"ratio": house.ratio} for house in self.houses],
        }


def order_costs(count: int) -> list[Costs]:
    """So many houses of each kind, seeds 0 and up."""
    kinds = {"food dies": True, "nothing dies": False}
    return [
        Costs(kind, [_house(n, dying=dies) for n in range(count)]) for kind, dies in kinds.items()
    ]


def _house(seed: int, *, dying: bool) -> House:
    house = drawn(seed, dying=dying)
    return House(seed, float(house.planned().cost), proven_bound(house))
