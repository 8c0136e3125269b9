"""Somebody went to the shop: one line for the money, and a batch for everything that matters (LG6).

What was paid in all is never spread over what was bought: not everything on a receipt is written
down. What is not said to have cost something is at no cost on the books, and told as not known.
Nobody orders what is bought so, and it needs no order; what speaks against it on its own (a passed
use-by, a recalled lot) puts it on hold as at the back door.
"""

from pantry.commands import naming
from pantry.commands.arrivals import ask_about_hold, life_on_arrival, supplier_named, unfit
from pantry.commands.facts import ShopRun
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.levels import set_level_of
from pantry.commands.lives import as_columns, mark_of
from pantry.commands.parts import BoughtPart
from pantry.commands.prices import in_house_currency
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask, close
from pantry.records.rows import add, every, find, remove
from pantry.records.slugs import slug
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    ItemRow,
    JournalRow,
    ShopRunLineRow,
    ShopRunRow,
)

KIND = "bought_unknown"
"""The chef's question about what was bought and the house has no item of."""


def shop_run(books: Books, given: Given[ShopRun]) -> None:
    """Write down where somebody went, what was paid, and put what was bought where it belongs.

    What the house has no item of is kept in words, and the chef is asked.

    Raises:
        NotThere: an unknown area.
        UnreadableInput: a quantity, date mark or sum cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    body = given.body
    total = in_house_currency(books, body.total, "body.total")
    run = ShopRunRow(
        house=books.id,
        command=given.id,
        shop=body.shop.strip(),
        total=total,
        person=given.person,
        at=given.at,
    )
    add(books.connection, run)
    books.note("shop_run", given.id)
    words = [other.strip() for other in body.others if other.strip()]
    for number, line in enumerate(body.lines):
        item = find(books.connection, ItemRow, house=books.id, id=slug(line.item))
        if item is None:
            words.append(f"{line.item}, {_said(line)}")
        else:
            _put_in(books, given, number, line, item)
    for number, said in enumerate(words, start=len(body.lines)):
        row = ShopRunLineRow(house=books.id, command=given.id, line=number, words=said)
        add(books.connection, row)
    if words:
        _ask_the_chef(books, given, words)


def stands(books: Books, command: JournalRow) -> bool:
    """Whether a shop run still stands."""
    return bool(every(books.connection, ShopRunRow, house=books.id, command=command.id))


def take_back(books: Books, command: JournalRow, person: str) -> None:
    """Nobody went there: what was written beside the ledger goes."""
    for line in every(books.connection, ShopRunLineRow, house=books.id, command=command.id):
        if line.batch:
            close(books, "on_hold", line.batch, "it was taken back", person)
    close(books, KIND, command.id, "it was taken back", person)
    remove(books.connection, ShopRunLineRow, house=books.id, command=command.id)
    remove(books.connection, ShopRunRow, house=books.id, command=command.id)
    books.note("shop_run", command.id)


def _put_in(
    books: Books, given: Given[ShopRun], number: int, line: BoughtPart, item: ItemRow
) -> None:
    field = f"body.lines[{number}]"
    area = _area(books, line, item, field)
    cost = in_house_currency(books, line.cost, f"{field}.cost")
    batch, against = _batch(books, given, line, item, area, field)
    batch.cost = cost or 0
    against += unfit(books, batch, given.at)
    add(books.connection, batch)
    account = accounts.hold(area.id) if against else accounts.area(area.id)
    came = Movement(
        batch.id, batch.quantity, accounts.SUPPLIER, account, given.at, pieces=batch.pieces
    )
    take(books, batch, came)
    row = ShopRunLineRow(house=books.id, command=given.id, line=number, batch=batch.id, cost=cost)
    add(books.connection, row)
    if not item.measured:
        set_level_of(books, item.id, "plenty", given.at)
    if against:
        ask_about_hold(books, item, batch, area, against)


def _batch(
    books: Books,
    given: Given[ShopRun],
    line: BoughtPart,
    item: ItemRow,
    area: AreaRow,
    field: str,
) -> tuple[BatchRow, list[str]]:
    mark = mark_of(books, line.date_mark, given.at, f"{field}.date_mark.date")
    state, life, against = life_on_arrival(books, item, area, mark, given.at)
    row = BatchRow(
        house=books.id,
        id=line.batch,
        item=item.id,
        label=label_for(books, line.batch, line.label),
        lot=line.lot,
        supplier=supplier_named(books, given.body.shop),
        state=state.value,
        state_at=given.at,
        date_kind=mark.kind.value,
        mark_date=mark.date,
        quantity=naming.quantity(books, line.quantity, item, f"{field}.quantity"),
        pieces=naming.pieces(line.quantity, f"{field}.quantity"),
        since=given.at,
        **as_columns(life),
    )
    return row, against


def _area(books: Books, line: BoughtPart, item: ItemRow, field: str) -> AreaRow:
    """Where it was put, else where the item belongs, else the first on the list."""
    named = line.area or item.area
    if named is None:
        return every(books.connection, AreaRow, house=books.id)[0]
    return naming.area(books, named, f"{field}.area")


def _said(line: BoughtPart) -> str:
    written = line.quantity
    return written if isinstance(written, str) else f"{written.value} {written.unit}"


def _ask_the_chef(books: Books, given: Given[ShopRun], words: list[str]) -> None:
    ask(
        books,
        KIND,
        "chef",
        given.id,
        recorded=f"Bought at {given.body.shop.strip()}: {'; '.join(words)}.",
        against="The house has no such item: it is in nobody's stock.",
        answers=("the item is entered now", "it need not be stocked"),
    )
