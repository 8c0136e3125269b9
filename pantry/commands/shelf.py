"""Where a batch stands, and taking from there."""

from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import every, one
from pantry.records.tables import AreaRow, BatchRow, ItemRow
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit


def place_of(books: Books, batch: BatchRow, area: str | None = None) -> str:
    """The account a quantity of the batch is taken from.

    The area that is named; else the storage area that holds most of it, else where it is on hold,
    else the item's own area: a fact is recorded even where the books have nothing left.
    """
    if area is not None:
        return accounts.area(area)
    stands = ledger.standing(books, batch.id)
    for kind in ("area", "hold", "emergency"):
        of_kind = {k: q for k, q in stands.items() if accounts.kind(k) == kind and q > 0}
        if of_kind:
            return max(of_kind, key=lambda account: (of_kind[account], account))
    return accounts.area(home(books, batch))


def home(books: Books, batch: BatchRow) -> str:
    """The storage area a batch belongs in: one it stood in, else its item's, else the first."""
    for account in ledger.accounts_of(books, batch.id):
        if accounts.kind(account) == "area":
            return accounts.place(account)
    item = one(books.connection, ItemRow, house=books.id, id=batch.item)
    return item.area or every(books.connection, AreaRow, house=books.id)[0].id


def take(books: Books, batch: BatchRow, movement: Movement) -> None:
    """Post a movement of a batch; ask where its shelf cannot have held so much (LG3)."""
    left = ledger.post(books, movement)
    books.touched.add(batch.item)
    if left < 0 and accounts.kind(movement.source) in accounts.PHYSICAL:
        _ask_about_overdraw(books, batch, movement.source, left)


def _ask_about_overdraw(books: Books, batch: BatchRow, source: str, left: int) -> None:
    item = one(books.connection, ItemRow, house=books.id, id=batch.item)
    lacking = show(-left, BaseUnit(item.base_unit))
    ask(
        books,
        "overdrawn",
        "chef",
        f"{batch.id}|{source}",
        recorded=f"{item.name}, batch {batch.label}: {lacking} more was taken from "
        f"{accounts.place(source)} than the books had there.",
        against="A shelf cannot hold less than nothing.",
        answers=("count it", "another batch was used", "the amount was wrong"),
    )
