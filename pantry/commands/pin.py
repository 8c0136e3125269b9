"""The chef says which batch a service gets: that pick stays, whatever else is planned (AL2)."""

from datetime import datetime

from pantry.commands import base, naming
from pantry.commands.decisions import Pin
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.promises import settle
from pantry.records.read import stock
from pantry.records.read.kitchen_part import Held, held_by
from pantry.records.rows import change, every
from pantry.records.tables import BatchRow, NeedRow, PromisedRow
from pantry.refusals import NotNow, NotThere, declare
from pantry.rules.house_time import write_instant

NOT_NEEDED = declare("not_needed", "The service wants nothing of that batch's item.")
BATCH_UNFIT = declare("batch_unfit", "The batch is not there, or may not be used by then.")


def pin(books: Books, given: Given[Pin]) -> None:
    """Give a service so much of a batch, taking it from whomever it was promised to.

    Nothing of it unpins the batch. What the others lose is planned anew.

    Raises:
        NotThere: an unknown service or batch, `not_needed`.
        NotNow: `batch_unfit`.
        Moved: `base_moved`.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    row = naming.service(books, body.service)
    base.check(books, given, row, f"The service {row.id}")
    service = row.id
    batch = naming.batch(books, body.batch)
    item = naming.item(books, batch.item)
    quantity = naming.quantity(books, body.quantity, item, least=0)
    needs = every(books.connection, NeedRow, house=books.id, service=service, item=item.id)
    if not needs:
        raise NotThere(
            NOT_NEEDED,
            f"{service} wants nothing of {item.name}.",
            "Choose a batch of one of its items.",
            value=batch.label,
            field="body.batch",
        )
    if quantity:
        _refuse_unfit(books, batch, max(need.until for need in needs))
    books.touched.add(item.id)
    _give(books, service, needs, batch.id, quantity)


def _refuse_unfit(books: Books, batch: BatchRow, until: datetime) -> None:
    """A pin never makes fit what may not be used: on hold, recalled, dead by then, or not there."""
    stands = stock.standing(books.connection, books.id, [batch.id]).get(batch.id)
    if batch.recalled or stands is None or stands.usable <= 0:
        why = "is recalled" if batch.recalled else "does not stand in a storage area"
    elif batch.usable_until is not None and batch.usable_until < until:
        why = f"can be used until {write_instant(batch.usable_until)}"
    else:
        return
    raise NotNow(
        BATCH_UNFIT,
        f"Batch {batch.label} {why}.",
        "Choose another batch.",
        value=batch.label,
        field="body.batch",
    )


def _give(books: Books, service: str, needs: list[NeedRow], batch: str, quantity: int) -> None:
    """Promise it to these needs; what others hold of it without a pin of their own is let go."""
    rows = every(books.connection, PromisedRow, house=books.id, batch=batch)
    held = {(row.need, batch): row for row in rows if row.service == service or not row.pinned}
    pinned: dict[Held, int] = {}
    room: dict[str, int] = {}
    for need in needs:
        open_still = max(0, need.quantity - need.settled)
        part = min(quantity, open_still)
        quantity -= part
        room[need.id] = open_still - part
        if part:
            pinned[(need.id, batch)] = part
    wanted = dict(pinned)
    for key, row in sorted(held_by(books, sorted(room)).items()):
        if key[1] != batch:
            held[key], wanted[key] = row, min(row.quantity, room[key[0]])
            room[key[0]] -= wanted[key]
    settle(books, held, wanted, {need.id: need.service for need in needs})
    for need_id, _ in pinned:
        where = {"house": books.id, "need": need_id, "batch": batch}
        change(books.connection, PromisedRow, where, pinned=True)
