"""A short code for every batch, readable by eye and by phone."""

import hashlib

from pantry.records.books import Books
from pantry.records.rows import find
from pantry.records.tables import BatchRow
from pantry.refusals import NotNow, declare

LABEL_TAKEN = declare("label_taken", "Another batch carries that label.")
BATCH_TAKEN = declare("batch_taken", "A batch with that id stands on the books already.")

_LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Neither 0 and O nor 1, I and L: a wet label is read by eye."""
_SHORTEST = 5


def label_for(books: Books, batch: str, wanted: str | None) -> str:
    """The label asked for, or a new one made from the batch's id.

    Raises:
        NotNow: `label_taken`, `batch_taken`.
    """
    if find(books.connection, BatchRow, house=books.id, id=batch) is not None:
        raise NotNow(
            BATCH_TAKEN,
            f"A batch with the id {batch} stands on the books already.",
            "Give a new batch an id of its own.",
            value=batch,
            field="body.batch",
        )
    if wanted is not None:
        if _taken(books, wanted):
            raise NotNow(
                LABEL_TAKEN,
                f"Another batch carries the label {wanted}.",
                "Take a fresh label.",
                value=wanted,
                field="body.label",
            )
        return wanted
    letters = _spelled(batch)
    length = _SHORTEST
    while _taken(books, letters[:length]):
        length += 1
    return letters[:length]


def _taken(books: Books, label: str) -> bool:
    return find(books.connection, BatchRow, house=books.id, label=label) is not None


def _spelled(batch: str) -> str:
    number = int.from_bytes(hashlib.sha256(batch.encode()).digest(), "big")
    letters = []
    while number:
        number, digit = divmod(number, len(_LETTERS))
        letters.append(_LETTERS[digit])
    return "".join(letters)
