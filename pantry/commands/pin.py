"""The chef says which batch a service gets: that pick stays, whatever else is planned (AL2)."""

from pantry.commands import naming
from pantry.commands.decisions import Pin
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.promises import held_by, settle
from pantry.records.rows import change, every
from pantry.records.tables import NeedRow, PromisedRow
from pantry.refusals import NotThere, declare

NOT_NEEDED = declare("not_needed", "The service wants nothing of that batch's item.")


def pin(books: Books, given: Given[Pin]) -> None:
    """Give a service so much of a batch, taking it from whomever it was promised to.

    Nothing of it unpins the batch. What the others lose is planned anew.

    Raises:
        NotThere: an unknown service or batch, `not_needed`.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    service = naming.service(books, body.service).id
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
    books.touched.add(item.id)
    _free_for_others(books, service, batch.id)
    _give(books, needs, batch.id, quantity)


def _free_for_others(books: Books, service: str, batch: str) -> None:
    """Let go of what other services hold of the batch without a pin of their own."""
    rows = every(books.connection, PromisedRow, house=books.id, batch=batch)
    held = {(row.need, row.batch): row for row in rows if row.service == service or not row.pinned}
    settle(books, held, {}, {})


def _give(books: Books, needs: list[NeedRow], batch: str, quantity: int) -> None:
    service_of = {need.id: need.service for need in needs}
    wanted = {}
    for need in needs:
        part = min(quantity, max(0, need.quantity - need.settled))
        if part:
            wanted[(need.id, batch)] = part
            quantity -= part
    held = held_by(books, sorted(service_of))
    others = {key: row for key, row in held.items() if (key[0], batch) in wanted}
    settle(books, others, wanted, service_of)
    for identity, _ in wanted:
        where = {"house": books.id, "need": identity, "batch": batch}
        change(books.connection, PromisedRow, where, pinned=True)
