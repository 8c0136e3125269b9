"""What a house has already, before a book is read into it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from sqlalchemy import Connection

from pantry.handbook.policies import Policy, policy
from pantry.records.read import house as read_house
from pantry.records.read import stock, supply
from pantry.records.rows import every, one
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    DiningTableRow,
    HouseRow,
    IngredientRow,
    OrderRow,
    PolicyOverrideRow,
    RecipeRow,
    ServiceRow,
    VariantRow,
)
from pantry.rules.house_policy import Override, with_house_number
from pantry.rules.menu import Dating, RecipeKind
from pantry.rules.stock import AreaKind, Item
from pantry.rules.supply import House, Pack, Supplier


@dataclass(frozen=True, slots=True)
class RecipeFacts:
    """What other sheets need of a recipe.

    Attributes:
        makes: the item that a preparation makes; None for a dish.
        unit_system: whose cups and pints its amounts mean.
        life_days: of what it makes, the day of making being day 1.
    """

    id: str
    name: str
    kind: RecipeKind
    makes: str | None
    unit_system: str
    dating: Dating
    life_days: int | None
    approved: bool


@dataclass(frozen=True, slots=True)
class Known:
    """A house as its records have it; one that is yet to be founded has nothing.

    Attributes:
        areas, items, suppliers, recipes, packs: by id.
        tables: the names of the tables, by id.
        lines: the items that each recipe is made of, by its id.
        variants: the names of each recipe's variants, by its id.
        labels: of every batch, in small letters.
        services, orders: their ids.
        meals: the names of the meals that each table has had, by the table's id.
        overrides: the numbers of the food-safety policy that the house set otherwise.
    """

    house: House | None = None
    areas: Mapping[str, AreaKind] = field(default_factory=dict)
    items: Mapping[str, Item] = field(default_factory=dict)
    suppliers: Mapping[str, Supplier] = field(default_factory=dict)
    recipes: Mapping[str, RecipeFacts] = field(default_factory=dict)
    packs: Mapping[str, Pack] = field(default_factory=dict)
    tables: Mapping[str, str] = field(default_factory=dict)
    lines: Mapping[str, list[str]] = field(default_factory=dict)
    variants: Mapping[str, list[str]] = field(default_factory=dict)
    labels: frozenset[str] = frozenset()
    services: frozenset[str] = frozenset()
    orders: frozenset[str] = frozenset()
    meals: Mapping[str, frozenset[str]] = field(default_factory=dict)
    overrides: tuple[tuple[str, int, Override], ...] = ()

    def policy(self, name: str) -> Policy:
        """The food-safety policy of this name, with the house's own numbers.

        Raises:
            NotThere: `policy_unknown`, or a number of the house that it has not.
        """
        found = policy(name)
        for number, value, override in self.overrides:
            found = with_house_number(found, number, value, override)
        return found


NOTHING = Known()


def known(connection: Connection, house: str) -> Known:
    """What the records of a house have.

    Raises:
        LookupError: there is no such house.
    """
    lines: dict[str, list[str]] = {}
    for line in every(connection, IngredientRow, house=house):
        lines.setdefault(line.recipe, []).append(line.item)
    variants: dict[str, list[str]] = {}
    for change in every(connection, VariantRow, house=house):
        names = variants.setdefault(change.recipe, [])
        if change.variant not in names:
            names.append(change.variant)
    recipes = every(connection, RecipeRow, house=house)
    services = every(connection, ServiceRow, house=house)
    return Known(
        house=read_house.settings(one(connection, HouseRow, id=house)),
        areas={row.id: AreaKind(row.kind) for row in every(connection, AreaRow, house=house)},
        items=stock.items(connection, house),
        suppliers=supply.suppliers(connection, house),
        recipes={row.id: _facts(row) for row in recipes},
        packs={pack.id: pack for pack in supply.packs(connection, house)},
        tables={row.id: row.name for row in every(connection, DiningTableRow, house=house)},
        lines=lines,
        variants=variants,
        labels=frozenset(row.label.casefold() for row in every(connection, BatchRow, house=house)),
        services=frozenset(row.id for row in services),
        meals=_meals(services),
        orders=frozenset(row.id for row in every(connection, OrderRow, house=house)),
        overrides=tuple(
            (row.name, row.value, Override(row.person, row.reason))
            for row in every(connection, PolicyOverrideRow, house=house)
        ),
    )


def _meals(services: Iterable[ServiceRow]) -> dict[str, frozenset[str]]:
    found: dict[str, frozenset[str]] = {}
    for row in services:
        found[row.dining_table] = found.get(row.dining_table, frozenset()) | {row.meal}
    return found


def _facts(row: RecipeRow) -> RecipeFacts:
    return RecipeFacts(
        id=row.id,
        name=row.name,
        kind=RecipeKind(row.kind),
        makes=row.makes,
        unit_system=row.unit_system,
        dating=Dating(row.dating),
        life_days=row.life_days,
        approved=row.approved,
    )
