"""Put part of a batch into another storage area; what is on hold stays on hold."""

from pantry.commands import naming
from pantry.commands.facts import Move
from pantry.commands.given import Given
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement


def move(books: Books, given: Given[Move]) -> None:
    """From where it stands, or from the area named, to another.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    target = naming.area(books, body.area).id
    from_area = naming.area(books, body.from_area, "body.from_area").id if body.from_area else None
    source = place_of(books, batch, from_area)
    held = accounts.kind(source) == "hold"
    account = accounts.hold(target) if held else accounts.area(target)
    if account != source:
        take(books, batch, Movement(batch.id, quantity, source, account, given.at))
