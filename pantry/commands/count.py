"""Count a storage area: the books follow the shelf; a person is asked where that is too far."""

from pantry.commands import naming
from pantry.commands.counted import compare, set_up
from pantry.commands.counting import Counting
from pantry.commands.facts import Count
from pantry.commands.given import Given
from pantry.commands.lives import dies_first
from pantry.commands.parts import CountedPart
from pantry.records.books import Books
from pantry.records.rows import every
from pantry.records.tables import BatchRow
from pantry.refusals import UnreadableInput, declare

COUNTED_NOTHING = declare("counted_nothing", "A counted line names neither batch nor item.")


def count(books: Books, given: Given[Count]) -> None:
    """Post each difference between what was counted and what stood there when it was counted.

    What went in or out after the count, though written down before it, is not counted against it;
    what went in or out before it, and is written down later, changes nothing (SY8). Where less was
    found than is promised for today, the question 'already taken out?' comes before the difference
    (LG3), unless the line says it.

    Raises:
        NotThere: an unknown area, batch or item.
        UnreadableInput: a quantity cannot be read, `counted_nothing`.
    """
    counting = Counting(books, given, naming.area(books, given.body.area))
    for number, line in enumerate(given.body.lines):
        field = f"body.lines[{number}]"
        if line.batch is not None:
            batch = naming.batch(books, line.batch, f"{field}.batch")
            item = naming.item(books, batch.item)
            found = naming.quantity(books, line.quantity, item, f"{field}.quantity", least=0)
            compare(counting, item, batch, found, line)
        else:
            _count_item(counting, line, field)


def _count_item(counting: Counting, line: CountedPart, field: str) -> None:
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
    total = naming.quantity(books, line.quantity, item, f"{field}.quantity", least=0)
    rows = every(books.connection, BatchRow, house=books.id, item=item.id)
    stood = {row.id: counting.stood(row.id) for row in rows}
    there = sorted((row for row in rows if stood[row.id] > 0), key=dies_first)
    missing = sum(stood[row.id] for row in there) - total
    for number, row in enumerate(there):
        is_last = number == len(there) - 1
        gone = min(missing, stood[row.id]) if missing > 0 or is_last else 0
        missing -= gone
        compare(counting, item, row, stood[row.id] - gone, line)
    for row in rows:
        if stood[row.id] < 0:
            compare(counting, item, row, 0, line)
    if total and not there:
        set_up(counting, item, total)
