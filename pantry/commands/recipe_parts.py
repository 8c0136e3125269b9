"""The parts of a recipe as a command carries them: text, as the sheets of a house book have it."""

from typing import Annotated, Literal

from msgspec import Meta

from pantry.commands.parts import Part

Line = Annotated[str, Meta(max_length=200)]
"""A name, an amount or a word: longer is no line of a recipe."""

Several = Meta(max_length=200)


class IngredientPart(Part, frozen=True, kw_only=True):
    """One line: the amount as people write it, `trimmed` where it is of what is left of it.

    Without `trimming_yield` a trimmed line takes the handbook's, where the food has one.
    """

    ingredient: Line
    amount: Line = ""
    trimmed: bool = False
    trimming_yield: Line | None = None
    scaling: Literal["per_portion", "fixed"] = "per_portion"


class ChangePart(Part, frozen=True, kw_only=True):
    """One change that a variant makes; `instead` takes the place of the ingredient."""

    variant: Line
    change: Literal["replace", "leave_out", "add"]
    ingredient: Line
    instead: Line | None = None
    amount: Line | None = None


class NewItemPart(Part, frozen=True, kw_only=True):
    """An item that the house does not have yet.

    `contains` as a label declares it (`milk; eggs`, `none`); left out, nobody knows.
    """

    item: Line
    base_unit: Literal["g", "ml", "each"]
    counted: bool = True
    area: Line | None = None
    group: Line | None = None
    density_g_per_ml: Line | None = None
    piece_weight_g: Line | None = None
    contains: Line | None = None
    may_contain: Line | None = None


class SubstitutePart(Part, frozen=True, kw_only=True):
    """What may stand in for an item, how much of it for one, and when it will do."""

    substitute: Line
    ratio: Line = "1"
    when: Line = ""


Ingredients = Annotated[tuple[IngredientPart, ...], Several]
Changes = Annotated[tuple[ChangePart, ...], Several]
NewItems = Annotated[tuple[NewItemPart, ...], Several]
Substitutes = Annotated[tuple[SubstitutePart, ...], Several]
