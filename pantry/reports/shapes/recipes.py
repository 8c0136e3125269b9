"""Rows of the recipes the kitchen cooks by."""

from typing import Annotated, Literal

from msgspec import UNSET, Meta, UnsetType

from pantry.reports.shapes.conflicts import MenuConflict
from pantry.reports.shapes.dishes import DishServed
from pantry.reports.shapes.written import Day, Duration, Exact, Money, Quantity, Shape
from pantry.rules.menu import Change, Dating, RecipeKind
from pantry.rules.stock import BaseUnit

_MonthDay = Annotated[str, Meta(pattern=r"^[0-9]{2}-[0-9]{2}$")]


class HandbookYield(Shape, frozen=True):
    """What a handbook says is left of a food once it is trimmed."""

    kept: Exact
    lost: str
    source: str


class StandsIn(Shape, frozen=True):
    """What may stand in for an item, how much of it for one, and when it will do."""

    item: str
    ratio: Exact
    when: str


class RecipeIngredient(Shape, frozen=True):
    """A line: as written, and scaled; a trimming yield of 1 is as bought. Unknown is not free."""

    item: str
    item_id: str
    item_version: int
    counted: bool
    amount: str
    scaled: Quantity
    fixed: bool
    trimming_yield: Exact
    handbook: HandbookYield | None
    made_by: str | None
    substitutes: list[StandsIn]
    contains: list[str]
    may_contain: list[str]
    unknown: list[str]


class RecipeChange(Shape, frozen=True):
    """One change that a variant makes."""

    variant: str
    change: Change
    ingredient: str
    instead: str | None
    amount: str | None


class RecipeOnMenu(Shape, frozen=True):
    """A confirmed service that is cooked by it; begun: it keeps what it was begun by."""

    service: str
    begun: bool


class RecipeNeed(Shape, frozen=True):
    """What is taken of an item, as bought."""

    item_id: str
    quantity: Quantity


class CostPack(Shape, frozen=True):
    """At whose price an item is reckoned."""

    pack: str
    supplier: str
    quantity: Quantity
    price: Money


class RecipeCostLine(Shape, frozen=True):
    """What so much of an item costs; `made_by` names the recipe where it is made here."""

    item: str
    quantity: Quantity
    cost: Money | None
    made_by: str | None
    pack: CostPack | None


class RecipeCost(Shape, frozen=True):
    """What is known of the cost; `unknown` are the items without a price."""

    in_all: Money
    per_cover: Money | None
    unknown: list[str]
    lines: list[RecipeCostLine]


class RecipeConflict(MenuConflict, frozen=True):
    """Who at which table cannot eat the dish; `first` is the day from which, null: already."""

    table: str
    first: Day | None


class RecipeRow(Shape, frozen=True):
    """A recipe, told for so many covers, or for what a preparation yields in its base unit.

    The cost is not told to who approves menus. `conflicts` is null where all recipes are told.
    """

    id: str
    recipe: str
    kind: RecipeKind
    version: int
    approved: bool
    put_away: bool
    item: str | None
    yields: Exact
    unit: BaseUnit | None
    covers: Exact
    dates: Dating
    life_days: int | None
    lead: Duration
    full_recipes: bool
    area: str | None
    season_from: _MonthDay | None
    season_to: _MonthDay | None
    unit_system: Literal["us", "metric", "imperial"]
    method: str
    picture: str | None
    lines: list[RecipeIngredient]
    variants: list[RecipeChange]
    last_served: list[DishServed]
    confirmed: list[RecipeOnMenu]
    used_in: list[str]
    contains: list[str]
    may_contain: list[str]
    unknown: list[str]
    conflicts: list[RecipeConflict] | None
    needs: list[RecipeNeed]
    cost: RecipeCost | UnsetType = UNSET
