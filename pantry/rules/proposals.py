"""Proposed services: each alternative against what confirmed services leave (RQ4).

A proposal takes nothing from what is confirmed; what is confirmed has been given its picks, and
they stay. Proposals that could not all have what they take of an item are marked as sharing it.
"""

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import partial

from pantry.rules.allocation import Allocation, Need, Pick
from pantry.rules.case import Case
from pantry.rules.fefo import allocate, allocated
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import DiningTable, Recipe, Service, Serving
from pantry.rules.projection import settled
from pantry.rules.recipes import direct_needs, preparations_below
from pantry.rules.stock import Item


@dataclass(frozen=True, slots=True)
class Proposal:
    """One alternative of a proposed service, as it would be covered.

    Attributes:
        needs: its own, those of preparations that would be made for it included.
        picks: what it would be given.
        short: by need id.
    """

    service: Service
    serving: Serving
    needs: tuple[Need, ...]
    picks: tuple[Pick, ...]
    short: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Menus:
    """What menus are exploded with."""

    recipes: Mapping[str, Recipe]
    items: Mapping[str, Item]
    tables: Mapping[str, DiningTable]


@dataclass(frozen=True, slots=True)
class _Known:
    """What confirmed services have of one item.

    Attributes:
        of_makings: what makings want of it, by id.
        settled: what they get, where none of them takes more than it has.
    """

    case: Case
    of_makings: Mapping[str, Need]
    settled: Allocation | None

    def has(self, need: Need) -> bool:
        """Whether a making wants the very same."""
        same = self.of_makings.get(need.id)
        return same is not None and (same.quantity, same.wanted_by, same.until) == (
            need.quantity,
            need.wanted_by,
            need.until,
        )


class Beside:
    """What confirmed services have, and what they leave for somebody who would come beside them.

    What is found out of an item serves every proposal.

    Args:
        confirmed: what confirmed services are given; it stays as it is.
        direct: the needs of the dishes of confirmed services, by item.
        kitchen: what the confirmed projection started from.
        now: the present.
    """

    def __init__(
        self,
        confirmed: Projection,
        direct: Mapping[str, Sequence[Need]],
        kitchen: Kitchen,
        now: datetime,
    ) -> None:
        self.confirmed = confirmed
        self.direct = direct
        self.kitchen = kitchen
        self.now = now
        self._known: dict[str, _Known] = {}

    def projected(self, own: Sequence[Need]) -> Projection:
        """These needs beside all that is confirmed of the preparations below them."""
        inside = preparations_below({need.item for need in own}, self.kitchen.preparations)
        kitchen = replace(
            self.kitchen,
            preparations=inside,
            fixed={item: self._picks(item) for item in inside},
        )
        theirs = (need for item in inside for need in self._theirs(item, inside))
        return project([*theirs, *own], kitchen, self.now, given=partial(self._given, inside))

    def _given(self, inside: Mapping[str, Recipe], item: str, needs: Sequence[Need]) -> Allocation:
        """What needs are given of something that is bought, those of makings decided anew too.

        Where no confirmed need takes anything of what the picks leave, none does whatever comes
        beside: only what is new is looked at then. Where a making wants otherwise than it did, or
        of two new needs the one that comes first may be another than time says (AL2), all are.
        """
        known = self._known_of(item)
        if known.settled is not None:
            same = {need.id for need in needs if known.has(need)}
            if len(same) == sum(need.via in inside for need in known.of_makings.values()):
                new = [need for need in needs if need.id not in same]
                found = allocated(known.case.beside(new))
                if len(new) == 1 or not found.short:
                    return _together(known.settled, same, found)
        return allocate(
            [*self._theirs(item, inside), *needs],
            self.kitchen.sources.get(item, ()),
            self.now,
            fixed=self._picks(item),
            handling=known.case.handling,
        )

    def _known_of(self, item: str) -> _Known:
        known = self._known.get(item)
        if known is None:
            needs = self.confirmed.needs.get(item, ())
            case = self.kitchen.case(item, needs, self.now, self._picks(item))
            makings = {need.id: need for need in needs if need.via}
            known = self._known[item] = _Known(case, makings, settled(case))
        return known

    def _theirs(self, item: str, inside: Mapping[str, Recipe]) -> Iterator[Need]:
        """The confirmed needs of an item, but for those of makings that are decided anew."""
        yield from self.direct.get(item, ())
        for need in self.confirmed.needs.get(item, ()):
            if need.via and need.via not in inside:
                yield need

    def _picks(self, item: str) -> Sequence[Pick]:
        allocation = self.confirmed.allocations.get(item)
        return allocation.picks if allocation else ()


def _together(settled: Allocation, same: Container[str], new: Allocation) -> Allocation:
    """What these settled needs get, and what new ones do."""
    return Allocation(
        (*(pick for pick in settled.picks if pick.need in same), *new.picks),
        {id_: short for id_, short in settled.short.items() if id_ in same} | new.short,
        new.left,
        new.lost,
    )


def propose(service: Service, serving: Serving, menus: Menus, beside: Beside) -> Proposal:
    """How one alternative of a proposed service would be covered.

    Args:
        service: the proposed service.
        serving: one of its alternatives.
        menus: recipes, items and tables.
        beside: what confirmed services have.

    Raises:
        NotThere, MissingFact, UnreadableInput: as `direct_needs` and `project`.
    """
    alone = replace(service, servings=(serving,))
    zone = beside.kitchen.zone
    own = direct_needs(alone, menus.recipes, menus.items, menus.tables, zone)
    return _proposal(service, serving, own, beside.projected(own))


def _proposal(
    service: Service, serving: Serving, own: Sequence[Need], found: Projection
) -> Proposal:
    """What of a projection is the proposal's own: its dish's needs, and makings only for it."""
    only = {making.id for making in found.makings if set(making.services) == {service.id}}
    named = {need.id for need in own}
    needs = tuple(
        need
        for of_item in found.needs.values()
        for need in of_item
        if need.id in named or need.id.rpartition("|")[0] in only
    )
    mine = {need.id for need in needs}
    picks = tuple(
        pick
        for allocation in found.allocations.values()
        for pick in allocation.picks
        if pick.need in mine
    )
    short = {
        need: quantity
        for allocation in found.allocations.values()
        for need, quantity in allocation.short.items()
        if need in mine
    }
    return Proposal(service, serving, needs, picks, short)


def shared(
    proposals: Sequence[Proposal], left: Mapping[str, int]
) -> dict[tuple[str, str], tuple[str, ...]]:
    """For each proposed service and item, the other services it would have to share it with.

    Of each service the alternative that takes most counts; nothing is marked as long as all of them
    could be given what they take.

    Args:
        proposals: every alternative of every proposed service.
        left: what confirmed services leave of each item, in thousandths.
    """
    most: dict[str, dict[str, int]] = {}
    for proposal in proposals:
        for item, quantity in _taken(proposal).items():
            by_service = most.setdefault(item, {})
            known = by_service.get(proposal.service.id, 0)
            by_service[proposal.service.id] = max(known, quantity)
    return {
        (service, item): tuple(sorted(by_service.keys() - {service}))
        for item, by_service in most.items()
        if len(by_service) > 1 and sum(by_service.values()) > left.get(item, 0)
        for service in by_service
    }


def _taken(proposal: Proposal) -> dict[str, int]:
    """What a proposal is given of each item."""
    item_of = {need.id: need.item for need in proposal.needs}
    taken: dict[str, int] = {}
    for pick in proposal.picks:
        item = item_of[pick.need]
        taken[item] = taken.get(item, 0) + pick.quantity
    return taken
