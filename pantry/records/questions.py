"""Questions: what the records contradict and a person must settle, each with an owner."""

import json
from collections.abc import Sequence

from pantry.records.books import Books
from pantry.records.rows import add, find
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
    """Open a question, once for the same kind and thing; answer its id.

    Args:
        books: the books it is asked in.
        kind: what sort of contradiction.
        owner: the role that settles it.
        about: what it is about (a batch, a service, a command): with `kind` it is the id.
        recorded: what was recorded, in plain words.
        against: what speaks against it, in plain words.
        answers: at most three.
    """
    identity = f"{kind}|{about}"
    if find(books.connection, QuestionRow, house=books.id, id=identity) is not None:
        return identity
    row = QuestionRow(
        house=books.id,
        id=identity,
        kind=kind,
        owner=owner,
        about=about,
        recorded=recorded,
        against=against,
        answers=json.dumps(list(answers[:MOST_ANSWERS])),
        opened_at=books.now,
        opened_by=books.command,
    )
    add(books.connection, row)
    books.note("question", identity)
    return identity
