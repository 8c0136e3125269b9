"""Small random houses that have to order: suppliers, packs, stock and needs, drawn by seed."""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta

import numpy as np

from pantry.rules.allocation import Handling, Need, Source
from pantry.rules.house_time import Span, zone
from pantry.rules.kitchen import Kitchen
from pantry.rules.plan import Plan, plan
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.supply import DeliveryRule, House, Pack, Supplier

NOW = datetime(2027, 3, 8, 6, tzinfo=UTC)
DAYS = 14
END = NOW + timedelta(days=DAYS)
SETTINGS = House(
    "h", "House", "UTC", "GBP", "metric", Span(3), Span(1), Span(), Span(), "uk", "eu", 0
)


@dataclass(frozen=True)
class Lot:
    """A pack on a delivery that can still be ordered."""

    pack: Pack
    at: datetime
    usable_until: datetime | None

    def serves(self, need: Need) -> bool:
        """Whether it is there in time and still in date."""
        alive = self.usable_until is None or self.usable_until >= need.until
        return self.pack.item == need.item and self.at <= need.wanted_by and alive


@dataclass
class Drawn:
    """A small house with suppliers, packs, stock and needs."""

    suppliers: list[Supplier]
    packs: list[Pack]
    stock: list[Source]
    needs: list[Need]
    items: list[str]

    def lots(self) -> list[Lot]:
        """Every pack on every delivery that can be ordered."""
        midnight = NOW.replace(hour=0)
        return [
            Lot(pack, day.replace(hour=rule.at.hour), last_of(pack, day))
            for seller in self.suppliers
            for day in (midnight + timedelta(days=n) for n in range(DAYS + 1))
            for rule in seller.rules
            if rule.weekday == day.weekday() and can_be_ordered(rule, day)
            for pack in self.packs
            if pack.supplier == seller.id
        ]

    def planned(self) -> Plan:
        """What the plan orders."""
        by_item: dict[str, list[Source]] = {}
        for source in self.stock:
            by_item.setdefault(source.item, []).append(source)
        items = {item: Item(item, item, BaseUnit.G) for item in self.items}
        handling, made_until = (lambda _: Handling()), (lambda *_: None)
        kitchen = Kitchen(items, {}, by_item, {}, handling, zone("UTC"), made_until)
        return plan(SETTINGS, kitchen, self.suppliers, self.packs, self.needs, NOW, END)


def can_be_ordered(rule: DeliveryRule, day: datetime) -> bool:
    closes = (day - timedelta(days=rule.cutoff_days_before)).replace(hour=rule.cutoff_at.hour)
    return closes >= NOW and day.replace(hour=rule.at.hour) <= END


def last_of(pack: Pack, day: datetime) -> datetime | None:
    days = pack.life_on_arrival_days
    return day + timedelta(days=days) - timedelta(seconds=1) if days else None


def drawn(seed: int, *, dying: bool) -> Drawn:
    """The house of that seed; with stock and packs that die, or the same with none that do."""
    rng = np.random.default_rng(seed)
    house = Drawn([], [], [], [], [f"item {n}" for n in range(rng.integers(2, 6))])
    for number in range(rng.integers(1, 4)):
        weekdays = rng.choice(7, rng.integers(1, 4), replace=False)
        rules = [DeliveryRule(int(day), time(7), 1, time(16)) for day in sorted(weekdays)]
        minimum, charge = rng.choice([0, 2000, 5000]), rng.choice([0, 300, 900])
        name = f"seller {number}"
        house.suppliers.append(Supplier(name, name, tuple(rules), (), int(minimum), int(charge)))
    for item in house.items:
        draw_item(rng, house, item, dying=dying)
    lots = house.lots()
    house.needs = [need for need in house.needs if any(lot.serves(need) for lot in lots)]
    return house


def draw_item(rng: np.random.Generator, house: Drawn, item: str, *, dying: bool) -> None:
    per_kilo = rng.integers(200, 2000)
    life = int(rng.choice([0, 0, 3, 5, 8])) if dying else 0
    some = rng.choice(
        len(house.suppliers), rng.integers(1, len(house.suppliers) + 1), replace=False
    )
    for seller in (house.suppliers[n] for n in some):
        for size in rng.choice([250, 500, 1000, 2500], rng.integers(1, 3), replace=False):
            price = int(per_kilo * size / 1000 * rng.uniform(0.8, 1.2)) + 1
            id_ = f"{seller.id} {item} {size}"
            house.packs.append(
                Pack(id_, seller.id, item, id_, int(size) * 1000, 0, price, life or None)
            )
    for number in range(rng.integers(0, 3)):
        keeps = rng.random() < 0.3 or not dying
        dies = None if keeps else NOW + timedelta(days=int(rng.integers(1, DAYS)))
        grams = int(rng.integers(1, 20)) * 100_000
        id_ = f"batch {number} of {item}"
        house.stock.append(Source("batch", id_, item, grams, dies, None, NOW))
    for number in range(rng.integers(1, 5)):
        until = NOW + timedelta(days=int(rng.integers(2, DAYS)), hours=13)
        wanted_by = until - timedelta(hours=int(rng.choice([0, 4, 24])))
        grams = int(rng.integers(1, 40)) * 50_000
        id_ = f"need {number} of {item}"
        house.needs.append(Need(id_, "service", "dish", item, grams, wanted_by, until))
