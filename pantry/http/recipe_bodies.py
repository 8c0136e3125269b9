"""What the routes that read recipes and amounts take and answer."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from pantry.http.bodies import Short, Taken
from pantry.reports.shapes.written import Quantity
from pantry.rules.ingredient_lines import Doubt, Sureness
from pantry.rules.recipe_documents import LARGEST

System = Literal["us", "metric", "imperial"]


class RecipeText(Taken, frozen=True):
    """A document with recipes in it; `unit_system` where somebody says whose cups they are."""

    text: Annotated[str, Meta(max_length=LARGEST)]
    unit_system: System | None = None


class ReadIngredient(Struct, frozen=True):
    """What was read of a line; what is not `sure` waits for a person.

    `measured` is the amount by itself, `in_item` of the item that the line names.
    """

    written: str
    amount: str
    measured: Quantity | None
    in_item: Quantity | None
    item: str | None
    candidates: list[str]
    note: str
    sureness: Sureness
    doubts: list[Doubt]


class ReadRecipe(Struct, frozen=True):
    """A recipe as a document has it; what it claims of diets is told and not believed."""

    name: str
    yields: int | None
    yields_written: str
    lead: str | None
    unit_system: System
    method: str
    not_believed: list[str]
    lines: list[ReadIngredient]


class RecipesRead(Struct, frozen=True):
    """Every recipe of a document."""

    schema: int
    recipes: list[ReadRecipe]


class WrittenAmount(Taken, frozen=True):
    """An amount, and the name of the item it is of."""

    item: Short
    amount: Short


class WrittenAmounts(Taken, frozen=True):
    """Amounts as somebody writes them, and whose cups they are."""

    lines: Annotated[list[WrittenAmount], Meta(max_length=200)]
    unit_system: System


class UnderstoodAmount(Struct, frozen=True):
    """What an amount is by itself and of its item; or why it is nothing."""

    measured: Quantity | None
    in_item: Quantity | None
    problem: str | None
    todo: str | None


class AmountsUnderstood(Struct, frozen=True):
    """What each amount comes to, in their order."""

    schema: int
    lines: list[UnderstoodAmount]
