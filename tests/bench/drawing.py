"""Drawing a house by seed: its items, recipes, suppliers, batches and menus."""

import random
from collections.abc import Iterable, Sequence
from datetime import date, time, timedelta
from fractions import Fraction
from itertools import accumulate

from scenario import (
    DAYS,
    DISHES_A_SERVICE,
    INGREDIENTS_A_DISH,
    MEALS,
    NOW,
    PROPOSED_TABLE,
    TABLES,
    ZONE,
    Scenario,
    Size,
)

from pantry.rules.allocation import Source
from pantry.rules.house_time import Span, end_of_day, instant_of
from pantry.rules.menu import (
    Dating,
    Ingredient,
    Recipe,
    RecipeKind,
    Service,
    ServiceState,
    Serving,
)
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.supply import DeliveryRule, Pack, Supplier


def scenario(size: Size, seed: int) -> Scenario:
    """The house of that size and seed; the same arguments, the same house."""
    return Drawing(size, random.Random(f"{seed}/{size.items}")).scenario()


class Drawing:
    """Draws one house, part after part."""

    def __init__(self, size: Size, rng: random.Random) -> None:
        self.size = size
        self.rng = rng
        made = max(2, size.items // 10)
        self.bought = [f"item-{number:05}" for number in range(size.items - made)]
        self.made = [f"preparation-{number:04}" for number in range(made)]
        self.weights = list(accumulate(1 / (number + 20) for number in range(len(self.bought))))

    def scenario(self) -> Scenario:
        items = {id_: self._item(id_) for id_ in self.bought}
        items |= {id_: Item(id_, id_, BaseUnit.G) for id_ in self.made}
        recipes = [self._preparation(number, items) for number in range(len(self.made))]
        recipes += [self._dish(number, items) for number in range(max(10, self.size.items // 8))]
        suppliers = self._suppliers()
        packs = tuple(self._packs(items, suppliers))
        return Scenario(
            self.size,
            items,
            {recipe.id: recipe for recipe in recipes},
            suppliers,
            packs,
            tuple(self._batches(items, packs)),
            tuple(self._services([r.id for r in recipes if r.kind is RecipeKind.DISH])),
        )

    def _item(self, id_: str) -> Item:
        rng = self.rng
        unit = rng.choices([BaseUnit.G, BaseUnit.ML, BaseUnit.EACH], [60, 25, 15])[0]
        floor = rng.randint(500, 2000) * 1000 if unit is not BaseUnit.EACH else 12_000
        has_par = rng.random() < 0.1
        return Item(
            id_,
            id_,
            unit,
            whole=unit is BaseUnit.EACH and rng.random() < 0.5,
            density=Fraction(1) if unit is BaseUnit.ML else None,
            piece_weight=Fraction(60) if unit is BaseUnit.EACH else None,
            opened_life_days=rng.randint(3, 7) if rng.random() < 0.25 else None,
            floor=floor if has_par else None,
            order_up_to=floor * 2 if has_par else None,
            daily_per_head=10_000 if unit is not BaseUnit.EACH and rng.random() < 0.01 else 0,
        )

    def _lines(self, count: int, items: dict[str, Item], parts: Iterable[str]) -> list[Ingredient]:
        chosen = dict.fromkeys(parts)
        while len(chosen) < count:
            chosen.setdefault(self.rng.choices(self.bought, cum_weights=self.weights)[0])
        return [self._line(items[id_]) for id_ in chosen]

    def _line(self, item: Item) -> Ingredient:
        rng = self.rng
        amount = Fraction(rng.randint(1, 8)) if item.base_unit is BaseUnit.EACH else None
        trimmed = Fraction(4, 5) if rng.random() < 0.2 else Fraction(1)
        return Ingredient(
            item.id, amount or Fraction(rng.randint(5, 60) * 10), trimming_yield=trimmed
        )

    def _preparation(self, number: int, items: dict[str, Item]) -> Recipe:
        """Six ingredients; one in five has another preparation among them."""
        rng = self.rng
        below = [rng.choice(self.made[:number])] if number and rng.random() < 0.2 else []
        return Recipe(
            f"make-{self.made[number]}",
            self.made[number],
            RecipeKind.PREPARATION,
            Fraction(2000),
            tuple(self._lines(6, items, below)),
            dating=rng.choice([Dating.COOKED, Dating.ASSEMBLED]),
            makes=self.made[number],
            lead=Span(exact=timedelta(hours=rng.choice([2, 6, 12]))),
            life_days=rng.randint(3, 7),
            full_recipes=rng.random() < 0.2,
        )

    def _dish(self, number: int, items: dict[str, Item]) -> Recipe:
        """Ten ingredients, one of them a preparation."""
        lead = Span(exact=timedelta(hours=self.rng.choice([0, 2, 4, 24])))
        lines = self._lines(INGREDIENTS_A_DISH, items, [self.rng.choice(self.made)])
        name = f"dish-{number:04}"
        return Recipe(name, name, RecipeKind.DISH, Fraction(4), tuple(lines), lead=lead)

    def _suppliers(self) -> tuple[Supplier, ...]:
        """Up to three deliveries a week each; one in five comes by boat and may fail."""
        slots = self.size.deliveries * 7 // DAYS
        weekdays = [list(range(slots))[first :: -(-slots // 3)] for first in range(-(-slots // 3))]
        return tuple(
            Supplier(
                f"supplier-{number}",
                f"supplier-{number}",
                tuple(self._rule(number, nth) for nth in range(len(of_supplier))),
                minimum=self.rng.choice([0, 5000, 10_000]),
                charge=self.rng.choice([0, 500, 1200]),
                may_fail=number % 5 == 4,
                send=timedelta(minutes=15),
            )
            for number, of_supplier in enumerate(weekdays)
        )

    def _rule(self, supplier: int, nth: int) -> DeliveryRule:
        return DeliveryRule((supplier + 2 * nth) % 7, time(9 + nth), 1 + supplier % 2, time(16))

    def _packs(self, items: dict[str, Item], suppliers: Sequence[Supplier]) -> Iterable[Pack]:
        """One supplier for most, two for one in five; four in ten keep only some days."""
        rng = self.rng
        for id_ in self.bought:
            count = 2 if len(suppliers) > 1 and rng.random() < 0.2 else 1
            for supplier in rng.sample(suppliers, count):
                each = items[id_].base_unit is BaseUnit.EACH
                unit = rng.choice([6, 12, 24]) * 1000 if each else rng.randint(5, 50) * 100_000
                inside = rng.choice([1, 1, 6])
                yield Pack(
                    f"{supplier.id}/{id_}/pack",
                    supplier.id,
                    id_,
                    "pack",
                    unit * inside,
                    unit,
                    rng.randint(100, 1500) * inside,
                    rng.randint(4, 12) if rng.random() < 0.4 else None,
                )

    def _batches(self, items: dict[str, Item], packs: Sequence[Pack]) -> Iterable[Source]:
        """One or two packs each; one in twenty is of something made here."""
        rng = self.rng
        pack_of = {pack.item: pack for pack in packs}
        for number in range(self.size.batches):
            id_ = f"batch-{number:06}"
            if rng.random() < 0.05:
                yield self._batch(id_, items[rng.choice(self.made)], rng.randint(1, 4) * 500_000, 0)
            else:
                pack = pack_of[rng.choice(self.bought)]
                quantity = pack.quantity * rng.randint(1, 2)
                yield self._batch(id_, items[pack.item], quantity, pack.sealed_quantity)

    def _batch(self, id_: str, item: Item, quantity: int, sealed: int) -> Source:
        """One in twenty frozen; of the others one in five with no end that anybody knows."""
        rng = self.rng
        frozen = item.base_unit is BaseUnit.G and rng.random() < 0.05
        ends = not frozen and rng.random() < 0.8
        end = end_of_day(NOW.date() + timedelta(days=rng.randint(1, 60)), ZONE) if ends else None
        is_safety = rng.random() < 0.5
        return Source(
            "batch",
            id_,
            item.id,
            quantity,
            end if is_safety else None,
            None if is_safety else end,
            NOW - timedelta(hours=rng.randint(1, 300)),
            sealed_quantity=sealed,
            frozen=frozen,
        )

    def _services(self, dishes: Sequence[str]) -> Iterable[Service]:
        """Confirmed ones spread over the days ahead, and proposed ones of a table of their own."""
        days = [NOW.date() + timedelta(days=number) for number in range(DAYS)]
        slots = [(day, meal, table) for day in days for meal in MEALS for table in TABLES]
        for day, meal, table in sorted(self.rng.sample(slots, self.size.services)):
            yield self._service(day, meal, table, ServiceState.CONFIRMED, dishes)
        for number in range(self.size.proposed):
            meal = f"meal-{number // DAYS}"
            day = days[number % DAYS]
            yield self._service(day, meal, PROPOSED_TABLE, ServiceState.PROPOSED, dishes)

    def _service(
        self, day: date, meal: str, table: str, state: ServiceState, dishes: Sequence[str]
    ) -> Service:
        servings = tuple(
            Serving(f"course-{number}", dish, chosen=state is ServiceState.CONFIRMED)
            for number, dish in enumerate(self.rng.sample(dishes, DISHES_A_SERVICE))
        )
        at = instant_of(day, MEALS.get(meal, time(20)), ZONE)
        covers = self.rng.randint(2, 14)
        return Service(f"{day}/{meal}/{table}", day, meal, table, at, covers, state, servings)
