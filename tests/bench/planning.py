"""The plan of the days ahead and the projection of the kitchen, beside the plain twin."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import log
from statistics import linear_regression, median
from time import perf_counter

from drawing import scenario
from naive_matching import matched
from rounds import Ratio, Side, alternate, compare
from scenario import HOUSE, NOW, ZONE, Scenario, Size

from pantry.handbook.policies import policy
from pantry.rules.house_lives import HouseLives
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.market import Market
from pantry.rules.plan import Plan, plan
from pantry.world import without_collecting


@dataclass(frozen=True)
class Planned:
    """A scenario with every promise that its stock allows made and kept.

    Attributes:
        kitchen: with what is promised as fixed picks, as the report of the plan reads it.
        covered: what each need has been promised.
    """

    scenario: Scenario
    kitchen: Kitchen
    covered: dict[str, int]

    def project(self) -> Projection:
        """The kitchen projected, as a report does that only asks what everything is covered by."""
        scenario = self.scenario
        market = Market(
            scenario.suppliers,
            scenario.packs,
            margin=HOUSE.receiving_margin,
            zone=ZONE,
            now=NOW,
            last=scenario.horizon,
        )
        return project(
            scenario.needs,
            self.kitchen,
            NOW,
            last_order_by=lambda need: market.last_order_by(need.item, need.wanted_by, need.until),
            covered=self.covered,
        )

    def plan(self) -> Plan:
        """What to order of whom by when, as the report of the plan has it worked out."""
        scenario = self.scenario
        with without_collecting():
            return plan(
                HOUSE,
                self.kitchen,
                scenario.suppliers,
                scenario.packs,
                scenario.needs,
                NOW,
                scenario.horizon,
                covered=self.covered,
            )


def planned(house: Scenario) -> Planned:
    """The scenario with its promises."""
    lives = HouseLives(policy(HOUSE.policy), ZONE)
    kitchen = Kitchen(
        items=house.items,
        preparations=house.preparations,
        sources=house.sources,
        fixed={},
        handling=lives.handling_of(house.sources),
        zone=ZONE,
        made_until=lives.made_until,
    )
    first = Planned(house, kitchen, {}).project()
    batches = {batch.id for batch in house.batches}
    fixed = {
        item: [pick for pick in allocation.picks if pick.source in batches]
        for item, allocation in first.allocations.items()
    }
    covered: dict[str, int] = {}
    for picks in fixed.values():
        for pick in picks:
            covered[pick.need] = covered.get(pick.need, 0) + pick.quantity
    return Planned(house, replace(kitchen, fixed=fixed), covered)


def timed(work: Callable[[], object]) -> Side:
    """A side that does the work and answers how long it took."""

    def side() -> float:
        begun = perf_counter()
        work()
        return perf_counter() - begun

    return side


@dataclass
class Ladder:
    """The same measures on houses of growing size, for how they grow.

    Attributes:
        steps: of each size, what there is of everything, and the seconds in the middle of `plan`,
            `project` and `matched`, the plain twin.
        ratios: plan and projection over the twin, of the largest.
    """

    steps: list[dict[str, float]]
    ratios: list[Ratio]

    def exponent(self, name: str) -> float:
        """How the seconds grow with the house: the slope of their logarithms."""
        sizes = [log(step["items"]) for step in self.steps]
        seconds = [log(step[name]) for step in self.steps]
        return linear_regression(sizes, seconds).slope


def ladder(sizes: Sequence[int], seed: int, rounds: int) -> Ladder:
    """Every size measured; the last is compared with the twin by turns."""
    steps = [_step(items, seed, rounds) for items in sizes[:-1]]
    last = planned(scenario(Size.of(sizes[-1]), seed))
    twin = _twin(last)
    facts = _facts(last)
    ratios = [
        Ratio(name, ours, "needs and batches sorted and matched", 1, seconds, facts)
        for name, ours, seconds in (
            ("plan", "what to order of whom by when", compare(timed(last.plan), twin, rounds)),
            ("project", "the kitchen projected", compare(timed(last.project), twin, rounds)),
        )
    ]
    middle = {ratio.name: ratio.side("ours") for ratio in ratios}
    steps.append(facts | middle | {"matched": ratios[0].side("twin")})
    return Ladder(steps, ratios)


def _step(items: int, seed: int, rounds: int) -> dict[str, float]:
    of_size = planned(scenario(Size.of(items), seed))
    sides = {"plan": timed(of_size.plan), "project": timed(of_size.project)}
    seconds = alternate(sides | {"matched": _twin(of_size)}, rounds)
    return _facts(of_size) | {name: median(rounds) for name, rounds in seconds.items()}


def _twin(of_size: Planned) -> Side:
    """Matching the same needs, those of preparations included, and the same batches."""
    needs = [need for of_item in of_size.project().needs.values() for need in of_item]
    return timed(lambda: matched(needs, of_size.scenario.batches))


def _facts(of_size: Planned) -> dict[str, float]:
    size, projection = of_size.scenario.size, of_size.project()
    return {
        "items": size.items,
        "batches": size.batches,
        "services": size.services,
        "deliveries": size.deliveries,
        "needs": sum(len(needs) for needs in projection.needs.values()),
        "makings": len(projection.makings),
    }
