"""The journal: every command as it came, with its answer, chained by hash (SY2, SY6, SY11)."""

import hashlib
from dataclasses import dataclass
from datetime import UTC, datetime

from pantry.records.books import Books
from pantry.records.rows import find, put
from pantry.records.tables import JournalRow


@dataclass(frozen=True, slots=True)
class Entry:
    """One command and what was answered; `envelope` and `answer` are canonical JSON."""

    id: str
    kind: str
    at: datetime
    person: str
    device: str | None
    n: int | None
    envelope: str
    outcome: str
    answer: str


def link(previous: str, position: int, entry: Entry, recorded_at: datetime) -> str:
    """The hash that chains an entry to the one before: SHA-256 over that hash and all of this one.

    Every part is preceded by its length, so that nothing can be shifted from one to the next.
    """
    digest = hashlib.sha256()
    for part in (previous, position, recorded_at, *_values(entry).values()):
        encoded = _written(part).encode()
        digest.update(len(encoded).to_bytes(8, "big"))
        digest.update(encoded)
    return digest.hexdigest()


def _values(entry: Entry) -> dict[str, object]:
    return {name: getattr(entry, name) for name in Entry.__slots__}


def _written(part: object) -> str:
    if isinstance(part, datetime):
        return part.astimezone(UTC).isoformat()
    return "" if part is None else str(part)


def keep(books: Books, entry: Entry) -> None:
    """Write an entry at the books' present position, and move the chain on."""
    books.chain = link(books.chain, books.position, entry, books.now)
    put(
        books.connection,
        JournalRow,
        house=books.id,
        position=books.position,
        recorded_at=books.now,
        chain=books.chain,
        **_values(entry),
    )


def kept(books: Books, command: str) -> JournalRow | None:
    """The entry of a command id, if the journal has it."""
    return find(books.connection, JournalRow, house=books.id, id=command)
