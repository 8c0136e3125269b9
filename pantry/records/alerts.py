"""Keeping what a look at the plan has found: alerts that rise or close, and the letters of them.

All of it is written in one transaction that holds the house's row, and only where nothing has moved
since the plan was read. So it is written once, however many processes look at the same hour; the
keys of the tables hold that, too.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from pantry.records.books import Books
from pantry.records.rows import add, change, every, find
from pantry.records.tables import AlertRow, AlertStageRow, LetterRow
from pantry.rules.alerts import Close, Rise, Standing
from pantry.rules.deadlines import Alert


@dataclass(frozen=True, slots=True)
class Found:
    """What a look has found to be written.

    Attributes:
        change: how far the house's sequence had come when the plan was read.
        letters: to be sent; those that are there already are not written again.
        next_at: when something rises next by time alone, or a letter of the day is due.
    """

    change: int
    rises: Sequence[Rise]
    closes: Sequence[Close]
    letters: Sequence[LetterRow]
    next_at: datetime | None

    @property
    def is_nothing(self) -> bool:
        """Whether there is nothing to write."""
        return not (self.rises or self.closes or self.letters)


def last_turns(connection: Connection, house: str) -> dict[str, AlertRow]:
    """The last turn of every alert, by its id."""
    return {row.id: row for row in every(connection, AlertRow, house=house)}


def standing(rows: dict[str, AlertRow]) -> dict[str, Standing]:
    """What was told of each alert, as the rule looks at it."""
    return {
        id_: Standing(row.turn, Alert(row.stage), row.order_by, row.why is not None)
        for id_, row in rows.items()
    }


def keep(connection: Connection, house: str, found: Found, now: datetime) -> bool:
    """Write what was found; False, and nothing is written, where the house has moved since."""
    books = Books(connection, house, now)
    if books.change != found.change:
        return False
    for rise in found.rises:
        _raise(books, rise)
    for close in found.closes:
        row = find(connection, AlertRow, house=house, id=close.id, turn=close.turn)
        if row is not None:
            _moves(books, row, why=close.why.value)
    for letter in found.letters:
        if find(connection, LetterRow, house=house, id=letter.id) is None:
            add(connection, letter)
    books.close()
    return True


def _raise(books: Books, rise: Rise) -> None:
    id_, stage, order_by = rise.deadline.id, rise.stage.value, rise.deadline.order_by
    row = find(books.connection, AlertRow, house=books.id, id=id_, turn=rise.turn)
    if row is not None:
        _moves(books, row, stage=stage, order_by=order_by)
    else:
        row = AlertRow(
            house=books.id,
            id=id_,
            turn=rise.turn,
            supplier=rise.deadline.supplier,
            delivery_at=rise.deadline.delivery,
            order_by=order_by,
            stage=stage,
            raised_at=books.now,
            changed_at=books.now,
        )
        add(books.connection, row)
        books.note("alert", row.id)
    stages = [*((each, True) for each in rise.passed_over), (rise.stage, False)]
    told = (
        AlertStageRow(
            house=books.id,
            alert=rise.deadline.id,
            turn=rise.turn,
            stage=each.value,
            raised_at=books.now,
            passed_over=over,
        )
        for each, over in stages
    )
    add(books.connection, *told)


def _moves(books: Books, row: AlertRow, **to: object) -> None:
    key = {"house": books.id, "id": row.id, "turn": row.turn}
    change(
        books.connection,
        AlertRow,
        key,
        changed_at=books.now,
        sequence=row.sequence + 1,
        **to,
    )
    books.note("alert", row.id)
