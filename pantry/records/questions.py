"""Questions: what the records contradict and a person must settle, each with an owner."""

import json
from collections.abc import Sequence

from pantry.records.books import Books
from pantry.records.rows import add, change, every, find
from pantry.records.tables import QuestionRow

MOST_ANSWERS = 3


def ask(
    books: Books,
    kind: str,
    owner: str,
    about: str,
    *,
    recorded: str,
    against: str,
    answers: Sequence[str],
) -> str:
    """Open a question, unless the same one is open already; answer its id.

    What was settled and is contradicted again is asked again, under the next number.

    Args:
        books: the books it is asked in.
        kind: what sort of contradiction.
        owner: the role that settles it.
        about: what it is about (a batch, a service, a command): with `kind` it is the id.
        recorded: what was recorded, in plain words.
        against: what speaks against it, in plain words.
        answers: at most three.

    Raises:
        ValueError: more answers than a person should have to weigh.
    """
    if len(answers) > MOST_ANSWERS:
        raise ValueError(f"a question has at most {MOST_ANSWERS} answers: {answers}")
    identity, row = _last(books, kind, about)
    if row is not None:
        return identity
    add(
        books.connection,
        QuestionRow(
            house=books.id,
            id=identity,
            kind=kind,
            owner=owner,
            about=about,
            recorded=recorded,
            against=against,
            answers=json.dumps(list(answers)),
            opened_at=books.now,
            opened_by=books.command,
        ),
    )
    books.note("question", identity)
    return identity


def close(books: Books, kind: str, about: str, answer: str, person: str) -> None:
    """Settle an open question that what a person recorded has answered by itself, if there is one.

    Args:
        books: the books it was asked in.
        kind: as it was asked.
        about: as it was asked.
        answer: what answered it, in plain words.
        person: who recorded that.
    """
    identity, row = _last(books, kind, about)
    if row is None:
        return
    change(
        books.connection,
        QuestionRow,
        {"house": books.id, "id": identity},
        settled_at=books.now,
        settled_by=person,
        answer=answer,
        version=row.version + 1,
        last_command=books.command,
    )
    books.note("question", identity)


def is_open(books: Books, kind: str, about: str) -> bool:
    """Whether a question about this is open."""
    return _last(books, kind, about)[1] is not None


def close_what_was_asked(books: Books, command: str, answer: str, person: str) -> None:
    """Settle what a command had asked and nobody has answered yet, where it is taken back."""
    for row in every(books.connection, QuestionRow, house=books.id, opened_by=command):
        if row.settled_at is None:
            close(books, row.kind, row.about, answer, person)


def reopen(books: Books, kind: str, about: str, command: str) -> None:
    """Ask again what a command had answered by itself, where that command is taken back."""
    of_it = {"house": books.id, "kind": kind, "about": about}
    for row in every(books.connection, QuestionRow, **of_it, last_command=command):
        change(
            books.connection,
            QuestionRow,
            {"house": books.id, "id": row.id},
            settled_at=None,
            settled_by=None,
            answer=None,
            version=row.version + 1,
            last_command=books.command,
        )
        books.note("question", row.id)


def _last(books: Books, kind: str, about: str) -> tuple[str, QuestionRow | None]:
    """The id and row of the question that is open; with None, the id a new one would have."""
    wanted = f"{kind}|{about}"
    identity, number = wanted, 1
    while row := find(books.connection, QuestionRow, house=books.id, id=identity):
        if row.settled_at is None:
            return identity, row
        number += 1
        identity = f"{wanted}|{number}"
    return identity, None
