"""Record food that was lost and that no batch in the books is known of."""

from pantry.commands import naming
from pantry.commands.facts import WasteWithoutBatch
from pantry.commands.given import Given
from pantry.commands.parts import Written
from pantry.records.books import Books
from pantry.records.rows import add
from pantry.records.tables import WasteWithoutBatchRow
from pantry.refusals import Refusal, UnreadableInput, declare
from pantry.rules.amounts import UnitSystem
from pantry.rules.measure import Quantity, any_quantity
from pantry.rules.stock import BaseUnit

WHAT_IS_LOST = declare("what_is_lost", "It is not said what was lost, or more than once.")


def waste_without_batch(books: Books, given: Given[WasteWithoutBatch]) -> None:
    """Write down what was lost; nothing moves, since nobody knows of which batch it was.

    What was served has left the stock already, and what stood without a label a count will miss.

    Raises:
        NotThere: an unknown item or dish.
        UnreadableInput: `what_is_lost`; the quantity cannot be read.
    """
    body = given.body
    _refuse_unless_one(body)
    item = naming.item(books, body.item) if body.item else None
    dish = naming.recipe(books, body.dish, "body.dish") if body.dish else None
    if item is not None and item.measured:
        unit = BaseUnit(item.base_unit)
        lost = Quantity(naming.quantity(books, body.quantity, item), unit)
    else:
        lost = _of_anything(books, body.quantity)
    row = WasteWithoutBatchRow(
        house=books.id,
        command=given.id,
        what=item.name if item else dish.name if dish else (body.words or "").strip(),
        item=item.id if item else None,
        dish=dish.id if dish else None,
        quantity=lost.thousandths,
        unit=lost.unit.value,
        reason=body.reason,
        destination=body.destination,
        at=given.at,
        person=given.person,
    )
    add(books.connection, row)
    books.note("waste", given.id)


def _refuse_unless_one(body: WasteWithoutBatch) -> None:
    said = [name for name in (body.item, body.dish, body.words) if name and name.strip()]
    if len(said) != 1:
        raise UnreadableInput(
            WHAT_IS_LOST,
            f"{len(said)} of item, dish and words say what was lost.",
            "Name the item, or the dish, or say in words what it was.",
            value="; ".join(said),
            field="body.words",
        )


def _of_anything(books: Books, written: Written) -> Quantity:
    """A quantity in grams, millilitres or pieces, whichever it was written in."""
    system, mark = UnitSystem(books.house.unit_system), books.house.decimal_mark
    said = written if isinstance(written, str) else {"value": written.value, "unit": written.unit}
    try:
        lost = any_quantity(said, system, decimal_mark=mark)
    except Refusal as refusal:
        raise refusal.at("body.quantity") from refusal
    if lost.thousandths < 1:
        raise UnreadableInput(
            naming.QUANTITY_NOTHING,
            "The quantity comes to nothing.",
            "Give a quantity above nothing.",
            value=str(said),
            field="body.quantity",
        )
    return lost
