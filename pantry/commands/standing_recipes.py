"""Give a recipe another name, or put it away and take it out again; both can be taken back."""

from pantry.commands import base, naming
from pantry.commands.given import Given
from pantry.commands.recipe_decisions import PutAwayRecipe, RenameRecipe
from pantry.commands.write_recipe import RECIPE_THERE
from pantry.records.books import Books
from pantry.records.rows import among, change, every, find
from pantry.records.slugs import slug
from pantry.records.tables import ItemRow, JournalRow, RecipeRow, ServiceRow, ServingRow
from pantry.refusals import NotNow, UnreadableInput, declare
from pantry.rules.menu import ServiceState

RECIPE_UNNAMED = declare("recipe_unnamed", "A recipe needs a name.")
RECIPE_STANDS_SO = declare("recipe_stands_so", "The recipe stands so already.")


def rename(books: Books, given: Given[RenameRecipe]) -> None:
    """Write the name; its id stays, and what was served is called as it was then.

    What a preparation makes has the same name where it had the same before.

    Raises:
        NotThere: `recipe_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `recipe_unnamed`.
        NotNow: `recipe_there`, `recipe_stands_so`.
    """
    name = given.body.name.strip()
    row = naming.recipe(books, given.body.recipe)
    base.check(books, given, row, row.name)
    if not slug(name):
        raise UnreadableInput(RECIPE_UNNAMED, "The name is empty.", "Write one.", field="body.name")
    if name == row.name:
        raise _stands_so(row, f"{row.name} is called so already.", "body.name")
    other = naming.recipe_called(books, name)
    if other is not None and other.id != row.id:
        raise NotNow(
            RECIPE_THERE,
            f"The house has a recipe called {other.name} already.",
            "Give it another name.",
            value=name,
            field="body.name",
        )
    _call(books, row, name, renamed_by=given.id, renamed_from=row.name)


def put_away(books: Books, given: Given[PutAwayRecipe]) -> None:
    """Offer a recipe no more, or again; past and standing menus keep it.

    Raises:
        NotThere: `recipe_unknown`.
        Moved: `base_moved`.
        NotNow: `recipe_stands_so`.
    """
    away = given.body.away
    row = naming.recipe(books, given.body.recipe)
    base.check(books, given, row, row.name)
    if away is (row.put_away_by is not None):
        how = "put away" if away else "offered"
        raise _stands_so(row, f"{row.name} is {how} already.", "body.away")
    base.next_version(books, row, "recipe", put_away_by=given.id if away else None)
    books.settings_changed()


def stands(books: Books, command: JournalRow) -> bool:
    """Whether what a command said of a recipe is what stands: nothing was said of it since."""
    return _said_by(books, command) is not None


def take_back(books: Books, command: JournalRow) -> None:
    """The name it had before, or offered again."""
    row = _said_by(books, command)
    if row is None:
        return
    if command.kind == "rename_recipe":
        _call(books, row, row.renamed_from or row.name, renamed_by=None, renamed_from=None)
    else:
        base.next_version(books, row, "recipe", put_away_by=None)
        books.settings_changed()


_SAID_IN = {"rename_recipe": "renamed_by", "put_away_recipe": "put_away_by"}


def _said_by(books: Books, command: JournalRow) -> RecipeRow | None:
    if command.kind not in _SAID_IN:
        return None
    of = {_SAID_IN[command.kind]: command.id}
    return next(iter(every(books.connection, RecipeRow, house=books.id, **of)), None)


def _call(books: Books, row: RecipeRow, name: str, **beside: str | None) -> None:
    _keep_what_was_served(books, row)
    base.next_version(books, row, "recipe", name=name, **beside)
    item = row.makes and find(books.connection, ItemRow, house=books.id, id=row.makes)
    if item and item.name == row.name:
        base.next_version(books, item, "item", name=name)
    books.settings_changed()


def _keep_what_was_served(books: Books, row: RecipeRow) -> None:
    """Write the name down beside every serving of it that has been served, where none stands."""
    servings = every(books.connection, ServingRow, house=books.id, dish=row.id)
    ids = sorted({each.service for each in servings if each.called is None})
    for service in among(books.connection, ServiceRow, books.id, "id", ids):
        if service.state == ServiceState.SERVED:
            of = {"house": books.id, "service": service.id, "dish": row.id, "called": None}
            change(books.connection, ServingRow, of, called=row.name)


def _stands_so(row: RecipeRow, said: str, field: str) -> NotNow:
    return NotNow(RECIPE_STANDS_SO, said, "Nothing is left to do.", value=row.name, field=field)
