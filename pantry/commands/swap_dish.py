"""Swap a confirmed dish for another."""

from pantry.commands import menu_needs, menus
from pantry.commands.confirm import refuse_unapproved
from pantry.commands.decisions import SwapDish
from pantry.commands.given import Given
from pantry.commands.overrides import write_overrides
from pantry.commands.safe_tables import refuse_conflicts
from pantry.records.books import Books
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import ServingRow
from pantry.refusals import NotThere, declare
from pantry.rules.menu import ServiceState

DISH_NOT_ON_MENU = declare("dish_not_on_menu", "The dish is not on that service's menu.")


def swap_dish(books: Books, given: Given[SwapDish]) -> None:
    """Put one dish in the place of another, in its course and with its portions unless said.

    Raises:
        NotThere: an unknown service or dish, `dish_not_on_menu`.
        Moved: `base_moved`.
        NotNow: `service_state`, `recipe_unapproved`, `allergen_conflict`.
    """
    body = given.body
    row = menus.decided(books, given, body.service, ServiceState.CONFIRMED)
    servings = every(books.connection, ServingRow, house=books.id, service=row.id)
    place = next((s for s in servings if s.dish == slug(body.dish)), None)
    if place is None:
        raise NotThere(
            DISH_NOT_ON_MENU,
            f"{body.dish} is not on the menu of {row.id}.",
            "Name one of its dishes.",
            value=body.dish,
            field="body.dish",
        )
    other = menus.chosen(books, row, [body.by])[0]
    other.line, other.course = place.line, body.by.course or place.course
    other.portions = place.portions if body.by.portions is None else body.by.portions
    after = [other if serving is place else serving for serving in servings]
    refuse_unapproved(books, [other])
    refuse_conflicts(books, row, after, body.overrides)
    menus.set_servings(books, row.id, after)
    write_overrides(books, given, row, after, body.overrides)
    menu_needs.write(books, menus.moved_on(books, row))
