"""What is left when the last order-by has passed, or nearly: the ways out of a shortage (PL5).

Each way is already checked for feasibility and allergens (AL3) when it is offered; a person takes
one. Where food can hurt someone the person who serves it still looks at the pack: local codes and
licensed practice come first.
"""

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from itertools import chain
from math import ceil
from types import MappingProxyType
from typing import Literal

from pantry.rules.allergens import WORST_FIRST, Certainty
from pantry.rules.allocation import Need
from pantry.rules.buying import (
    Available,
    Offers,
    Purchase,
    Want,
    cost_of,
    purchase_from,
    purchases_for,
    wants_of,
)
from pantry.rules.conflicts import Conflict
from pantry.rules.menu import Recipe, RecipeKind, Substitute
from pantry.rules.seasons import in_season

_NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Shortage:
    """What is lacking for one dish of one service.

    Attributes:
        short: what the need still lacks, in thousandths of the item's base unit.
        on: the date of the service.
        dish: the recipe that is served, with its `variant`, in so many `portions`.
        missed: suppliers whose order-by is missed or in last call; they are no way out.
    """

    need: Need
    short: int
    on: date
    dish: Recipe
    variant: str | None
    portions: int
    missed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Checks:
    """What the ways out are checked against; everything is asked for the service and its table.

    Attributes:
        available: thousandths of an item there for use from an instant through another, promised
            to nobody **or to this dish of this service**; of what is not counted and not out, more
            than any need.
        offers: what can still be bought of an item for use from an instant through another.
        itself: what a dish as it stands wants of what is bought for so many portions, without its
            preparations.
        needs: what a dish in a variant needs for so many portions, through its preparations and
            net of those already made.
        conflicts: who at the table cannot eat a dish in a variant in which some items (the keys)
            are taken by others; unknown is not free (AL3).
        piece: thousandths in one whole piece of an item; 0: it is divisible.
    """

    available: Available
    offers: Offers
    itself: Callable[[str, int], Iterable[Want]]
    needs: Callable[[str, str | None, int], Iterable[Need]]
    conflicts: Callable[[str, str | None, Mapping[str, str]], Iterable[Conflict]]
    piece: Callable[[str], int]

    def wants(self, dish: str, variant: str | None, portions: int) -> tuple[Want, ...]:
        """What a dish wants at this service, item by item."""
        return wants_of(self.needs(dish, variant, portions))

    def are_there(self, wants: Iterable[Want]) -> bool:
        """Whether every want is covered by what is there."""
        return all(
            self.available(want.item, want.wanted_by, want.until) >= want.quantity for want in wants
        )

    def purchases(self, wants: Iterable[Want]) -> tuple[Purchase, ...] | None:
        """What has to be bought so that every want is covered; None: one cannot be."""
        return purchases_for(wants, self.available, self.offers)

    def worst(
        self, dish: str, variant: str | None, instead_of: Mapping[str, str] = _NOTHING
    ) -> dict[tuple[str, str], Certainty]:
        """For each person and what they cannot eat: the worst that is known of the dish."""
        found: dict[tuple[str, str], Certainty] = {}
        for each in self.conflicts(dish, variant, instead_of):
            key = (each.person, each.cannot_eat)
            found[key] = min(found.get(key, each.certainty), each.certainty, key=WORST_FIRST.index)
        return found


@dataclass(frozen=True, slots=True)
class AnotherSupplier:
    """A delivery of another supplier that still makes it.

    What their product declares is checked against the table when it arrives (AL3).
    """

    purchase: Purchase
    kind: Literal["another_supplier"] = "another_supplier"


@dataclass(frozen=True, slots=True)
class UseSubstitute:
    """An approved substitute for what is short, `quantity` in thousandths of its own base unit.

    `purchase` is the part of it that is not there yet; None: all of it is.
    """

    substitute: Substitute
    quantity: int
    purchase: Purchase | None
    kind: Literal["substitute"] = "substitute"


@dataclass(frozen=True, slots=True)
class UseVariant:
    """A variant of the dish that does without the item, and what is to be bought for it."""

    variant: str
    purchases: tuple[Purchase, ...]
    kind: Literal["variant"] = "variant"


@dataclass(frozen=True, slots=True)
class AnotherDish:
    """An approved dish in season for which everything is there."""

    dish: str
    kind: Literal["another_dish"] = "another_dish"


@dataclass(frozen=True, slots=True)
class FewerPortions:
    """How many portions what is there suffices for, at least one."""

    portions: int
    kind: Literal["fewer_portions"] = "fewer_portions"


@dataclass(frozen=True, slots=True)
class ShopRun:
    """Somebody goes to a shop for it; whether one is open and has it nobody here can know."""

    item: str
    quantity: int
    kind: Literal["shop_run"] = "shop_run"


WayOut = AnotherSupplier | UseSubstitute | UseVariant | AnotherDish | FewerPortions | ShopRun


def ways_out(
    shortage: Shortage,
    substitutes: Iterable[Substitute],
    dishes: Iterable[Recipe],
    checks: Checks,
    now: datetime,
) -> tuple[WayOut, ...]:
    """What can still be done, the least change to the menu first and the shop run last (PL5).

    Args:
        shortage: what is lacking, and of what dish.
        substitutes: the approved ones, of any item, in the order they should be offered in.
        dishes: what could be served instead in the same course, in the same order; only approved
            dishes in season are offered.
        checks: what is there, what can come and who cannot eat what.
        now: the present instant.
    """
    return tuple(
        chain(
            _other_suppliers(shortage, checks),
            _substitutes(shortage, substitutes, checks),
            _variants(shortage, checks),
            _other_dishes(shortage, dishes, checks),
            _fewer_portions(shortage, checks),
            _shop_run(shortage, now),
        )
    )


def _other_suppliers(shortage: Shortage, checks: Checks) -> Iterator[WayOut]:
    """The cheapest purchase from every other supplier who still makes it, the cheapest first."""
    need = shortage.need
    cheapest: dict[str, Purchase] = {}
    for offer in checks.offers(need.item, need.wanted_by, need.until):
        supplier = offer.pack.supplier
        if supplier not in shortage.missed:
            purchase = purchase_from(need.item, shortage.short, offer)
            cheapest[supplier] = min(cheapest.get(supplier, purchase), purchase, key=cost_of)
    return map(AnotherSupplier, sorted(cheapest.values(), key=cost_of))


def _substitutes(
    shortage: Shortage, substitutes: Iterable[Substitute], checks: Checks
) -> Iterator[WayOut]:
    """Every substitute of which there is enough and that is no worse for anybody at the table."""
    dish, variant = shortage.dish.id, shortage.variant
    served = checks.worst(dish, variant)
    for each in substitutes:
        if each.item != shortage.need.item:
            continue
        quantity = _in_pieces(ceil(shortage.short * each.ratio), checks.piece(each.substitute))
        purchases = checks.purchases(_wants_with(each, quantity, shortage, checks))
        changed = checks.worst(dish, variant, {each.item: each.substitute})
        if purchases is not None and _no_worse(changed, served):
            yield UseSubstitute(each, quantity, purchases[0] if purchases else None)


def _wants_with(
    substitute: Substitute, quantity: int, shortage: Shortage, checks: Checks
) -> tuple[Want, ...]:
    """The substitute's own want: with what the dish uses of that item anyway."""
    item = substitute.substitute
    needs = checks.needs(shortage.dish.id, shortage.variant, shortage.portions)
    own = (need for need in needs if need.item == item)
    return wants_of((*own, replace(shortage.need, item=item, quantity=quantity)))


def _in_pieces(quantity: int, piece: int) -> int:
    return -(-quantity // piece) * piece if piece else quantity


def _variants(shortage: Shortage, checks: Checks) -> Iterator[WayOut]:
    """Every variant without the item that can be covered and is no worse for anybody."""
    dish = shortage.dish.id
    served = checks.worst(dish, shortage.variant)
    for variant, _ in shortage.dish.variants:
        wants = checks.wants(dish, variant, shortage.portions)
        purchases = checks.purchases(wants)
        without = all(want.item != shortage.need.item for want in wants)
        if without and purchases is not None and _no_worse(checks.worst(dish, variant), served):
            yield UseVariant(variant, purchases)


def _no_worse(
    changed: Mapping[tuple[str, str], Certainty], served: Mapping[tuple[str, str], Certainty]
) -> bool:
    """Whether nobody gets what they could eat so far, nor more surely what they could not."""
    return all(
        WORST_FIRST.index(certainty) >= WORST_FIRST.index(served.get(key, Certainty.FREE_OF))
        for key, certainty in changed.items()
    )


def _other_dishes(shortage: Shortage, dishes: Iterable[Recipe], checks: Checks) -> Iterator[WayOut]:
    """Every approved dish in season that is safe for the whole table and wants no buying."""
    for dish in dishes:
        if dish.kind is not RecipeKind.DISH or not dish.offered or dish.id == shortage.dish.id:
            continue
        if not in_season(dish, shortage.on) or checks.worst(dish.id, None):
            continue
        # What its preparations are made of is wanted beside that, as early or earlier and as long
        # or longer: what is not there for the dish itself is not there for all of it.
        if not checks.are_there(checks.itself(dish.id, shortage.portions)):
            continue
        if checks.are_there(checks.wants(dish.id, None, shortage.portions)):
            yield AnotherDish(dish.id)


def _fewer_portions(shortage: Shortage, checks: Checks) -> Iterator[WayOut]:
    """The most portions for which the item is there and the rest is, or can be bought."""

    def too_many(portions: int) -> bool:
        wants = checks.wants(shortage.dish.id, shortage.variant, portions)
        purchases = checks.purchases(wants)
        return purchases is None or any(
            purchase.item == shortage.need.item for purchase in purchases
        )

    portions = bisect_left(range(1, shortage.portions), True, key=too_many)  # noqa: FBT003 - sought
    if portions:
        yield FewerPortions(portions)


def _shop_run(shortage: Shortage, now: datetime) -> Iterator[WayOut]:
    """Until the last instant at which the item could still be used."""
    if now < shortage.need.until:
        yield ShopRun(shortage.need.item, shortage.short)
