"""Proposed services: each alternative against what confirmed services leave (RQ4).

A proposal takes nothing from what is confirmed; what is confirmed has been given its picks, and
they stay. Proposals that could not all have what they take of an item are marked as sharing it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from pantry.rules.allocation import Need, Pick
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import DiningTable, Recipe, Service, Serving
from pantry.rules.recipes import direct_needs
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


def propose(
    service: Service,
    serving: Serving,
    menus: Menus,
    confirmed: Projection,
    direct: Mapping[str, Sequence[Need]],
    kitchen: Kitchen,
    now: datetime,
) -> Proposal:
    """How one alternative of a proposed service would be covered.

    Args:
        service: the proposed service.
        serving: one of its alternatives.
        menus: recipes, items and tables.
        confirmed: what confirmed services are given; it stays as it is.
        direct: the needs of the dishes of confirmed services, by item.
        kitchen: what the confirmed projection started from.
        now: the present.

    Raises:
        NotThere, MissingFact, UnreadableInput: as `direct_needs` and `project`.
    """
    alone = replace(service, servings=(serving,))
    own = direct_needs(alone, menus.recipes, menus.items, menus.tables, kitchen.zone)
    scope = _below({need.item for need in own}, kitchen.preparations)
    inside = scope & kitchen.preparations.keys()
    theirs = [need for item in scope for need in direct.get(item, ())] + [
        need
        for item in scope
        for need in confirmed.needs.get(item, ())
        if need.via and need.via not in inside
    ]
    fixed = replace(
        kitchen,
        preparations={item: kitchen.preparations[item] for item in inside},
        fixed={item: _picks(confirmed, item) for item in scope},
    )
    found = project([*theirs, *own], fixed, now)
    return _proposal(service, serving, own, found)


def _below(items: Iterable[str], preparations: Mapping[str, Recipe]) -> set[str]:
    scope, waiting = set[str](), list(items)
    while waiting:
        item = waiting.pop()
        if item not in scope:
            scope.add(item)
            if item in preparations:
                waiting.extend(line.item for line in preparations[item].ingredients)
    return scope


def _picks(confirmed: Projection, item: str) -> Sequence[Pick]:
    allocation = confirmed.allocations.get(item)
    return allocation.picks if allocation else ()


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
