"""Record food that was lost, with its reason and where it went."""

from pantry.commands import failed_places, naming
from pantry.commands.facts import Waste
from pantry.commands.given import Given
from pantry.commands.shelf import draw, stood
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement


def waste(books: Books, given: Given[Waste]) -> None:
    """From wherever it stands, on hold or taken out included, to waste.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    wanted = Movement(
        batch=batch.id,
        quantity=naming.quantity(books, body.quantity, naming.item(books, batch.item)),
        source=stood(naming.area(books, body.area).id if body.area else None),
        target=accounts.WASTE,
        at=given.at,
        pieces=naming.pieces(body.quantity),
        reason=body.reason,
        destination=body.destination,
    )
    draw(books, batch, wanted)
    failed_places.close_if_decided(books, batch.id, given.person)
