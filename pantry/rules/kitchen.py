"""The whole kitchen projected: every need against every source, preparations level by level.

MRP's low-level coding (J. Orlicky, Material Requirements Planning, 1975): an item is worked out
only once everything it goes into has been, so that each is netted once (RQ1).
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property
from operator import attrgetter
from typing import TypeAlias
from zoneinfo import ZoneInfo

from pantry.rules.allocation import Allocation, Handling, Need, Pick, Source
from pantry.rules.case import Case
from pantry.rules.fefo import allocated
from pantry.rules.makings import MadeUntil, Making, Makings, ingredients_of
from pantry.rules.menu import Recipe
from pantry.rules.projection import Buy
from pantry.rules.recipes import levels
from pantry.rules.stock import Item

Given: TypeAlias = Callable[[str, Sequence[Need]], Allocation]
"""Says what the needs of an item are given."""


_TIME_RANK_ID = attrgetter("wanted_by", "rank", "id")


@dataclass(frozen=True)
class Kitchen:
    """What a projection starts from.

    Attributes:
        items: by item id.
        preparations: the recipe of each preparation, by the id of the item it makes.
        sources: what there is of each item, and what is to come, by item id.
        fixed: picks that stay, by item id.
        handling: what using an item implies.
        zone: the house's.
        made_until: how long what is made keeps, the house's own life where the recipe has none.
    """

    items: Mapping[str, Item]
    preparations: Mapping[str, Recipe]
    sources: Mapping[str, Sequence[Source]]
    fixed: Mapping[str, Sequence[Pick]]
    handling: Callable[[Item], Handling]
    zone: ZoneInfo
    made_until: MadeUntil

    @cached_property
    def levels(self) -> Mapping[str, int]:
        """How deep each preparation and ingredient stands; see `recipes.levels`."""
        return levels(self.preparations)

    def case(
        self, item: str, needs: Iterable[Need], now: datetime, fixed: Sequence[Pick] | None = None
    ) -> Case:
        """An item's needs with what there is for them; its own picks stay, or others do (AL2)."""
        return Case(
            needs,
            self.sources.get(item, ()),
            now,
            self.fixed.get(item, ()) if fixed is None else fixed,
            self.handling(self.items[item]),
        )


@dataclass(frozen=True, slots=True)
class Projection:
    """What everything needs, gets, lacks and loses, and what has to be made.

    Attributes:
        needs: by item id, in the order of time.
        allocations: by item id, for every item in `needs`.
        makings: from the highest level down, by item and then in the order of time.
    """

    needs: dict[str, tuple[Need, ...]] = field(default_factory=dict)
    allocations: dict[str, Allocation] = field(default_factory=dict)
    makings: tuple[Making, ...] = ()


@dataclass(frozen=True, slots=True)
class _Terms:
    """On what terms needs are given: see `project` and `allocate`."""

    now: datetime
    last_order_by: Callable[[Need], datetime | None] | None
    covered: Mapping[str, int]
    yielding: frozenset[str]


def project(
    direct: Iterable[Need],
    kitchen: Kitchen,
    now: datetime,
    *,
    last_order_by: Callable[[Need], datetime | None] | None = None,
    covered: Mapping[str, int] = {},
    yielding: frozenset[str] = frozenset(),
    given: Given | None = None,
) -> Projection:
    """Give every need what it can be given, making what is short of preparations (RQ1, RQ3, AL1).

    A preparation is given from what is made already; what is short is made in the order of time,
    and its ingredients become needs of their own. Exactly the items of `direct` and those below
    their preparations are worked out, so that part of a kitchen can be planned again: give then
    also the needs that makings outside that part have of its items.

    Args:
        direct: needs of services, of daily use, of makings that are not worked out here.
        kitchen: what there is, and how things are made.
        now: the present, aware, in UTC.
        last_order_by: the last possible order-by for a need. For a need of a preparation: of what
            it lacks; once that has passed it is first in line for what is made already (AL2). None
            says that it can be made as long as it is wanted.
        covered: what each need had been promised before, by id.
        yielding: ids of needs that the chef has agreed to uncover.
        given: for an item that is not made here, what says what its needs are given, in place of
            `allocate`.

    Raises:
        UnreadableInput: `recipe_cycle`, `yield_missing`.
        NotThere: `ingredient_unknown`.
        MissingFact: `piece_unknown`.
    """
    terms = _Terms(now, last_order_by, covered, yielding)
    waiting = _Waiting(direct, kitchen.levels)
    projection = Projection()
    makings: list[Making] = []
    for item, wanted in waiting.from_above():
        needs = projection.needs[item] = _in_order(wanted, terms)
        recipe = kitchen.preparations.get(item)
        if recipe is None:
            projection.allocations[item] = (
                given(item, needs) if given else _given(item, needs, kitchen, terms)
            )
            continue
        projection.allocations[item], made = _prepared(recipe, item, needs, kitchen, terms)
        for making, served in made:
            makings.append(making)
            waiting.add(ingredients_of(making, served, recipe, kitchen.items))
    return replace(projection, makings=tuple(makings))


def bought_for(
    direct: Iterable[Need], kitchen: Kitchen, made: Mapping[str, Sequence[Source]], now: datetime
) -> list[Need]:
    """What needs come to of everything that is not made here, level by level.

    It is what `project` finds for those items, which are given nothing here: for somebody who asks
    whether they could be had.

    Args:
        direct: the needs of a dish.
        kitchen: how things are made; what stands in it plays no part.
        made: what there is for these needs of each preparation.
        now: the present, aware, in UTC.

    Raises:
        UnreadableInput, NotThere, MissingFact: as `project`.
    """
    alone = replace(kitchen, sources=made, fixed={})
    terms = _Terms(now, None, {}, frozenset())
    waiting = _Waiting(direct, kitchen.levels)
    bought: list[Need] = []
    for item, wanted in waiting.from_above():
        needs = _in_order(wanted, terms)
        recipe = kitchen.preparations.get(item)
        if recipe is None:
            bought.extend(needs)
            continue
        for making, served in _prepared(recipe, item, needs, alone, terms)[1]:
            waiting.add(ingredients_of(making, served, recipe, kitchen.items))
    return bought


class _Waiting:
    """Needs that are still to be worked out, by level and item (RQ1)."""

    def __init__(self, direct: Iterable[Need], level: Mapping[str, int]) -> None:
        self.level = level
        self.needs: dict[int, dict[str, list[Need]]] = {}
        self.add(direct)

    def add(self, needs: Iterable[Need]) -> None:
        """Put needs to those of their item, which has not been worked out yet."""
        for need in needs:
            of_level = self.needs.setdefault(self.level.get(need.item, 0), {})
            of_level.setdefault(need.item, []).append(need)

    def from_above(self) -> Iterator[tuple[str, Sequence[Need]]]:
        """Each item with all its needs, once everything it goes into has been worked out."""
        while self.needs:
            of_level = self.needs.pop(min(self.needs))
            for item in sorted(of_level):
                yield item, of_level[item]


def _in_order(needs: Iterable[Need], terms: _Terms) -> tuple[Need, ...]:
    """The needs in the order of time, each with its last possible order-by."""
    if terms.last_order_by:
        needs = [_ordered_by(need, terms.last_order_by(need)) for need in needs]
    return tuple(sorted(needs, key=_TIME_RANK_ID))


def _ordered_by(need: Need, instant: datetime | None) -> Need:
    if instant == need.last_order_by:
        return need
    return Need(
        need.id,
        need.service,
        need.dish,
        need.item,
        need.quantity,
        need.wanted_by,
        need.until,
        need.rank,
        need.via,
        instant,
    )


def _given(
    item: str,
    needs: Sequence[Need],
    kitchen: Kitchen,
    terms: _Terms,
    buy: Buy | None = None,
    fixed: Sequence[Pick] | None = None,
) -> Allocation:
    return allocated(
        kitchen.case(item, needs, terms.now, fixed),
        buy=buy,
        covered=terms.covered,
        yielding=terms.yielding,
    )


def _prepared(
    recipe: Recipe, item: str, needs: Sequence[Need], kitchen: Kitchen, terms: _Terms
) -> tuple[Allocation, list[tuple[Making, Sequence[Need]]]]:
    """What a preparation's needs are given, and what has to be made for them.

    For the allocation a making is something that can be bought as long as it is wanted. What can
    be made no more, for want of something, takes from what is there before that.
    """
    makings = Makings(recipe, terms.now, kitchen.zone, kitchen.made_until)
    fixed = tuple(kitchen.fixed.get(item, ()))
    pressing = {need.id for need in needs if need.last_order_by and need.last_order_by < terms.now}
    makeable = [_ordered_by(need, max(need.wanted_by, terms.now)) for need in needs]
    if pressing:
        first = [
            need if need.id in pressing else can for need, can in zip(needs, makeable, strict=True)
        ]
        theirs = _given(item, first, kitchen, terms).picks
        fixed = (
            *(pick for pick in fixed if pick.need not in pressing),
            *(pick for pick in theirs if pick.need in pressing),
        )
    allocation = _given(item, makeable, kitchen, terms, makings.make, fixed)
    return allocation, list(makings.decided(needs, allocation.picks))
