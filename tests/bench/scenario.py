"""An invented house of any size, drawn by seed: what every measure is taken on.

A tenth of the items are preparations. How often an item is used falls with its place in the list,
as onions and butter are in everything and quinces in one dish.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from pantry.rules.allocation import Need, Source
from pantry.rules.house_time import Span
from pantry.rules.menu import (
    DiningTable,
    Recipe,
    RecipeKind,
    Service,
    ServiceState,
)
from pantry.rules.recipes import direct_needs
from pantry.rules.stock import Item
from pantry.rules.supply import House, Pack, Supplier

ZONE = ZoneInfo("Europe/London")
NOW = datetime(2027, 3, 8, 7, tzinfo=UTC)
"""A Monday; the clock change of 28 March lies within the days ahead."""
DAYS = 28
DISHES_A_SERVICE = 5
INGREDIENTS_A_DISH = 10
MEALS = {"breakfast": time(8, 30), "lunch": time(13), "dinner": time(19, 30)}
TABLES = ("family", "guests", "children", "staff", "picnic")
PROPOSED_TABLE = "terrace"
HOUSE = House(
    id="house",
    name="The house of the bench",
    zone=str(ZONE),
    currency="GBP",
    unit_system="metric",
    notice=Span(exact=timedelta(hours=72)),
    warning=Span(exact=timedelta(hours=24)),
    last_call=Span(exact=timedelta(hours=2)),
    receiving_margin=Span(exact=timedelta(hours=2)),
    policy="uk",
    allergen_list="eu",
    people=14,
)


@dataclass(frozen=True, slots=True)
class Size:
    """How much there is of everything.

    Attributes:
        deliveries: that come within the days ahead.
        proposed: services whose menus lie with the household.
    """

    items: int
    batches: int
    services: int
    deliveries: int
    proposed: int

    @classmethod
    def of(cls, items: int) -> "Size":
        """All in step with the items: 5,000 come with 20,000 batches and 400 services.

        Only what lies with the household is not: that is what a chef can propose.
        """
        slots = max(2, round(items * 15 / 5000))
        return cls(
            items, 4 * items, max(1, items * 2 // 25), slots * DAYS // 7, min(40, items // 10)
        )


@dataclass(frozen=True)
class Scenario:
    """A house, its suppliers, its menus and what stands in it."""

    size: Size
    items: dict[str, Item]
    recipes: dict[str, Recipe]
    suppliers: tuple[Supplier, ...]
    packs: tuple[Pack, ...]
    batches: tuple[Source, ...]
    services: tuple[Service, ...]

    @property
    def horizon(self) -> datetime:
        """The end of the days ahead."""
        return NOW + timedelta(days=DAYS)

    @property
    def dishes(self) -> list[Recipe]:
        """What may be on a menu."""
        return [recipe for recipe in self.recipes.values() if recipe.kind is RecipeKind.DISH]

    @property
    def preparations(self) -> dict[str, Recipe]:
        """Every preparation by the item it makes."""
        return {recipe.makes: recipe for recipe in self.recipes.values() if recipe.makes}

    @cached_property
    def sources(self) -> dict[str, list[Source]]:
        """The batches of each item."""
        found: dict[str, list[Source]] = {}
        for batch in self.batches:
            found.setdefault(batch.item, []).append(batch)
        return found

    @cached_property
    def needs(self) -> list[Need]:
        """What the dishes of every confirmed service want."""
        return [
            need
            for service in self.services
            if service.state is ServiceState.CONFIRMED
            for need in direct_needs(service, self.recipes, self.items, tables(), ZONE)
        ]


def tables() -> dict[str, DiningTable]:
    """The tables, ranked as they are listed."""
    names = (*TABLES, PROPOSED_TABLE)
    return {name: DiningTable(name, name, rank, 4) for rank, name in enumerate(names, start=1)}
