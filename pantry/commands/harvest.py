"""Weigh in what the garden gave."""

from datetime import datetime

from pantry.commands import naming
from pantry.commands.facts import Harvest
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import add, change, every
from pantry.records.tables import BatchRow, HarvestRow
from pantry.rules.house_time import local_date
from pantry.rules.stock import DateKind, State


def harvest(books: Books, given: Given[Harvest]) -> None:
    """A batch from the garden, without a date mark; the estimate it fulfils is less by so much.

    Raises:
        NotThere: an unknown item or area.
        UnreadableInput: the quantity cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    body = given.body
    item = naming.item(books, body.item)
    quantity = naming.quantity(books, body.quantity, item)
    pieces = naming.pieces(body.quantity)
    area = naming.area(books, body.area)
    row = BatchRow(
        house=books.id,
        id=body.batch,
        item=item.id,
        label=label_for(books, body.batch, body.label),
        state=State.SEALED.value,
        state_at=given.at,
        date_kind=DateKind.NONE.value,
        quantity=quantity,
        pieces=pieces,
        sealed_quantity=0,
        since=given.at,
    )
    add(books.connection, row)
    shelf = accounts.area(area.id)
    take(books, row, Movement(row.id, quantity, accounts.GARDEN, shelf, given.at, pieces=pieces))
    gathered(books, item.id, given.at, quantity)


def gathered(books: Books, item: str, at: datetime, quantity: int) -> None:
    """Count what was gathered, or less where that is taken back, against the day's estimate."""
    day = local_date(at, books.zone)
    for row in every(books.connection, HarvestRow, house=books.id, item=item):
        if row.first <= day <= row.last:
            where = {"house": books.id, "item": item, "first": row.first}
            change(books.connection, HarvestRow, where, gathered=max(0, row.gathered + quantity))
            return
