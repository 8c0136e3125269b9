"""Variants of a recipe: without alcohol, for children, the winter version (RQ1)."""

from dataclasses import replace
from fractions import Fraction

from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.rules.menu import Change, Ingredient, Recipe, VariantChange

VARIANT_UNKNOWN = declare("variant_unknown", "The recipe has no variant of this name.")
VARIANT_LINE_MISSING = declare(
    "variant_line_missing", "A variant changes an ingredient that its recipe does not have."
)
VARIANT_UNCLEAR = declare(
    "variant_unclear", "A variant's change does not say with what, or how much."
)


def with_variant(recipe: Recipe, variant: str | None) -> Recipe:
    """The recipe as this variant cooks it; None is the dish as it stands. Case does not matter.

    Changes apply in their order. A line that is replaced keeps its amount unless one is given; an
    amount given for another item is as bought.

    Raises:
        NotThere: `variant_unknown`, `variant_line_missing`.
        UnreadableInput: `variant_unclear`.
    """
    if variant is None:
        return recipe
    wanted = variant.strip().casefold()
    for name, changes in recipe.variants:
        if name.strip().casefold() == wanted:
            lines = recipe.ingredients
            for change in changes:
                lines = _changed(lines, change, recipe.name, name)
            return replace(recipe, ingredients=lines)
    known = ", ".join(name for name, _ in recipe.variants) or "none"
    raise NotThere(
        VARIANT_UNKNOWN,
        f"{recipe.name} has no variant called {variant!r}.",
        f"Choose one of its variants ({known}) or add it to the recipe.",
        value=variant,
    )


def _changed(
    lines: tuple[Ingredient, ...], change: VariantChange, recipe: str, variant: str
) -> tuple[Ingredient, ...]:
    """The lines after one change of a variant."""
    if change.change is Change.ADD:
        if change.amount is None:
            raise _unclear(change, recipe, variant, "how much of it is added")
        return (*lines, Ingredient(change.with_item or change.item, change.amount))
    if all(line.item != change.item for line in lines):
        raise NotThere(
            VARIANT_LINE_MISSING,
            f"{recipe}, {variant}: the recipe has no {change.item!r} to change.",
            "Name an ingredient of the recipe.",
            value=change.item,
        )
    if change.change is Change.LEAVE_OUT:
        return tuple(line for line in lines if line.item != change.item)
    if change.with_item is None and change.amount is None:
        raise _unclear(change, recipe, variant, "what takes its place")
    return _replaced(lines, change)


def _replaced(lines: tuple[Ingredient, ...], change: VariantChange) -> tuple[Ingredient, ...]:
    """The lines with one ingredient replaced; an amount given stands for all lines of it."""
    with_item = change.with_item or change.item
    if change.amount is None:
        return tuple(
            replace(line, item=with_item) if line.item == change.item else line for line in lines
        )
    place = next(n for n, line in enumerate(lines) if line.item == change.item)
    line = replace(lines[place], item=with_item, amount=change.amount)
    if with_item != change.item:
        line = replace(line, trimming_yield=Fraction(1))
    rest = (each for each in lines[place + 1 :] if each.item != change.item)
    return (*lines[:place], line, *rest)


def _unclear(change: VariantChange, recipe: str, variant: str, what: str) -> UnreadableInput:
    return UnreadableInput(
        VARIANT_UNCLEAR,
        f"{recipe}, {variant}: the change of {change.item!r} does not say {what}.",
        "Complete the change.",
        value=change.item,
    )
