"""Make a preparation: its ingredients become a batch with a life of its own (SL4)."""

from pantry.commands import assumed, by_products, naming
from pantry.commands.food_put_in import put_into_preparation
from pantry.commands.given import Given
from pantry.commands.made_and_served import Make
from pantry.commands.making import ToMake, Used, made_of
from pantry.records.books import Books
from pantry.records.rows import one
from pantry.records.tables import ItemRow
from pantry.refusals import UnreadableInput, declare

NOT_A_PREPARATION = declare("not_a_preparation", "The recipe is a dish: it makes no batch.")


def make(books: Books, given: Given[Make]) -> None:
    """Write what was made and of what, and what it left; what safety forbids is put on hold.

    Raises:
        NotThere: an unknown recipe, area or batch.
        UnreadableInput: `not_a_preparation`, `not_used_here`, a quantity cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    body = given.body
    recipe = naming.recipe(books, body.recipe)
    if recipe.makes is None:
        raise UnreadableInput(
            NOT_A_PREPARATION,
            f"{recipe.name} is a dish and makes no batch.",
            "Name a preparation, or serve the dish.",
            value=body.recipe,
            field="body.recipe",
        )
    item = one(books.connection, ItemRow, house=books.id, id=recipe.makes)
    what = ToMake(
        recipe=recipe,
        item=item.id,
        quantity=naming.quantity(books, body.quantity, item),
        at=given.at,
        child=body.child,
        area=naming.area(books, body.area).id,
        label=body.label,
        pieces=naming.pieces(body.quantity),
    )
    used = assumed.ingredients(books, what) if body.used is None else _scanned(books, given)
    put_into_preparation(books, recipe.id, [each.batch.item for each in used])
    made = made_of(books, what, used)
    by_products.keep(books, made, body.by_products, used, given.at)


def _scanned(books: Books, given: Given[Make]) -> list[Used]:
    found = []
    for number, part in enumerate(given.body.used or ()):
        batch = naming.batch(books, part.batch, f"body.used[{number}].batch")
        item = naming.item(books, batch.item)
        quantity = naming.quantity(books, part.quantity, item, f"body.used[{number}].quantity")
        found.append(Used(batch, quantity, "scanned"))
    return found
