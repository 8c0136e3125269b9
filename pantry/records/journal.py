"""The journal: every command as it came, with its answer, chained by hash (SY2, SY6, SY11)."""

import hashlib
from dataclasses import dataclass
from datetime import datetime

from pantry.records.books import Books
from pantry.records.rows import add, find
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


def link(previous: str, position: int, entry: Entry) -> str:
    """The hash that chains an entry to the one before: SHA-256 over both and all its text."""
    parts = (previous, str(position), entry.id, entry.envelope, entry.outcome, entry.answer)
    digest = hashlib.sha256()
    for part in parts:
        encoded = part.encode()
        digest.update(len(encoded).to_bytes(8, "big"))
        digest.update(encoded)
    return digest.hexdigest()


def keep(books: Books, entry: Entry) -> None:
    """Write an entry at the books' present position, and move the chain on."""
    books.chain = link(books.chain, books.position, entry)
    row = JournalRow(
        house=books.id,
        position=books.position,
        id=entry.id,
        kind=entry.kind,
        at=entry.at,
        recorded_at=books.now,
        person=entry.person,
        device=entry.device,
        n=entry.n,
        envelope=entry.envelope,
        outcome=entry.outcome,
        answer=entry.answer,
        chain=books.chain,
    )
    add(books.connection, row)


def kept(books: Books, command: str) -> JournalRow | None:
    """The entry of a command id, if the journal has it."""
    return find(books.connection, JournalRow, house=books.id, id=command)
