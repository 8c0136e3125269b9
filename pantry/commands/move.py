"""Put part of a batch into another storage area; what is on hold stays on hold."""

from dataclasses import replace

from pantry.commands import naming
from pantry.commands.child_batch import Part
from pantry.commands.facts import Move
from pantry.commands.given import Given
from pantry.commands.shelf import parts_of, stood, take
from pantry.commands.treatments import freeze_part, thaw_part
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.tables import AreaRow, BatchRow
from pantry.rules.stock import AreaKind, State


def move(books: Books, given: Given[Move]) -> None:
    """From where it stands, or from the area named, to another.

    What is put into a freezer is frozen and what leaves one thaws, whether or not anybody says so
    (SL3): it becomes a child batch under the command's own id.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    area = naming.area(books, body.area)
    came_from = body.from_area and naming.area(books, body.from_area, "body.from_area").id
    wanted = Movement(
        batch=batch.id,
        quantity=quantity,
        source=stood(came_from),
        target=accounts.area(area.id),
        at=given.at,
        pieces=naming.pieces(body.quantity),
    )
    if (batch.state == State.FROZEN) != (area.kind == AreaKind.FROZEN):
        _freeze_or_thaw(books, batch, wanted, given.id)
        return
    for part in parts_of(books, batch, wanted):
        target = _on_arrival(part, area)
        if target != part.source:
            take(books, batch, replace(part, target=target))


def _freeze_or_thaw(books: Books, batch: BatchRow, wanted: Movement, child: str) -> None:
    part = Part(
        parent=batch,
        quantity=wanted.quantity,
        at=wanted.at,
        child=child,
        pieces=wanted.pieces,
        source=wanted.source,
        target=wanted.target,
    )
    if batch.state == State.FROZEN:
        thaw_part(books, part)
    else:
        freeze_part(books, part)


def _on_arrival(part: Movement, area: AreaRow) -> str:
    """What is on hold stays on hold, and the emergency meal stays the emergency meal."""
    match accounts.kind(part.source):
        case "hold":
            return accounts.hold(area.id)
        case accounts.EMERGENCY:
            return accounts.emergency(area.id)
        case _:
            return part.target
