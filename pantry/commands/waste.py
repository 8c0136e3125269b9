"""Record food that was lost, with its reason and where it went."""

from pantry.commands import naming
from pantry.commands.facts import Waste
from pantry.commands.given import Given
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement


def waste(books: Books, given: Given[Waste]) -> None:
    """From the shelf, or from where it is on hold, to waste.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    area = naming.area(books, body.area).id if body.area else None
    movement = Movement(
        batch=batch.id,
        quantity=quantity,
        source=place_of(books, batch, area),
        target=accounts.WASTE,
        at=given.at,
        reason=body.reason,
        destination=body.destination,
    )
    take(books, batch, movement)
