"""Measure everything, side by side in one run, and write what was found.

    python tests/bench/run.py            as `make bench` does: writes the figures of the guide
    python tests/bench/run.py --quick    tiny houses, in seconds: that the bench still runs

The results go to `bench-results/` as JSON. It ends with 1 where the bench itself was wrong: a
command that was not applied, a twin that wrote other rows; or where orders cost more than they may
(PL4). Noise is said and does not end it so.
"""

import argparse
import json
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from time import perf_counter
from typing import Any, NamedTuple

import figures
from asked import reports
from at_the_door import Door
from drawing import scenario
from founding import found
from given_commands import Command, confirmations, morning
from late_changes import late_changes
from machine import machine, today, versions
from order_costs import Costs, order_costs
from planning import Ladder, ladder
from processes import import_of_the_demo_house, start_up
from rounds import NOISE_GATE, Ratio, Timing
from scenario import Size

from pantry.world import collect_seldom

SCHEMA = 1
SEED = 20270308
_ROOT = Path(__file__).resolve().parents[2]
_GUIDE = _ROOT / "pantry" / "guide" / "figures.md"


class Giving(NamedTuple):
    """How commands are given: so many in all, so many in a list, so many lists in a commit."""

    count: int
    list_of: int
    group_of: int


@dataclass(frozen=True)
class Scale:
    """How large and how often.

    Attributes:
        sizes: items of the houses that are planned.
        asked: items of the house that reports are asked of.
        house: items of the house whose door is measured.
        facts, choices: how each kind of command is given, one way after the other.
        rounds: of each side.
        costed: houses of each kind whose orders are held against a proven bound.
    """

    sizes: tuple[int, ...]
    asked: int
    house: int
    facts: tuple[Giving, ...]
    choices: tuple[Giving, ...]
    rounds: int
    costed: int


FULL = Scale(
    sizes=(500, 889, 1581, 2812, 5000),
    asked=1000,
    house=500,
    facts=(Giving(64, 1, 1), Giving(96, 1, 32), Giving(200, 200, 1)),
    choices=(Giving(4, 1, 1), Giving(32, 1, 32)),
    rounds=3,
    costed=200,
)
QUICK = Scale(
    sizes=(60, 120),
    asked=120,
    house=60,
    facts=(Giving(12, 1, 1), Giving(12, 1, 6), Giving(12, 12, 1)),
    choices=(Giving(2, 1, 1), Giving(4, 1, 2)),
    rounds=1,
    costed=4,
)


@dataclass
class Run:
    """Everything that one run measures."""

    scale: Scale
    folder: Path
    failures: list[str]

    def door(self) -> Iterator[Ratio]:
        """An ordinary morning and chosen menus, one by one, in groups and in lists."""
        house = scenario(Size.of(self.scale.house), SEED)
        file = found(self.folder, house)
        most = max(giving.count for giving in self.scale.facts)
        given = morning(file, house, most, SEED)
        chosen = list(confirmations(house, SEED))
        for giving in self.scale.facts:
            yield self._measured("a morning's facts", file, given, giving)
        for giving in self.scale.choices:
            yield self._measured("menus chosen", file, chosen, giving)

    def _measured(
        self, name: str, file: Path, commands: Sequence[Command], giving: Giving
    ) -> Ratio:
        door = Door(file, commands[: giving.count], giving.list_of, giving.group_of)
        ratio = door.measure(name, self.scale.rounds)
        self.failures.extend(dict.fromkeys(door.failures))
        return ratio

    def reports(self) -> list[Timing]:
        """Reports of a house."""
        file = found(self.folder, scenario(Size.of(self.scale.asked), SEED))
        return reports(file, self.scale.rounds)

    def late_changes(self) -> tuple[Ratio, Timing]:
        """A late change weighed in the largest house."""
        folder = self.folder / "late"
        folder.mkdir()
        file = found(folder, scenario(Size.of(self.scale.sizes[-1]), SEED))
        return late_changes(file, self.scale.rounds, self.failures)

    def plans(self) -> Ladder:
        """The plan and the projection, of every size."""
        return ladder(self.scale.sizes, SEED, self.scale.rounds)


@dataclass(frozen=True)
class Found:
    """What one run found.

    Attributes:
        wrong: what the bench itself did wrong, and orders that cost more than they may.
    """

    facts: dict[str, Any]
    door: list[Ratio]
    plans: Ladder
    start: Ratio
    alone: list[Timing]
    costs: list[Costs]
    late: Ratio
    wrong: list[str]

    @property
    def noisy(self) -> list[str]:
        """Ratios that the machine was not quiet enough for."""
        return [
            f"{ratio.name}: two copies of our side differ by {ratio.noise:.0%}, more than "
            f"{NOISE_GATE:.0%}: the ratio is not to be relied on"
            for ratio in (*self.door, *self.plans.ratios, self.late, self.start)
            if ratio.noise > NOISE_GATE
        ]

    def as_data(self) -> dict[str, Any]:
        """The results: machine, versions, both sides of each ratio, failures."""
        ratios = [*self.door, *self.plans.ratios, self.late, self.start]
        growth = {name: self.plans.exponent(name) for name in ("plan", "project", "matched")}
        return {
            "schema": SCHEMA,
            **self.facts,
            "ratios": [ratio.as_data() for ratio in ratios],
            "growth": {"exponents": growth, "steps": self.plans.steps},
            "alone": [timing.as_data() for timing in self.alone],
            "order_costs": [costs.as_data() for costs in self.costs],
            "failures": [*self.wrong, *self.noisy],
        }

    def tables(self) -> dict[str, str]:
        """The tables of the guide by the name of their markers."""
        return {
            "machine": figures.facts(self.facts["machine"] | self.facts["versions"]),
            "door": figures.at_the_door(self.door),
            "plan": figures.planning(self.plans),
            "late change": figures.late_change(self.late),
            "alone": figures.alone(self.alone, self.start),
            "order costs": figures.order_costs(self.costs),
            "failures": figures.failures([*self.wrong, *self.noisy]),
        }


def measure(scale: Scale, folder: Path) -> Found:
    """Measure everything once, with the databases in the folder."""
    run = Run(scale, folder, [])
    began = perf_counter()
    here = machine(folder) | {"measured_at": today(), "seed": SEED}
    _say("the plan, on houses of growing size")
    plans = run.plans()
    _say("reports")
    alone = run.reports()
    _say("late changes")
    late, first = run.late_changes()
    alone.append(first)
    _say("the import of the demo house, and start-up")
    alone.append(import_of_the_demo_house(folder, scale.rounds))
    start = start_up(scale.rounds)
    _say("commands through the door")
    door = list(run.door())
    _say("what orders cost")
    costs = order_costs(scale.costed)
    wrong = [*run.failures, *(each for of_kind in costs for each in of_kind.wrong)]
    here["took_seconds"] = round(perf_counter() - began)
    facts = {"machine": here, "versions": versions(), "scale": asdict(scale)}
    return Found(facts, door, plans, start, alone, costs, late, wrong)


def _say(what: str) -> None:
    print(f"Measuring {what} ...", file=sys.stderr, flush=True)


def main() -> int:
    """Measure, write, and say whether the bench itself was right."""
    asked = argparse.ArgumentParser(description="Measure, and write the figures of the guide.")
    asked.add_argument("--quick", action="store_true", help="tiny houses; the guide is left alone")
    asked.add_argument("--results", type=Path, default=_ROOT / "bench-results", metavar="FOLDER")
    asked.add_argument("--page", type=Path, help="the page whose tables are written")
    given = asked.parse_args()
    collect_seldom()  # as the program itself does
    given.results.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=given.results) as folder:
        found = measure(QUICK if given.quick else FULL, Path(folder))
    name = found.facts["machine"]["measured_at"].replace(":", "") + ".json"
    text = json.dumps(found.as_data(), indent=1)
    (given.results / name).write_text(text + "\n", encoding="utf-8")
    page = given.page or (None if given.quick else _GUIDE)
    if page:
        figures.write(page, found.tables())
    for title, table in found.tables().items():
        print(f"{title}\n\n{table}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
