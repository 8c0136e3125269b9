"""Food that no dish of a menu names goes into it: whoever cannot eat it is looked for (AL3).

It has happened, so it is recorded and asked about, and never refused. What is a dish's own was
looked at when the menu was chosen.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from pantry.commands.safe_tables import BLOCKING, Menu, menus_to_come
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.read import menu
from pantry.records.read.larder import larder
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import NeedRow, ServiceRow, ServingRow
from pantry.rules.allergens import Larder, reached
from pantry.rules.conflicts import Conflict, conflicts
from pantry.rules.menu import Ingredient, Recipe, RecipeKind
from pantry.rules.recipes import cooked_from
from pantry.rules.variants import with_variant

_BEFORE = ("cook them their own", "swap the dish", "it is safe")
_EATEN = ("they did not eat of it", "they have been told", "it is safe")


def put_into_service(
    books: Books, service: ServiceRow, items: Iterable[str], *, eaten: bool = False
) -> None:
    """Look at food that was taken out for a service, or was eaten at it."""
    planned = {
        need.item for need in every(books.connection, NeedRow, house=books.id, service=service.id)
    }
    others = set(items) - planned
    if others:
        servings = every(books.connection, ServingRow, house=books.id, service=service.id)
        _look(books, [(service, servings)], others, eaten=eaten)


def put_into_preparation(books: Books, recipe: str, items: Iterable[str]) -> None:
    """Look at food that goes into a preparation, at every menu to come that is cooked from it."""
    others = set(items) - {line.item for line in books.recipes[recipe].ingredients}
    if others:
        dishes = cooked_from(books.recipes, recipe)
        menus = [each for each in menus_to_come(books) if dishes & {of.dish for of in each[1]}]
        _look(books, menus, others, eaten=False)


def _look(books: Books, menus: Iterable[Menu], items: set[str], *, eaten: bool) -> None:
    at_tables = menu.constraints(books.connection, books.id)
    tables = {each.table for each in at_tables}
    concerned = [each for each in menus if each[0].dining_table in tables]
    if not concerned:
        return
    known = larder(books.connection, books.id, books.items, books.recipes.values())
    for service, servings in concerned:
        named = _named(books, servings, known)
        for item in sorted(items - named):
            dish = _alone(item, known)
            found = conflicts(at_tables, dish, service.dining_table, service.on, known)
            for conflict in _first_of_each(found):
                _ask(books, service, conflict, known.names.get(item, item), eaten=eaten)


def _named(books: Books, servings: Iterable[ServingRow], known: Larder) -> set[str]:
    """Everything that the dishes of a menu are made of, as they are served."""
    dishes = (with_variant(books.recipes[each.dish], each.variant) for each in servings)
    return {chain[-1] for dish in dishes for chain in reached(dish, known)}


def _alone(item: str, known: Larder) -> Recipe:
    """A dish of one item and nothing else."""
    return Recipe(
        id=item,
        name=known.names.get(item, item),
        kind=RecipeKind.DISH,
        yields=Fraction(1),
        ingredients=(Ingredient(item, Fraction(1)),),
    )


def _first_of_each(found: Iterable[Conflict]) -> Iterator[Conflict]:
    seen = set[str]()
    for conflict in found:
        if conflict.certainty in BLOCKING and conflict.person not in seen:
            seen.add(conflict.person)
            yield conflict


def _ask(books: Books, service: ServiceRow, conflict: Conflict, item: str, *, eaten: bool) -> None:
    certainty = conflict.certainty.replace("_", " ")
    how = "was eaten at" if eaten else "goes into what is cooked for"
    ask(
        books,
        "allergen",
        "chef",
        f"{service.id}|{slug(conflict.person)}",
        recorded=f"{item} {how} {service.id}, and no dish on its menu names it.",
        against=f"{conflict.person} cannot eat {conflict.cannot_eat}: {item} {certainty} it. "
        "Read the label; local codes and medical advice come first.",
        answers=_EATEN if eaten else _BEFORE,
    )
