"""Write down how warm a batch is that cools, and hold one that did not cool in time (SL5)."""

from pantry.commands import naming
from pantry.commands.facts import Cool
from pantry.commands.given import Given
from pantry.commands.holds import put_on_hold
from pantry.commands.temperatures import read_celsius
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import add, every
from pantry.records.tables import BatchRow, CoolingReadingRow
from pantry.rules.cooling import Outcome, cooling
from pantry.rules.safety import Reading


def cool(books: Books, given: Given[Cool]) -> None:
    """A reading of a batch that cools; the first that shows it too slow puts it on hold.

    Raises:
        NotThere: `batch_unknown`.
        UnreadableInput: `temperature_unreadable`.
    """
    batch = naming.batch(books, given.body.batch)
    tenths = read_celsius(given.body.temperature_c)
    before = every(books.connection, CoolingReadingRow, house=books.id, batch=batch.id)
    readings = [*(Reading(row.at, row.tenths) for row in before), Reading(given.at, tenths)]
    last = max(reading.at for reading in readings)
    stands = cooling(books.lives.policy, readings, last)
    has_failed = stands.outcome is Outcome.FAILED
    reading = CoolingReadingRow(
        house=books.id,
        command=given.id,
        batch=batch.id,
        tenths=tenths,
        failed=has_failed,
        at=given.at,
        person=given.person,
    )
    add(books.connection, reading)
    books.note("batch", batch.id)
    if has_failed and not any(row.failed for row in before):
        put_on_hold(books, given.at, batch, f"did not cool in time: {stands.reason}")
        _ask(books, batch, stands.reason)


def _ask(books: Books, batch: BatchRow, reason: str) -> None:
    item = naming.item(books, batch.item).name
    ask(
        books,
        "on_hold",
        "chef",
        batch.id,
        recorded=f"{item}, batch {batch.label}, was to cool in time.",
        against=f"{reason} It is on hold.",
        answers=("throw it away", "release"),
    )
