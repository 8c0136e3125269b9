"""The ways out of what no delivery can make any more, each already checked (PL5)."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property

from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.allocation import Need, Source
from pantry.rules.buying import Purchase
from pantry.rules.conflicts import Conflict, conflicts
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import Recipe, Service, Serving
from pantry.rules.plan import Plan, PlanRow
from pantry.rules.recipes import direct_needs, piece_of
from pantry.rules.variants import with_variant
from pantry.rules.ways_out import (
    AnotherDish,
    AnotherSupplier,
    Checks,
    FewerPortions,
    ShopRun,
    Shortage,
    UseSubstitute,
    UseVariant,
    WayOut,
    ways_out,
)

_PLENTY = 10**15
"""More than any need, of what nobody counts and is not out."""


def ways_out_of(view: View, plan: Plan, row: PlanRow) -> list[Row]:
    """What is left for each dish that a missed row leaves short, the least change first."""
    found: list[Row] = []
    for line in row.derivation.lines:
        if line.lacking:
            found.extend(ways_out_of_need(view, plan.projection, line.need, line.lacking))
    return found


def ways_out_of_need(view: View, projection: Projection, need: Need, short: int) -> list[Row]:
    """What is left for the dish that wants it, in a service that is looked at; else nothing."""
    service = next((each for each in view.services if each.id == need.service), None)
    serving = _serving(service, need) if service else None
    if service is None or serving is None:
        return []
    return ways_out_for(Dish(view, projection, service, serving), need, short)


def ways_out_for(dish: "Dish", need: Need, short: int) -> list[Row]:
    """What is left for a dish that is so much short of something, in thousandths of its item."""
    return [_row(dish.view, dish.service, dish.serving, way) for way in dish.ways(need, short)]


def _serving(service: Service, need: Need) -> Serving | None:
    return next((each for each in service.servings if each.dish == need.dish), None)


@dataclass(frozen=True)
class Dish:
    """A dish that is short of something, and everything its ways out are checked against.

    Attributes:
        projection: what is given to confirmed services, this one among them or not.
    """

    view: View
    projection: Projection
    service: Service
    serving: Serving

    def ways(self, need: Need, short: int) -> Sequence[WayOut]:
        """Every way out, the least change to the menu first."""
        view, serving = self.view, self.serving
        shortage = Shortage(
            need=need,
            short=short,
            on=self.service.date,
            dish=view.recipes[serving.dish],
            variant=serving.variant,
            portions=serving.portions or self.service.covers,
        )
        checks = Checks(
            available=self.available,
            offers=view.market.offers,
            needs=self.needs,
            conflicts=self.conflicts,
            piece=lambda item: piece_of(view.items[item]),
        )
        return ways_out(shortage, view.substitutes, self._same_course(), checks, view.now)

    def available(self, item: str, wanted_by: datetime, until: datetime) -> int:
        """What is there through a window and given to no other dish, in thousandths."""
        if not self.view.items[item].measured:
            return 0 if item in self.view.out else _PLENTY
        return sum(
            max(0, source.quantity - self._taken_by_others.get(source.id, 0))
            for source in self.view.sources.get(item, ())
            if _there(source, wanted_by, until)
        )

    @cached_property
    def _taken_by_others(self) -> Mapping[str, int]:
        own = f"{self.service.id}|"
        taken: dict[str, int] = {}
        for allocation in self.projection.allocations.values():
            for pick in allocation.picks:
                mine = pick.need.startswith(own) and f"|{self.serving.dish}|" in pick.need
                if not mine:
                    taken[pick.source] = taken.get(pick.source, 0) + pick.quantity
        return taken

    def needs(self, dish: str, variant: str | None, portions: int) -> list[Need]:
        """What a dish wants of what is bought, net of the preparations that are made already."""
        view = self.view
        serving = Serving(self.serving.course, dish, variant, portions)
        service = replace(self.service, servings=(serving,))
        own = direct_needs(service, view.recipes, view.items, view.tables, view.zone)
        found = project(own, self._already_made, view.now)
        return [
            need
            for item, of_item in found.needs.items()
            if item not in view.preparations
            for need in of_item
        ]

    @cached_property
    def _already_made(self) -> Kitchen:
        """The kitchen with nothing in it but what other dishes leave of preparations."""
        made = {item: self._left_of(item) for item in self.view.preparations}
        return replace(self.view.kitchen, sources=made, fixed={})

    def _left_of(self, item: str) -> list[Source]:
        return [
            replace(source, quantity=left)
            for source in self.view.sources.get(item, ())
            if (left := source.quantity - self._taken_by_others.get(source.id, 0)) > 0
        ]

    def conflicts(
        self, dish: str, variant: str | None, instead: Mapping[str, str]
    ) -> tuple[Conflict, ...]:
        """Who at the table cannot eat a dish in which some items are taken by others."""
        view = self.view
        served = with_variant(view.recipes[dish], variant)
        larder = replace(view.larder, substitutes=instead) if instead else view.larder
        return conflicts(view.constraints, served, self.service.table, self.service.date, larder)

    def _same_course(self) -> list[Recipe]:
        """Dishes that this house serves in the same course, by name."""
        names = {
            serving.dish
            for service in self.view.services
            for serving in service.servings
            if serving.course == self.serving.course
        }
        return sorted((self.view.recipes[name] for name in names), key=lambda dish: dish.name)


def _there(source: Source, wanted_by: datetime, until: datetime) -> bool:
    in_time = source.ready is None or source.ready <= wanted_by
    return in_time and (source.usable_until is None or source.usable_until >= until)


def _row(view: View, service: Service, serving: Serving, way: WayOut) -> Row:
    row = {
        "kind": way.kind,
        "service": service.id,
        "dish": view.recipes[serving.dish].name,
    }
    return row | dict(_details(view, way))


def _details(view: View, way: WayOut) -> Iterator[tuple[str, object]]:
    match way:
        case AnotherSupplier():
            yield "buy", _purchase(view, way.purchase)
        case UseSubstitute():
            item = view.items[way.substitute.substitute]
            yield "item", item.name
            yield "quantity", amount(way.quantity, item)
            yield "when", way.substitute.when or None
            yield "buy", None if way.purchase is None else _purchase(view, way.purchase)
        case UseVariant():
            yield "variant", way.variant
            yield "buy", [_purchase(view, each) for each in way.purchases]
        case AnotherDish():
            yield "instead", view.recipes[way.dish].name
        case FewerPortions():
            yield "portions", way.portions
        case ShopRun():
            yield "item", view.item_name(way.item)
            yield "quantity", amount(way.quantity, view.items[way.item])
            yield "shops", _shops(view, way.item)


def _shops(view: View, item: str) -> list[str]:
    """The shops agreed on for when those who sell the item fail, in the house's own words."""
    sellers = {pack.supplier for pack in view.packs if pack.item == item}
    shops = (view.terms[seller].fallback_shop for seller in sorted(sellers & view.terms.keys()))
    return list(dict.fromkeys(shop for shop in shops if shop))


def _purchase(view: View, purchase: Purchase) -> Row:
    pack, delivery = purchase.offer.pack, purchase.offer.delivery
    return {
        "item": view.item_name(purchase.item),
        "supplier": view.supplier_names[pack.supplier],
        "pack": pack.name,
        "packs": purchase.packs,
        "order_by": instant(delivery.order_by),
        "delivery": instant(delivery.at),
        "at_risk": purchase.offer.at_risk,
    }
