"""Hold, release, recall, set aside: what keeps stock from use, and what frees it again."""

from datetime import datetime

from pantry.commands import naming
from pantry.commands.decisions import Hold, Recall, Release, SetAside
from pantry.commands.given import Given
from pantry.commands.shelf import take
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import change, every
from pantry.records.tables import BatchRow
from pantry.refusals import NotNow, NotThere, declare

NOTHING_THERE = declare("nothing_there", "Nothing of the batch stands there.")
RECALLED = declare("recalled", "The batch is recalled and is not released.")
LOT_UNKNOWN = declare("lot_unknown", "No batch of that lot is known.")


def hold(books: Books, given: Given[Hold]) -> None:
    """All that stands of a batch in storage areas waits for a person.

    Raises:
        NotThere: `batch_unknown`.
        NotNow: `nothing_there`.
    """
    batch = naming.batch(books, given.body.batch)
    if not _put(books, given.at, batch, "area", given.body.reason):
        raise _nothing(batch, "in a storage area")


def release(books: Books, given: Given[Release]) -> None:
    """What is on hold of a batch may be used after all, as long as it is in date.

    Raises:
        NotThere: `batch_unknown`.
        NotNow: `nothing_there`, `recalled`.
    """
    batch = naming.batch(books, given.body.batch)
    if batch.recalled:
        raise NotNow(
            RECALLED,
            f"Batch {batch.label} is recalled.",
            "Send it back or throw it away.",
            value=batch.label,
            field="body.batch",
        )
    if not _put(books, given.at, batch, "hold", given.body.reason):
        raise _nothing(batch, "on hold")


def recall(books: Books, given: Given[Recall]) -> None:
    """Every batch of the lot goes on hold, whatever it was promised to, and is not used again.

    Raises:
        NotThere: `lot_unknown`.
    """
    body = given.body
    batches = every(books.connection, BatchRow, house=books.id, lot=body.lot)
    if body.item is not None:
        item = naming.item(books, body.item).id
        batches = [batch for batch in batches if batch.item == item]
    if not batches:
        raise NotThere(
            LOT_UNKNOWN,
            f"No batch of lot {body.lot!r} is known.",
            "Read the lot off the notice again; look also for decanted goods without a lot.",
            value=body.lot,
            field="body.lot",
        )
    for batch in batches:
        where = {"house": books.id, "id": batch.id}
        change(books.connection, BatchRow, where, recalled=True)
        books.note("batch", batch.id)
        books.touched.add(batch.item)
        _put(books, given.at, batch, "area", f"recalled: {body.reason}")


def set_aside(books: Books, given: Given[SetAside]) -> None:
    """So much of a batch is kept for the day everything fails, or is free again.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    shelf = accounts.area(naming.area(books, body.area).id)
    source, target = (shelf, accounts.EMERGENCY) if body.kept else (accounts.EMERGENCY, shelf)
    take(books, batch, Movement(batch.id, quantity, source, target, given.at))


def _put(books: Books, at: datetime, batch: BatchRow, kind: str, reason: str) -> bool:
    """Move what stands of a batch on accounts of a kind to the other kind, place by place."""
    other = accounts.hold if kind == "area" else accounts.area
    stands = {
        account: quantity
        for account, quantity in ledger.standing(books, batch.id).items()
        if accounts.kind(account) == kind and quantity > 0
    }
    for account, quantity in stands.items():
        target = other(accounts.place(account))
        take(books, batch, Movement(batch.id, quantity, account, target, at, reason=reason))
    return bool(stands)


def _nothing(batch: BatchRow, where: str) -> NotNow:
    return NotNow(
        NOTHING_THERE,
        f"Nothing of batch {batch.label} stands {where}.",
        "Look where it stands now.",
        value=batch.label,
        field="body.batch",
    )
