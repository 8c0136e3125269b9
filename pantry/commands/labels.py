"""A short code for every batch, readable by eye and by phone, and whether a label is free."""

import hashlib

from pantry.records import ledger
from pantry.records.books import Books
from pantry.records.read.labels import carrier
from pantry.records.rows import change, find, remove
from pantry.records.tables import BatchRow, ItemRow, NumberedLabelRow
from pantry.refusals import NotNow, Refusal, declare
from pantry.rules.label_numbers import number_in

LABEL_TAKEN = declare("label_taken", "Another batch carries that label.")
BATCH_TAKEN = declare("batch_taken", "A batch with that id stands on the books already.")

_LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Neither 0 and O nor 1, I and L: a wet label is read by eye."""
_SHORTEST = 5


def label_for(books: Books, batch: str, wanted: str | None) -> str:
    """The label asked for, or a new one made from the batch's id.

    Raises:
        NotNow: `label_taken`, `batch_taken`.
        UnreadableInput: `label_misread`.
    """
    if find(books.connection, BatchRow, house=books.id, id=batch) is not None:
        raise NotNow(
            BATCH_TAKEN,
            f"A batch with the id {batch} stands on the books already.",
            "Give a new batch an id of its own.",
            value=batch,
            field="body.batch",
        )
    if wanted is None:
        return _made_label(books, batch)
    set_free(books, wanted)
    return wanted


def set_free(books: Books, label: str) -> None:
    """See to it that a label is on no batch: a numbered one comes off what has been used up.

    A jar that is empty is washed and takes its number to what is put into it next.

    Raises:
        NotNow: `label_taken`.
        UnreadableInput: `label_misread`.
    """
    try:
        is_numbered = number_in(label) is not None
    except Refusal as refusal:
        raise refusal.at("body.label") from refusal
    holder = carrier(books.connection, books.id, label)
    if holder is None:
        return
    if not is_numbered or any(ledger.standing(books, holder.id).values()):
        raise _taken(books, label, holder)
    remove(books.connection, NumberedLabelRow, house=books.id, label=label)
    if holder.label == label:
        where = {"house": books.id, "id": holder.id}
        change(books.connection, BatchRow, where, label=_made_label(books, holder.id))
    books.note("batch", holder.id)


def _taken(books: Books, label: str, holder: BatchRow) -> NotNow:
    item = find(books.connection, ItemRow, house=books.id, id=holder.item)
    name = item.name if item else holder.item
    return NotNow(
        LABEL_TAKEN,
        f"The label {label} is on another batch, {name}, of which there is some left.",
        "Take a fresh label, or record first what became of the rest.",
        value=label,
        field="body.label",
    )


def _made_label(books: Books, batch: str) -> str:
    letters = _spelled(batch)
    length = _SHORTEST
    while carrier(books.connection, books.id, letters[:length]) is not None:
        length += 1
    return letters[:length]


def _spelled(batch: str) -> str:
    number = int.from_bytes(hashlib.sha256(batch.encode()).digest(), "big")
    letters = []
    while number:
        number, digit = divmod(number, len(_LETTERS))
        letters.append(_LETTERS[digit])
    return "".join(letters)
