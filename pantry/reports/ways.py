"""The ways out of what no delivery can make any more, each already checked (PL5)."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from fractions import Fraction
from functools import cached_property

from pantry.records.rows import every
from pantry.records.tables import ItemRow
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.allocation import Need, Pick, Source
from pantry.rules.buying import Purchase, Want
from pantry.rules.conflicts import Conflict, conflicts
from pantry.rules.house_time import before
from pantry.rules.kitchen import Projection, bought_for
from pantry.rules.menu import Recipe, Service, Serving
from pantry.rules.plan import PlanRow
from pantry.rules.recipes import direct_needs, needs_of_cooking, piece_of
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


@dataclass(frozen=True)
class WaysOut:
    """The ways out of a house's shortages; what all of them are checked against is found once.

    Attributes:
        projection: what is given to confirmed services.
    """

    view: View
    projection: Projection
    _cooked: dict[tuple[str, int], Sequence[tuple[str, int]]] = field(default_factory=dict)

    def of_row(self, row: PlanRow) -> list[Row]:
        """What is left for each dish that a missed row leaves short, the least change first."""
        found: list[Row] = []
        for line in row.derivation.lines:
            if line.lacking:
                found.extend(self.of_need(line.need, line.lacking))
        return found

    def of_need(self, need: Need, short: int) -> list[Row]:
        """What is left for the dish that wants it, in a service that is looked at; else nothing."""
        service = self._services.get(need.service)
        serving = _serving(service, need) if service else None
        if service is None or serving is None:
            return []
        return self.for_dish(service, serving, need, short)

    def for_dish(self, service: Service, serving: Serving, need: Need, short: int) -> list[Row]:
        """What is left for a dish so much short of something, in thousandths of its item."""
        ways = Dish(self, service, serving).ways(need, short)
        return [_row(self.view, service, serving, way) for way in ways]

    @cached_property
    def _services(self) -> Mapping[str, Service]:
        return {service.id: service for service in self.view.services}

    @cached_property
    def picks(self) -> Mapping[str, Sequence[tuple[str, Pick]]]:
        """What is given, items and picks, by the service to whose dishes, or else for a making."""
        found: dict[str, list[tuple[str, Pick]]] = {}
        for item, allocation in self.projection.allocations.items():
            for pick in allocation.picks:
                found.setdefault(pick.need.partition("|")[0], []).append((item, pick))
        return found

    @cached_property
    def taken(self) -> Mapping[str, int]:
        """What is given of each source."""
        taken: dict[str, int] = {}
        for given in self.picks.values():
            for _, pick in given:
                taken[pick.source] = taken.get(pick.source, 0) + pick.quantity
        return taken

    @cached_property
    def made(self) -> Mapping[str, Sequence[Source]]:
        """What nobody is given of each preparation."""
        return {item: self.left_of(item, self.taken) for item in self.view.preparations}

    def left_of(self, item: str, taken: Mapping[str, int]) -> list[Source]:
        """The sources of an item less what is taken of them."""
        return [
            replace(source, quantity=left)
            for source in self.view.sources.get(item, ())
            if (left := source.quantity - taken.get(source.id, 0)) > 0
        ]

    @cached_property
    def out(self) -> frozenset[str]:
        """Items nobody counts of which there is none left."""
        rows = every(self.view.connection, ItemRow, house=self.view.id, level="out")
        return frozenset(row.id for row in rows)

    @cached_property
    def by_course(self) -> Mapping[str, Sequence[Recipe]]:
        """The dishes that this house serves in each course, by name."""
        names: dict[str, set[str]] = {}
        for service in self.view.services:
            for serving in service.servings:
                names.setdefault(serving.course, set()).add(serving.dish)
        recipes = self.view.recipes
        return {
            course: sorted((recipes[name] for name in dishes), key=lambda dish: dish.name)
            for course, dishes in names.items()
        }

    def cooked(self, dish: str, portions: int) -> Sequence[tuple[str, int]]:
        """What a dish itself wants of what is bought, whenever it is cooked: items, thousandths."""
        known = self._cooked.get((dish, portions))
        if known is None:
            view = self.view
            needs = needs_of_cooking(view.recipes[dish], Fraction(portions), view.items)
            known = [(n.item, n.quantity) for n in needs if n.item not in view.preparations]
            self._cooked[dish, portions] = known
        return known


def _serving(service: Service, need: Need) -> Serving | None:
    return next((each for each in service.servings if each.dish == need.dish), None)


@dataclass(frozen=True)
class Dish:
    """A dish that is short of something, of a service that is confirmed or not."""

    found: WaysOut
    service: Service
    serving: Serving

    @property
    def view(self) -> View:
        """The house."""
        return self.found.view

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
            itself=self.itself,
            needs=self.needs,
            conflicts=self.conflicts,
            piece=lambda item: piece_of(view.items[item]),
        )
        beside = self.found.by_course.get(serving.course, ())
        return ways_out(shortage, view.substitutes, beside, checks, view.now)

    def available(self, item: str, wanted_by: datetime, until: datetime) -> int:
        """What is there through a window and given to no other dish, in thousandths."""
        if not self.view.items[item].measured:
            return 0 if item in self.found.out else _PLENTY
        return sum(
            max(0, source.quantity - self._taken_by_others.get(source.id, 0))
            for source in self.view.sources.get(item, ())
            if _there(source, wanted_by, until)
        )

    @cached_property
    def _mine(self) -> Sequence[tuple[str, Pick]]:
        """What the dish is given: items and picks."""
        given = self.found.picks.get(self.service.id, ())
        return [each for each in given if f"|{self.serving.dish}|" in each[1].need]

    @cached_property
    def _taken_by_others(self) -> Mapping[str, int]:
        taken = dict(self.found.taken)
        for _, pick in self._mine:
            taken[pick.source] -= pick.quantity
        return taken

    def itself(self, dish: str, portions: int) -> list[Want]:
        """What a dish itself wants of what is bought, whatever is made for it."""
        at = self.service.at
        wanted_by = before(at, self.view.recipes[dish].lead, self.view.zone)
        return [Want(*cooked, wanted_by, at) for cooked in self.found.cooked(dish, portions)]

    def needs(self, dish: str, variant: str | None, portions: int) -> list[Need]:
        """What a dish wants of what is bought, net of the preparations that are made already."""
        view = self.view
        serving = Serving(self.serving.course, dish, variant, portions)
        service = replace(self.service, servings=(serving,))
        own = direct_needs(service, view.recipes, view.items, view.tables, view.zone)
        return bought_for(own, view.kitchen, self._made, view.now)

    @cached_property
    def _made(self) -> Mapping[str, Sequence[Source]]:
        """What other dishes leave of preparations: of what it is given itself, that as well."""
        taken = self._taken_by_others
        own = {item for item, _ in self._mine if item in self.view.preparations}
        return {**self.found.made, **{item: self.found.left_of(item, taken) for item in own}}

    def conflicts(
        self, dish: str, variant: str | None, instead: Mapping[str, str]
    ) -> tuple[Conflict, ...]:
        """Who at the table cannot eat a dish in which some items are taken by others."""
        view = self.view
        served = with_variant(view.recipes[dish], variant)
        larder = replace(view.larder, substitutes=instead) if instead else view.larder
        return conflicts(view.constraints, served, self.service.table, self.service.date, larder)


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
