"""Make a preparation: its ingredients become a batch with a life of its own (SL4)."""

from collections.abc import Iterable
from dataclasses import dataclass

from pantry.commands import naming
from pantry.commands.facts import Make
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns, life_of
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.costs import share_of_cost
from pantry.records.ledger import Movement, balances, post
from pantry.records.questions import ask
from pantry.records.read import menu, stock
from pantry.records.read.lives import house_lives
from pantry.records.rows import add, one
from pantry.records.tables import BatchParentRow, BatchRow, ItemRow, RecipeRow
from pantry.refusals import UnreadableInput, UnsafeFood, declare
from pantry.rules import shelf_life
from pantry.rules.fefo import Need, allocate
from pantry.rules.menu import Dating
from pantry.rules.recipes import needs_of_making
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, State

NOT_A_PREPARATION = declare("not_a_preparation", "The recipe is a dish: it makes no batch.")


@dataclass(frozen=True, slots=True)
class _Used:
    """So much of one batch went in, scanned or assumed by FEFO."""

    batch: BatchRow
    quantity: int
    link: str


def make(books: Books, given: Given[Make]) -> None:
    """Write what was made and of what; what safety forbids is recorded and put on hold.

    Raises:
        NotThere: an unknown recipe, area or batch.
        UnreadableInput: `not_a_preparation`, a quantity cannot be read.
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
    quantity = naming.quantity(books, body.quantity, item)
    area = naming.area(books, body.area).id
    used = (
        _scanned(books, given)
        if body.used is not None
        else _assumed(books, given, recipe, quantity)
    )
    life, refusal = _life(books, given, recipe, used)
    cost = sum(share_of_cost(books, each.batch, each.quantity) for each in used)
    row = _row(books, given, recipe, quantity, cost, life)
    _draw(books, given, recipe, row, used)
    add(books.connection, row)
    account = accounts.hold(area) if refusal else accounts.area(area)
    post(books, Movement(row.id, quantity, accounts.MADE_INTO, account, given.at))
    books.touched.add(item.id)
    if refusal:
        _ask(books, row, refusal)


def _scanned(books: Books, given: Given[Make]) -> list[_Used]:
    found = []
    for number, part in enumerate(given.body.used or ()):
        batch = naming.batch(books, part.batch, f"body.used[{number}].batch")
        item = naming.item(books, batch.item)
        quantity = naming.quantity(books, part.quantity, item, f"body.used[{number}].quantity")
        found.append(_Used(batch, quantity, "scanned"))
    return found


def _assumed(books: Books, given: Given[Make], recipe: RecipeRow, quantity: int) -> list[_Used]:
    """What the recipe says, of the batches that die first; what is not there is not assumed."""
    items = stock.items(books.connection, books.id)
    whole = menu.recipes(books.connection, books.id)[recipe.id]
    like = Need(given.id, "", recipe.id, recipe.makes or "", 0, wanted_by=given.at, until=given.at)
    needs = needs_of_making(whole, quantity, items, like)
    rows = stock.batch_rows(books.connection, books.id, sorted({need.item for need in needs}))
    by_id = {row.id: row for row in rows}
    stands = stock.standing(books.connection, books.id, list(by_id))
    sources = stock.sources(rows, stands)
    return [
        _Used(by_id[pick.source], pick.quantity, "assumed")
        for need in needs
        for pick in allocate([need], sources.get(need.item, []), given.at).picks
    ]


def _life(
    books: Books, given: Given[Make], recipe: RecipeRow, used: Iterable[_Used]
) -> tuple[Life, UnsafeFood | None]:
    lives = house_lives(books.connection, books.house)
    days, hours = lives.prepared(recipe.life_days)
    parts = [life_of(each.batch) for each in used]
    dating = Dating(recipe.dating)
    try:
        made = shelf_life.made(given.at, days, dating, parts, books.zone, life_hours=hours)
    except UnsafeFood as refusal:
        return Life(usable_until=given.at), refusal
    return made, None


def _row(
    books: Books, given: Given[Make], recipe: RecipeRow, quantity: int, cost: int, life: Life
) -> BatchRow:
    body = given.body
    return BatchRow(
        house=books.id,
        id=body.child,
        item=recipe.makes or recipe.id,
        label=label_for(books, body.child, body.label),
        state=State.MADE.value,
        state_at=given.at,
        date_kind=DateKind.NONE.value,
        cooked=recipe.dating != Dating.ASSEMBLED,
        quantity=quantity,
        cost=cost,
        sealed_quantity=0,
        since=given.at,
        made_by=recipe.id,
        **as_columns(life),
    )


def _draw(
    books: Books, given: Given[Make], recipe: RecipeRow, row: BatchRow, used: Iterable[_Used]
) -> None:
    """Take each ingredient from what was taken out for the preparation, then from the shelf."""
    kitchen = accounts.kitchen(recipe.makes or recipe.id)
    total: dict[str, int] = {}
    link: dict[str, str] = {}
    for each in used:
        out = min(each.quantity, max(0, balances(books, each.batch.id).get(kitchen, 0)))
        parts = ((kitchen, out), (place_of(books, each.batch), each.quantity - out))
        for source, quantity in parts:
            if quantity:
                movement = Movement(
                    each.batch.id, quantity, source, accounts.MADE_INTO, given.at, link=each.link
                )
                take(books, each.batch, movement)
        total[each.batch.id] = total.get(each.batch.id, 0) + each.quantity
        link[each.batch.id] = each.link
    parents = [
        BatchParentRow(
            house=books.id, batch=row.id, parent=parent, quantity=quantity, link=link[parent]
        )
        for parent, quantity in total.items()
    ]
    add(books.connection, *parents)


def _ask(books: Books, row: BatchRow, refusal: UnsafeFood) -> None:
    ask(
        books,
        "unsafe",
        "chef",
        row.id,
        recorded=f"Batch {row.label} was made.",
        against=str(refusal),
        answers=("throw it away", "the record is wrong"),
    )
