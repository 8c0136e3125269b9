"""Set an item's floor and the level an order brings it back to."""

from pantry.commands import base, naming
from pantry.commands.decisions import SetPar
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.refusals import UnreadableInput, declare

PAR_UPSIDE_DOWN = declare("par_upside_down", "The level to order up to lies below the floor.")


def set_par(books: Books, given: Given[SetPar]) -> None:
    """Write both levels; left out, an item has none.

    Raises:
        NotThere: `item_unknown`.
        Moved: `base_moved`.
        UnreadableInput: a quantity cannot be read, `par_upside_down`.
    """
    body = given.body
    row = naming.item(books, body.item)
    base.check(books, given, row, row.name)
    floor, level = (
        None if written is None else naming.quantity(books, written, row, field, least=0)
        for written, field in ((body.floor, "body.floor"), (body.order_up_to, "body.order_up_to"))
    )
    if floor is not None and level is not None and level < floor:
        raise UnreadableInput(
            PAR_UPSIDE_DOWN,
            f"{row.name} would be ordered up to less than its floor.",
            "Order up to the floor or above.",
            value=str(body.order_up_to),
            field="body.order_up_to",
        )
    base.next_version(books, row, "item", floor=floor, order_up_to=level)
    books.settings_changed()
