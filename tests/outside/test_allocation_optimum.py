"""Allocation of one item against proven optima of a mixed-integer programme.

The optimiser is HiGHS through SciPy's `scipy.optimize.milp`; it is given the rule as constraints
and shares no code with rules/. Quantities are whole, so that optimum and answer must be *equal*.
Cases are drawn from fixed seeds: no opening, no thawing, no whole pieces, for which AL1 says that
first expired, first out is optimal.
"""

from collections import defaultdict
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from pantry.rules.fefo import Need, Pick, Source, allocate

NOW = datetime(2027, 3, 8, 6, tzinfo=UTC)
HOUR = timedelta(hours=1)
CASES = 300


class House:
    """One random case: needs, sources, and a few picks that were fixed before."""

    def __init__(self, seed, *, pressing_share, fixed=False):
        draw = np.random.default_rng(seed)
        self.needs = [
            self._need(draw, number, pressing_share) for number in range(draw.integers(1, 9))
        ]
        self.sources = [self._source(draw, number) for number in range(draw.integers(1, 7))]
        self.pairs = [
            (source, need)
            for source in range(len(self.sources))
            for need in range(len(self.needs))
            if self._may_serve(self.sources[source], self.needs[need])
        ]
        self.fixed = self._fixed(draw) if fixed else []

    @staticmethod
    def _need(draw, number, pressing_share):
        wanted_by = NOW + HOUR * int(draw.integers(-12, 100))
        through = HOUR * int(draw.choice([0, 0, 6, 24, 60]))
        pressing = draw.random() < pressing_share
        return Need(
            f"n{number}",
            f"s{number}",
            "dish",
            "cream",
            int(draw.integers(1, 30)),
            wanted_by,
            wanted_by + through,
            rank=int(draw.integers(1, 4)),
            last_order_by=None if pressing else NOW + HOUR,
        )

    @staticmethod
    def _source(draw, number):
        dies = NOW + HOUR * int(draw.integers(-6, 140))
        ready = NOW + HOUR * int(draw.integers(1, 90))
        return Source(
            "batch",
            f"b{number}",
            "cream",
            int(draw.integers(1, 40)),
            dies if draw.random() < 0.85 else None,
            None,
            NOW - HOUR * int(draw.integers(0, 90)),
            ready=ready if draw.random() < 0.4 else None,
        )

    @staticmethod
    def window(need):
        at = max(need.wanted_by, NOW)
        return at, max(need.until, at)

    def _may_serve(self, source, need):
        at, until = self.window(need)
        there = source.ready is None or source.ready <= at
        return there and (source.usable_until is None or source.usable_until >= until)

    def _fixed(self, draw):
        there = [source.quantity for source in self.sources]
        wanted = [need.quantity for need in self.needs]
        fixed = []
        for source, need in self.pairs:
            quantity = min(there[source], wanted[need], int(draw.integers(0, 8)))
            if quantity and draw.random() < 0.3:
                there[source] -= quantity
                wanted[need] -= quantity
                fixed.append(Pick(f"n{need}", f"b{source}", quantity))
        return fixed

    def dies_in_time(self, source):
        """Whether what is left of it is lost before the last need is over."""
        over = max(self.window(need)[1] for need in self.needs)
        dies = self.sources[source].usable_until
        return dies is not None and dies < over


class Optimum:
    """The programme: how much of each source each need gets, constrained further step by step."""

    def __init__(self, house):
        self.house = house
        pairs = house.pairs
        self.rows, self.lows, self.highs = [], [], []
        for number, source in enumerate(house.sources):
            self.hold([pair[0] == number for pair in pairs], 0, source.quantity)
        for number, need in enumerate(house.needs):
            self.hold([pair[1] == number for pair in pairs], 0, need.quantity)
        for pick in house.fixed:
            pair = (int(pick.source[1:]), int(pick.need[1:]))
            self.hold([one == pair for one in pairs], pick.quantity, np.inf)

    def hold(self, weights, low, high):
        self.rows.append(np.array(weights, dtype=float))
        self.lows.append(low)
        self.highs.append(high)

    def most(self, weights):
        """The largest weighted sum, which is held from then on."""
        if not self.house.pairs:
            return 0
        weights = np.array(weights, dtype=float)
        answer = milp(
            -weights,
            integrality=np.ones_like(weights),
            bounds=Bounds(0, np.inf),
            constraints=LinearConstraint(np.array(self.rows), self.lows, self.highs),
        )
        assert answer.status == 0, answer.message
        best = round(-answer.fun)
        self.hold(weights, best, np.inf)
        return best

    def least_lost(self):
        """With what is held so far, the least that dies unused."""
        house = self.house
        dying = [house.dies_in_time(source) for source in range(len(house.sources))]
        supply = sum(s.quantity for s, dies in zip(house.sources, dying, strict=True) if dies)
        return supply - self.most([dying[source] for source, _ in house.pairs])


def outcome(house):
    answer = allocate(house.needs, house.sources, NOW, fixed=house.fixed)
    covered = defaultdict(int)
    for pick in answer.picks:
        covered[pick.need] += pick.quantity
    return answer, covered, sum(loss.quantity for loss in answer.lost)


@pytest.mark.parametrize("fixed", [False, True])
def test_AL1_first_expired_first_out_covers_most_and_then_loses_least(fixed):
    short = lossy = 0
    for seed in range(CASES):
        house = House(seed, pressing_share=0, fixed=fixed)
        _, covered, lost = outcome(house)
        optimum = Optimum(house)
        assert sum(covered.values()) == optimum.most([1] * len(house.pairs)), seed
        assert lost == optimum.least_lost(), seed
        short += sum(covered.values()) < sum(need.quantity for need in house.needs)
        lossy += lost > 0
    assert short > CASES // 4  # the cases are hard enough to mean something
    assert lossy > CASES // 4


def by_precedence(needs):
    """AL2: what cannot be bought any more by rank, then what can in the order of time."""
    pressing = [need for need in needs if need.last_order_by is None]
    others = [need for need in needs if need.last_order_by is not None]
    pressing.sort(key=lambda need: (need.rank, max(need.wanted_by, NOW), need.id))
    others.sort(key=lambda need: (max(need.wanted_by, NOW), need.rank, need.id))
    return pressing + others


@pytest.mark.parametrize("fixed", [False, True])
def test_AL2_each_need_in_its_turn_gets_the_most_that_those_before_it_leave(fixed):
    moved = 0
    for seed in range(CASES // 2):
        house = House(10_000 + seed, pressing_share=0.5, fixed=fixed)
        _, covered, lost = outcome(house)
        optimum = Optimum(house)
        for need in by_precedence(house.needs):
            place = house.needs.index(need)
            most = optimum.most([pair[1] == place for pair in house.pairs])
            assert covered[need.id] == most, (seed, need.id)
        assert lost == optimum.least_lost(), seed
        as_if_bought = House(10_000 + seed, pressing_share=0, fixed=fixed)
        moved += outcome(as_if_bought)[1] != covered
    assert moved > CASES // 20  # precedence changed something


def test_AL2_serving_by_rank_covers_no_less_in_all():
    for seed in range(CASES // 2):
        house = House(20_000 + seed, pressing_share=0.5)
        _, covered, _ = outcome(house)
        assert sum(covered.values()) == Optimum(house).most([1] * len(house.pairs)), seed
