"""Confirm what the household chose: its needs are deducted from what is available at once.

A shortage never blocks it: it becomes an order with a deadline. What somebody at the table cannot
eat does, unless that person is named (AL3).
"""

from pantry.commands import menu_needs, menus
from pantry.commands.decisions import Confirm
from pantry.commands.given import Given
from pantry.commands.overrides import write_overrides
from pantry.commands.safe_tables import refuse_conflicts
from pantry.records.books import Books
from pantry.records.rows import one
from pantry.records.tables import RecipeRow, ServingRow
from pantry.refusals import NotNow, declare
from pantry.rules.menu import ServiceState

RECIPE_UNAPPROVED = declare("recipe_unapproved", "The dish's recipe has not been approved yet.")


def confirm(books: Books, given: Given[Confirm]) -> None:
    """Write the choice and what it needs.

    Raises:
        NotThere: an unknown service, dish or variant.
        Moved: `base_moved`.
        NotNow: `service_state`, `recipe_unapproved`, `allergen_conflict`.
        UnreadableInput: `nothing_chosen`.
    """
    body = given.body
    row = menus.decided(books, given, body.service, ServiceState.PROPOSED, ServiceState.CONFIRMED)
    servings = menus.chosen(books, row, body.dishes)
    refuse_unapproved(books, servings)
    refuse_conflicts(books, row, servings, body.overrides)
    covers = row.covers if body.covers is None else body.covers
    menus.set_servings(books, row.id, servings)
    write_overrides(books, given, row, servings, body.overrides)
    confirmed = {"state": ServiceState.CONFIRMED.value, "confirmed_by": given.person}
    after = menus.moved_on(books, row, covers=covers, **confirmed)
    menu_needs.write(books, after)


def refuse_unapproved(books: Books, servings: list[ServingRow]) -> None:
    """A dish new to the household needs its recipe shown, and approved, before it is chosen.

    Raises:
        NotNow: `recipe_unapproved`.
    """
    for serving in servings:
        recipe = one(books.connection, RecipeRow, house=books.id, id=serving.dish)
        if not recipe.approved:
            raise NotNow(
                RECIPE_UNAPPROVED,
                f"The recipe of {recipe.name} has not been approved.",
                "Show the household the recipe, approve it, then confirm.",
                value=recipe.name,
                field="body.dishes",
            )
