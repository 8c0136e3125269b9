"""Write a recipe, new or anew: what is confirmed and not begun is cooked by it from now on.

A service for which something has been taken out is being cooked already, and keeps what it needs.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from msgspec.structs import replace as replace_fields

from pantry.commands import base, menu_needs, naming
from pantry.commands.book.check import Checked
from pantry.commands.book.replacing import replace
from pantry.commands.given import Given
from pantry.commands.menus_of_recipe import (
    confirmed_ahead,
    is_begun,
    refuse_lost_variants,
)
from pantry.commands.recipe_decisions import WriteRecipe
from pantry.commands.recipe_sheets import read_recipe
from pantry.commands.safe_tables import ask_about_conflicts, menus_to_come
from pantry.records.books import Books
from pantry.records.read.larder import larder
from pantry.records.rows import change, every, find
from pantry.records.slugs import slug
from pantry.records.tables import RecipeRow, ServingRow
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare
from pantry.rules.allergens import Larder
from pantry.rules.approval import declares_more, is_another_dish
from pantry.rules.menu import Recipe, RecipeKind
from pantry.rules.recipes import cooked_from

RECIPE_THERE = declare("recipe_there", "The house has a recipe of that name already.")
RECIPE_GONE = declare("recipe_gone", "The recipe that was changed is not there.")
RECIPE_KIND_FIXED = declare("recipe_kind_fixed", "A dish stays a dish, a preparation one.")
RECIPE_OF_NOTHING = declare("recipe_of_nothing", "A recipe has no ingredients.")


@dataclass(frozen=True, slots=True)
class _Before:
    """The house's recipes as they stood, with what everything is known to contain."""

    recipes: Mapping[str, Recipe]
    larder: Larder


def write_recipe(books: Books, given: Given[WriteRecipe]) -> None:
    """Write a recipe whole, and let what is confirmed and not begun follow it.

    A dish that has become another one has to be approved again, unless this command says so.

    Raises:
        FaultyBook: `recipe_faulty`, with every fault by sheet, line and column.
        NotNow: `recipe_there`, `recipe_kind_fixed`, `variant_on_menu`.
        NotThere: `recipe_gone`.
        Moved: `base_moved`.
        UnreadableInput: `recipe_of_nothing`.
    """
    body = given.body
    stands = _stands(books, given)
    if not body.ingredients:
        raise UnreadableInput(
            RECIPE_OF_NOTHING,
            f"{body.recipe} has no ingredients.",
            "Add at least one line.",
            field="body.ingredients",
        )
    recipe = stands.id if stands else slug(body.recipe)
    named = body if slug(body.recipe) == recipe else replace_fields(body, recipe=recipe)
    checked = read_recipe(books.connection, books.id, named, given.at)
    refuse_lost_variants(books, recipe, {slug(part.variant) for part in body.variants})
    before = _Before(books.recipes, _larder(books))
    _write(books, checked, recipe, stands)
    _let_menus_follow(books, before, recipe)
    _set_beside(books, body, stands, before)


def _stands(books: Books, given: Given[WriteRecipe]) -> RecipeRow | None:
    """The recipe that is written anew; None: a new one.

    At a desk, too, a recipe is written anew only by who says which version was looked at: a new
    one of the same name would be lost without anybody seeing it.
    """
    body = given.body
    row = naming.recipe_called(books, body.recipe)
    if row is None:
        if given.base is not None and not given.again:
            raise NotThere(
                RECIPE_GONE,
                f"No recipe is called {body.recipe!r}: a recipe keeps its name.",
                "Write it as a new one, without a base.",
                value=body.recipe,
                field="body.recipe",
            )
        return None
    if given.base is None and not given.again:
        raise NotNow(
            RECIPE_THERE,
            f"The house has a recipe called {row.name} already.",
            "Open that one and change it, or give the new one another name.",
            value=row.name,
            field="body.recipe",
        )
    base.check(books, given, row, row.name)
    if row.kind != body.kind:
        raise NotNow(
            RECIPE_KIND_FIXED,
            f"{row.name} is a {row.kind}, and stays one.",
            f"Write a {body.kind} of another name.",
            value=body.kind,
            field="body.kind",
        )
    return row


def _write(books: Books, checked: Checked, recipe: str, stands: RecipeRow | None) -> None:
    """Write the rows under the recipe's own name; what old and new lines name is planned anew."""
    touched = _items_of(books.recipes.get(recipe))
    replace(books, checked.reading.rows)
    if stands:
        of = {"house": books.id, "id": recipe}
        change(books.connection, RecipeRow, of, name=stands.name)
    books.settings_changed()
    books.touched |= touched | _items_of(books.recipes[recipe])


def _items_of(recipe: Recipe | None) -> set[str]:
    if recipe is None:
        return set()
    return {line.item for line in recipe.ingredients} | ({recipe.makes} if recipe.makes else set())


def _let_menus_follow(books: Books, before: _Before, recipe: str) -> None:
    """Plan what is confirmed and not begun by the new recipe, and look for who cannot eat it."""
    if recipe not in before.recipes:
        return
    name = books.recipes[recipe].name
    dishes = cooked_from(books.recipes, recipe)
    menus = [
        (service, every(books.connection, ServingRow, house=books.id, service=service.id))
        for service in confirmed_ahead(books)
    ]
    direct = [row for row, servings in menus if recipe in {each.dish for each in servings}]
    menu_needs.write(books, *(row for row in direct if not is_begun(books, row.id)))
    cooked = [each for each in menus_to_come(books) if dishes & {of.dish for of in each[1]}]
    ask_about_conflicts(books, cooked, f"the recipe of {name} was changed")


def _set_beside(books: Books, body: WriteRecipe, stands: RecipeRow | None, before: _Before) -> None:
    """What stands in no sheet: the picture, and whether the household has to be shown it again."""
    recipe = stands.id if stands else slug(body.recipe)
    others = _declaring_more(books, before, recipe)
    approved = body.approved
    if approved is None:
        is_dish = body.kind == RecipeKind.DISH.value
        approved = not is_dish if stands is None else stands.approved
        if stands and is_dish and _is_another(books, before, recipe, others):
            approved = False
    where = {"house": books.id, "id": recipe}
    change(books.connection, RecipeRow, where, approved=approved, picture=body.picture)
    for other in others - {recipe}:
        row = find(books.connection, RecipeRow, house=books.id, id=other)
        if row and row.approved:
            base.next_version(books, row, "recipe", approved=False)
    books.settings_changed()


def _is_another(books: Books, before: _Before, recipe: str, others: set[str]) -> bool:
    now = books.recipes[recipe]
    return recipe in others or is_another_dish(before.recipes[recipe], now, books.items)


def _declaring_more(books: Books, before: _Before, recipe: str) -> set[str]:
    """The dishes cooked from a recipe that contain, or may contain, what they did not."""
    if recipe not in before.recipes:
        return set()
    larder_now = _larder(books)
    return {
        dish
        for dish in cooked_from(books.recipes, recipe)
        if declares_more(before.recipes[dish], before.larder, books.recipes[dish], larder_now)
    }


def _larder(books: Books) -> Larder:
    return larder(books.connection, books.id, books.items, books.recipes.values())
