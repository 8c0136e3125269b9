"""Whether a dish that was written anew is another dish for those who approved it.

What the household is told of a dish is what is in it. A counted ingredient that was not in it, or
an allergen that was not known of it, makes another dish of it, to be shown again; more butter, a
better method or a sprig of something nobody counts does not. Common practice, no source.
"""

from collections.abc import Mapping

from pantry.rules.allergens import Larder, of_recipe
from pantry.rules.menu import Recipe
from pantry.rules.stock import Item


def is_another_dish(before: Recipe, after: Recipe, items: Mapping[str, Item]) -> bool:
    """Whether something counted went in, into the dish itself or a variant of it."""
    return any(items[item].measured for item in _named(after) - _named(before))


def declares_more(before: Recipe, was: Larder, after: Recipe, now: Larder) -> bool:
    """Whether a dish contains or may contain what it did not, or is free of less (AL3)."""
    old, new = of_recipe(before, was), of_recipe(after, now)
    return not (
        new.contains <= old.contains
        and new.may_contain <= old.may_contain | old.contains
        and old.free_of <= new.free_of
    )


def _named(recipe: Recipe) -> set[str]:
    changes = [change for _, each in recipe.variants for change in each]
    named = {line.item for line in recipe.ingredients}
    return named | {change.with_item or change.item for change in changes}
