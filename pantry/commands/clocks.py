"""Two clocks that leave open what came first, where that changes a quantity (SY8)."""

from dataclasses import dataclass

from pantry.commands.counting import Counting
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import every, one
from pantry.records.tables import AreaRow, BatchRow, ItemRow, MovementRow


@dataclass(frozen=True, slots=True)
class Doubt:
    """What other devices moved so near a count that either may have been first, in thousandths.

    Attributes:
        before: moved into the area before the count, by the books; perhaps after it.
        after: moved into the area after the count, by the books; perhaps before it.
    """

    before: int
    after: int

    def explains(self, difference: int) -> bool:
        """Whether the difference is there only because the books have the order wrong."""
        return difference in (self.after, -self.before)


def doubt_about(counting: Counting, batch: str) -> Doubt | None:
    """What may have come before or after the count of a batch; None: the order is known.

    Every movement of the batch is looked at, however far off the clocks may be: each says so. What
    a count posted is none: it is what that count found.
    """
    books, counted = counting.books, counting.moment
    before = after = 0
    for row in every(books.connection, MovementRow, house=books.id, batch=batch):
        moment = ledger.moment_of(row)
        is_count = accounts.COUNT_DIFFERENCE in (row.source, row.target)
        if is_count or not moment.may_be_either_side_of(counted):
            continue
        sign = (row.target in counting.accounts) - (row.source in counting.accounts)
        if moment.is_before(counted):
            before += row.quantity * sign
        else:
            after += row.quantity * sign
    return Doubt(before, after) if before or after else None


def ask_where_neither_fits(counting: Counting, batch: BatchRow) -> None:
    """Ask about a count, and leave the books as they are: neither order makes them agree."""
    against = "Another device moved some of it at the same time, and neither order fits."
    _ask(counting.books, batch, counting.area, against)


def ask_about_movement(books: Books, batch: BatchRow, account: str) -> None:
    """Ask about a movement beside a count of an account that was handed in before it.

    Time has decided so far: the count's difference is on the books, and somebody may have said by
    now what it was.
    """
    area = one(books.connection, AreaRow, house=books.id, id=accounts.place(account))
    against = "Another device moved some of it at the same time, and handed that in afterwards."
    _ask(books, batch, area, against)


def _ask(books: Books, batch: BatchRow, area: AreaRow, against: str) -> None:
    item = one(books.connection, ItemRow, house=books.id, id=batch.item)
    ask(
        books,
        "which_was_first",
        "chef",
        f"{accounts.area(area.id)}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}, was counted in {area.name}.",
        against=against,
        answers=("count again", "it was counted before", "it was counted after"),
    )
