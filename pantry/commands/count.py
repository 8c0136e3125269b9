"""Count a storage area: the books follow the shelf; a person is asked where that is too far."""

from collections.abc import Sequence

from pantry.commands import last_counted, naming
from pantry.commands.counted import Found, compare, set_up
from pantry.commands.counting import Counting
from pantry.commands.facts import Count
from pantry.commands.given import Given
from pantry.commands.lives import dies_first
from pantry.commands.parts import CountedPart
from pantry.records.books import Books
from pantry.records.rows import every
from pantry.records.tables import BatchRow, ItemRow
from pantry.refusals import UnreadableInput, declare

COUNTED_NOTHING = declare("counted_nothing", "A counted line names neither batch nor item.")


def count(books: Books, given: Given[Count]) -> None:
    """Post each difference between what was counted and what stood there when it was counted.

    What went in or out after the count, though written down before it, is not counted against it;
    what went in or out before it, and is written down later, changes nothing (SY8). Where less was
    found than is promised for today, the question 'already taken out?' comes before the difference
    (LG3), unless the line says it. The order of the lines is that of the shelves from then on.

    Raises:
        NotThere: an unknown area, batch or item.
        UnreadableInput: a quantity cannot be read, `counted_nothing`.
    """
    counting = Counting(books, given, naming.area(books, given.body.area))
    totals: dict[str, int] = {}
    for number, line in enumerate(given.body.lines):
        field = f"body.lines[{number}]"
        if line.batch is not None:
            batch = naming.batch(books, line.batch, f"{field}.batch")
            item = naming.item(books, batch.item)
            found = _found(books, line, item, field)
            compare(counting, item, batch, found, line)
        else:
            item, found = _count_item(counting, line, field)
        totals[item.id] = totals.get(item.id, 0) + found.quantity
    last_counted.remember(counting, totals)


def _found(books: Books, line: CountedPart, item: ItemRow, field: str) -> Found:
    """What a line says was found; the pieces too of what is counted while weighed (MS1)."""
    return Found(
        naming.quantity(books, line.quantity, item, f"{field}.quantity", least=0),
        naming.pieces(line.quantity, f"{field}.quantity"),
    )


def _count_item(counting: Counting, line: CountedPart, field: str) -> tuple[ItemRow, Found]:
    """An item counted whatever the batch: what is missing has gone from what dies first.

    What is found beyond what stood there belongs to the batch that came last; where none stood
    there, it is a batch of its own.
    """
    if line.item is None:
        raise UnreadableInput(
            COUNTED_NOTHING,
            "A counted line names neither a batch nor an item.",
            "Name the batch or the item.",
            field=field,
        )
    books = counting.books
    item = naming.item(books, line.item, f"{field}.item")
    total = _found(books, line, item, field)
    rows = every(books.connection, BatchRow, house=books.id, item=item.id)
    stood = {row.id: counting.stood(row.id) for row in rows}
    there = sorted((row for row in rows if stood[row.id] > 0), key=dies_first)
    weights = _left([stood[row.id] for row in there], total.quantity)
    pieces: list[int] | list[None] = [None] * len(there)
    if total.pieces is not None:
        pieces = _left([counting.pieces_stood(row.id) for row in there], total.pieces)
    whole = (sum(stood.values()), total.quantity)
    for row, weight, counted in zip(there, weights, pieces, strict=True):
        compare(counting, item, row, Found(weight, counted), line, whole)
    for row in rows:
        if stood[row.id] < 0:
            compare(counting, item, row, Found(0), line, whole)
    if total.quantity and not there:
        set_up(counting, item, total)
    return item, total


def _left(stood: Sequence[int], total: int) -> list[int]:
    """What is left of each: the first miss what is missing, the last has what is beyond."""
    missing = sum(stood) - total
    left = []
    for number, there in enumerate(stood):
        is_last = number == len(stood) - 1
        gone = min(missing, there) if missing > 0 or is_last else 0
        missing -= gone
        left.append(there - gone)
    return left
