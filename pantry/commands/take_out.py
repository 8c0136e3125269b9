"""Take part of a batch out for a service or a preparation: it settles that promise (LG2)."""

from pantry.commands import naming
from pantry.commands.facts import TakeOut
from pantry.commands.given import Given
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.promises import held_by, settle
from pantry.records.rows import change, every
from pantry.records.tables import BatchRow, NeedRow
from pantry.refusals import UnreadableInput, declare

PURPOSE_MISSING = declare("purpose_missing", "What it was taken out for is not said.")


def take_out(books: Books, given: Given[TakeOut]) -> None:
    """From the shelf to the kitchen; what the service was promised is less by so much.

    Raises:
        NotThere: an unknown batch, area, service or preparation.
        UnreadableInput: the quantity cannot be read, `purpose_missing`.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    area = naming.area(books, body.area).id if body.area else None
    source = place_of(books, batch, area)
    if body.service is not None:
        service = naming.service(books, body.service).id
        _settle(books, service, batch, quantity)
        target = accounts.kitchen(service)
    elif body.preparation is not None:
        recipe = naming.recipe(books, body.preparation, "body.preparation")
        target = accounts.kitchen(recipe.makes or recipe.id)
    else:
        raise UnreadableInput(
            PURPOSE_MISSING,
            f"Batch {batch.label} was taken out, but not for what.",
            "Name the service or the preparation.",
            field="body.service",
        )
    take(books, batch, Movement(batch.id, quantity, source, target, given.at))


def _settle(books: Books, service: str, batch: BatchRow, quantity: int) -> None:
    """Count what was taken against the service's needs, those that hold this batch first."""
    needs = every(
        books.connection, NeedRow, house=books.id, service=service, item=batch.item, via=""
    )
    held = held_by(books, [need.id for need in needs])
    kept = {key: row.quantity for key, row in held.items()}
    needs.sort(key=lambda need: ((need.id, batch.id) not in held, need.id))
    rest = quantity
    for need in needs:
        part = min(rest, max(0, need.quantity - need.settled))
        if part:
            where = {"house": books.id, "id": need.id}
            change(books.connection, NeedRow, where, settled=need.settled + part)
            key = (need.id, batch.id)
            kept[key] = max(0, kept.get(key, 0) - part)
            rest -= part
    settle(books, held, {key: left for key, left in kept.items() if key in held}, {})
