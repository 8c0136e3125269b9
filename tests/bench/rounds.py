"""Sides measured by turns in one run, and whether the machine was quiet enough to compare them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from statistics import median
from typing import Any

NOISE_GATE = 0.10
"""Two copies of one side may differ by so much of the smaller; else no ratio is relied on."""

Side = Callable[[], float]
"""Does the work once, sets up and clears away by itself, and answers the seconds of the work."""


@dataclass
class Ratio:
    """One side over the other, each the median of its rounds.

    Attributes:
        name: what was measured.
        ours, twin: what each side is, in plain words.
        count: how many things are done in a round; figures are given for each.
        seconds: of each round: `ours`, `ours_again` (the same once more), `twin`.
        facts: what else belongs beside the figures.
    """

    name: str
    ours: str
    twin: str
    count: int
    seconds: dict[str, list[float]]
    facts: dict[str, Any] = field(default_factory=dict)

    def side(self, name: str) -> float:
        """Seconds of one thing on a side."""
        rounds = self.seconds[name]
        if name == "ours":
            rounds = rounds + self.seconds["ours_again"]
        return median(rounds) / self.count

    @property
    def times(self) -> float:
        """How many times as long ours takes."""
        return self.side("ours") / self.side("twin")

    @property
    def noise(self) -> float:
        """By how much two copies of our side differ."""
        one, other = median(self.seconds["ours"]), median(self.seconds["ours_again"])
        return abs(one - other) / min(one, other)

    def as_data(self) -> dict[str, Any]:
        """Both sides of the ratio, for the results."""
        return {
            "name": self.name,
            "ours": {"what": self.ours, "seconds_each": self.side("ours")},
            "twin": {"what": self.twin, "seconds_each": self.side("twin")},
            "ours_takes_times_as_long": self.times,
            "noise": self.noise,
            "count_a_round": self.count,
            "seconds_by_round": self.seconds,
            **self.facts,
        }


@dataclass
class Timing:
    """Something that is measured alone, with nothing to hold it against."""

    name: str
    seconds: list[float]
    facts: dict[str, Any] = field(default_factory=dict)

    @property
    def middle(self) -> float:
        """The median of its rounds."""
        return median(self.seconds)

    def as_data(self) -> dict[str, Any]:
        """For the results."""
        return {"name": self.name, "seconds": self.middle, "seconds_by_round": self.seconds} | (
            self.facts
        )


def alternate(sides: Mapping[str, Side], rounds: int) -> dict[str, list[float]]:
    """Seconds of every side in every round; each round goes through them the other way round."""
    seconds: dict[str, list[float]] = {name: [] for name in sides}
    order = list(sides)
    for _ in range(rounds):
        for name in order:
            seconds[name].append(sides[name]())
        order.reverse()
    return seconds


def compare(ours: Side, twin: Side, rounds: int) -> dict[str, list[float]]:
    """Ours, the twin, and ours once more, by turns."""
    return alternate({"ours": ours, "twin": twin, "ours_again": ours}, rounds)
