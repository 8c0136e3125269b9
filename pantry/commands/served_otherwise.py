"""What was really used at a service, where that was not as planned (LG2)."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from pantry.commands import naming
from pantry.commands.lives import dies_first
from pantry.commands.parts import CountedPart
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.read import stock
from pantry.records.rows import every, one
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit


def used_in_all(
    books: Books,
    exceptions: Iterable[CountedPart],
    planned: Mapping[str, int],
    taken: Mapping[str, int],
    at: datetime,
    otherwise: Mapping[str, tuple[int, int]],
) -> dict[str, int]:
    """How much of each batch was used: as planned and taken out, overruled by the exceptions.

    `otherwise` is, by item, what was wanted as planned and for the portions that were served; what
    was short for either was no less so.

    Raises:
        NotThere: an unknown batch or item.
        UnreadableInput: a quantity cannot be read.
    """
    used = {batch: planned.get(batch, 0) + taken.get(batch, 0) for batch in {**planned, **taken}}
    for name, (was, wanted) in sorted(otherwise.items()):
        row = one(books.connection, ItemRow, house=books.id, id=name)
        of_item = _of_item(books, name, used)
        used |= _spread(books, row, wanted if of_item >= min(was, wanted) else of_item, used, at)
    for number, exception in enumerate(exceptions):
        field = f"body.exceptions[{number}]"
        if exception.batch is not None:
            batch = naming.batch(books, exception.batch, f"{field}.batch")
            item = naming.item(books, batch.item)
        else:
            batch, item = None, naming.item(books, exception.item or "", f"{field}.item")
        quantity = naming.quantity(books, exception.quantity, item, f"{field}.quantity", least=0)
        if batch is not None:
            used[batch.id] = quantity
        elif item.measured:
            used |= _spread(books, item, quantity, used, at)
    return used


def _of_item(books: Books, item: str, used: Mapping[str, int]) -> int:
    rows = every(books.connection, BatchRow, house=books.id, item=item)
    return sum(used.get(row.id, 0) for row in rows)


def _spread(
    books: Books, item: ItemRow, total: int, used: Mapping[str, int], at: datetime
) -> dict[str, int]:
    """So much of an item over its batches: those planned first, then whatever else stands there.

    Of each the batch that dies first goes first. What no batch can have given is taken from the
    last of them all the same, and where there is none a person is asked.
    """
    rows = sorted(every(books.connection, BatchRow, house=books.id, item=item.id), key=dies_first)
    planned = [row for row in rows if row.id in used]
    spread: dict[str, int] = {}
    for row in planned:
        spread[row.id] = min(total, used[row.id])
        total -= spread[row.id]
    stands = stock.standing(books.connection, books.id, [row.id for row in rows])
    for row in rows:
        alive = row.usable_until is None or row.usable_until >= at
        if total and alive and row.id in stands and not row.recalled:
            more = min(total, max(0, stands[row.id].usable - spread.get(row.id, 0)))
            spread[row.id] = spread.get(row.id, 0) + more
            total -= more
    if total and rows:
        last = (planned or rows)[-1].id
        spread[last] = spread.get(last, 0) + total
    elif total:
        _ask(books, item, total)
    return spread


def _ask(books: Books, item: ItemRow, quantity: int) -> None:
    ask(
        books,
        "not_on_the_books",
        "chef",
        f"{books.command}|{item.id}",
        recorded=f"{show(quantity, BaseUnit(item.base_unit))} of {item.name} was used.",
        against="The books know no batch of it.",
        answers=("record where it came from", "the amount was wrong"),
    )
