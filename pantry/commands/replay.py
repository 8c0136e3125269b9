"""What devices handed in after a restore is done again, by old position (SY7).

What was applied is applied again, whatever it was taken on; what was refused, in conflict or kept
without effect stays so. Everything happens at the time at which it had its place, so that a service
that has passed since, or a cut-off, is not looked at too early or too late. A device that comes
late, after the house has gone on, finds other books: its facts are late facts, its decisions are
held against what stands now.
"""

from collections.abc import Sequence

import msgspec

from pantry.commands import door, missing
from pantry.commands.answers import Answer
from pantry.commands.envelope import Envelope, read_envelope
from pantry.records import journal
from pantry.records.books import Books
from pantry.records.places import in_old_order
from pantry.records.questions import ask
from pantry.records.rows import every, find, one, remove
from pantry.records.tables import AwaitedRow, DeviceRow, GatheredRow, JournalRow


def everything(books: Books) -> None:
    """Replay what all devices handed in, in the order of the journals that were lost."""
    now = books.now
    rows = every(books.connection, GatheredRow, house=books.id)
    last = find(books.connection, JournalRow, house=books.id, position=books.position)
    books.now = min([now, last.recorded_at] if last else [now, *(row.at for row in rows)])
    kept = _not_yet_there(books, rows)
    _note_missing(books, rows)
    missing.ask_about_places(books, rows)
    for row in in_old_order(kept):
        books.now = max(books.now, row.at)
        door.catch_up(books)
        _again(books, row, is_late=False)
    books.now = now
    door.catch_up(books)
    remove(books.connection, GatheredRow, house=books.id)


def late(books: Books, device: str) -> None:
    """Replay what one device handed in after the house had gone on without it."""
    rows = every(books.connection, GatheredRow, house=books.id, device=device)
    kept = _not_yet_there(books, rows)
    missing.note_numbers(books, device, rows)
    door.catch_up(books)
    for row in in_old_order(kept):
        _again(books, row, is_late=True)
    remove(books.connection, GatheredRow, house=books.id, device=device)


def _not_yet_there(books: Books, rows: Sequence[GatheredRow]) -> list[GatheredRow]:
    """Without what the backup has, and what has a number that it knows of another command."""
    highest = {row.id: row.highest for row in every(books.connection, DeviceRow, house=books.id)}
    return [
        row for row in rows if row.n > highest[row.device] and journal.kept(books, row.id) is None
    ]


def _note_missing(books: Books, rows: Sequence[GatheredRow]) -> None:
    for awaited in every(books.connection, AwaitedRow, house=books.id):
        of_device = [row for row in rows if row.device == awaited.device]
        missing.note_numbers(books, awaited.device, of_device)


def _again(books: Books, row: GatheredRow, *, is_late: bool) -> None:
    envelope = read_envelope(msgspec.json.decode(row.envelope))
    before = msgspec.json.decode(row.answer, type=Answer) if row.answer else None
    believed = _believed(envelope, before)
    was_applied = believed is not None and believed.outcome == "applied"
    answer = door.keep(books, envelope, None if is_late and was_applied else believed)
    if was_applied and answer.outcome in ("refused", "conflict"):
        _ask_about(books, row, envelope, answer)


def _believed(envelope: Envelope, before: Answer | None) -> Answer | None:
    """An answer that the house can have given: facts are never refused, decisions never kept."""
    if before is None or (before.outcome == "applied" and before.problem is None):
        return before
    is_kept = before.outcome == "kept"
    return before if before.problem is not None and is_kept == envelope.is_fact else None


def _ask_about(books: Books, row: GatheredRow, envelope: Envelope, answer: Answer) -> None:
    device = one(books.connection, DeviceRow, house=books.id, id=row.device)
    why = answer.problem
    ask(
        books,
        "answered_otherwise",
        "manager",
        envelope.id,
        recorded=f"{envelope.kind} by {envelope.person or 'nobody'} on {device.name} was applied "
        "before the house was restored.",
        against=f"It could not be applied again: {why.detail if why else answer.outcome}",
        answers=("decided again", "it is no longer wanted"),
    )
