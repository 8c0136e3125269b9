"""Two clocks that leave open what came first, where that changes a quantity (SY8)."""

from dataclasses import dataclass
from datetime import timedelta

from sqlalchemy import bindparam, text

from pantry.commands.counting import Counting
from pantry.commands.envelope import bound_of
from pantry.records.questions import ask
from pantry.records.rows import table
from pantry.records.tables import BatchRow, ItemRow, MovementRow

_WIDEST = timedelta(minutes=10)
"""Clocks whose bounds are wider in all are not measured, and nothing near a count is looked at."""

_instant = table(MovementRow).c.at.type
_AROUND = (
    text(
        "SELECT m.source, m.target, m.quantity, m.at, j.device, j.envelope FROM movement m"
        " JOIN journal j ON j.house = m.house AND j.id = m.command"
        " WHERE m.house = :house AND m.batch = :batch AND m.at >= :first AND m.at <= :last"
    )
    .bindparams(bindparam("first", type_=_instant), bindparam("last", type_=_instant))
    .columns(at=_instant)
)


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
    """What may have come before or after the count of a batch; None: the order is known."""
    books, given = counting.books, counting.given
    around = {"first": given.at - _WIDEST, "last": given.at + _WIDEST}
    rows = books.connection.execute(_AROUND, {"house": books.id, "batch": batch} | around).all()
    before = after = 0
    for source, target, quantity, at, device, envelope in rows:
        together = given.bound + bound_of(envelope)
        if device == given.device or not together or abs(at - given.at) > together:
            continue
        moved = quantity * ((target in counting.accounts) - (source in counting.accounts))
        if at <= given.at:
            before += moved
        else:
            after += moved
    return Doubt(before, after) if before or after else None


def ask_which_was_first(counting: Counting, item: ItemRow, batch: BatchRow) -> None:
    """Ask, and leave the books as they are, where neither order makes them agree."""
    ask(
        counting.books,
        "which_was_first",
        "chef",
        f"{counting.given.id}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}, was counted in {counting.area.name}.",
        against="Another device moved some of it at the same time, and neither order fits.",
        answers=("count again", "it was counted before", "it was counted after"),
    )
