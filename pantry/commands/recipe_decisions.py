"""What a person decides of a recipe, and of what may stand in for an item."""

from typing import Annotated, Literal

from msgspec import Meta

from pantry.commands.decision import Decision
from pantry.commands.parts import Photo
from pantry.commands.recipe_parts import Changes, Ingredients, Line, NewItems, Substitutes


class PutAwayRecipe(Decision, frozen=True, kw_only=True):
    """A recipe is offered no more, or again; menus on which it stands keep it."""

    recipe: str
    away: bool = True


class RenameRecipe(Decision, frozen=True, kw_only=True):
    """A recipe has another name; what was served keeps the name it was served under."""

    recipe: str
    name: Line


class SetSubstitutes(Decision, frozen=True, kw_only=True):
    """What may stand in for an item is this now, and nothing else."""

    item: str
    substitutes: Substitutes


class WriteRecipe(Decision, frozen=True, kw_only=True):
    """A recipe is this now, all of it; a new one where there is no `base`.

    All is text as people and the sheets of a house book write it. `items` are those that its lines
    name and the house does not have yet. `approved` left out: as it was, or not yet where the dish
    has become another.
    """

    recipe: Line
    kind: Literal["dish", "preparation"] = "dish"
    yields: Line
    dates: Literal["cooked", "preserved", "assembled"] = "cooked"
    ingredients: Ingredients
    variants: Changes = ()
    items: NewItems = ()
    life_days: Annotated[int, Meta(ge=1, le=100_000)] | None = None
    lead: Line = ""
    full_recipes: bool = False
    area: Line | None = None
    season_from: Line | None = None
    season_to: Line | None = None
    unit_system: Literal["us", "metric", "imperial"] | None = None
    method: Annotated[str, Meta(max_length=20_000)] = ""
    picture: Photo | None = None
    approved: bool | None = None
