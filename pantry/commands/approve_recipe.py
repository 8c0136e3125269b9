"""Approve a recipe, once the household has seen it; or take that back."""

from pantry.commands import base, naming
from pantry.commands.decisions import ApproveRecipe
from pantry.commands.given import Given
from pantry.records.books import Books


def approve_recipe(books: Books, given: Given[ApproveRecipe]) -> None:
    """Write whether the recipe may be chosen.

    Raises:
        NotThere: `recipe_unknown`.
        Moved: `base_moved`.
    """
    row = naming.recipe(books, given.body.recipe)
    base.check(books, given, row, row.name)
    base.next_version(books, row, "recipe", approved=given.body.approved)
    books.settings_changed()
