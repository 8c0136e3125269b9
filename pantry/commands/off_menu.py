"""What leaves the house's stock without a menu: a tray, a late supper, another house (LG6)."""

from pantry.commands import naming
from pantry.commands.assumed import given_of
from pantry.commands.facts import SendOut, SetLevel, Use
from pantry.commands.given import Given
from pantry.commands.levels import set_level_of
from pantry.commands.lives import dies_first
from pantry.commands.making import Used
from pantry.commands.shelf import ANYWHERE, draw
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import BatchRow, ItemRow
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.rules.fefo import Need

USE_OF_NOTHING = declare("use_of_nothing", "What was used names neither batch nor item.")
ITEM_NEVER_THERE = declare("item_never_there", "The house has never had a batch of the item.")


def use(books: Books, given: Given[Use]) -> None:
    """Part of a batch was eaten or drunk outside any menu; of an item, what dies first.

    Raises:
        NotThere: an unknown batch or item, `item_never_there`.
        UnreadableInput: the quantity cannot be read, `use_of_nothing`.
    """
    body = given.body
    target = accounts.served(accounts.OFF_MENU)
    if body.batch is not None:
        _leave(books, given, body.batch, target)
        return
    if body.item is None:
        raise UnreadableInput(
            USE_OF_NOTHING,
            "What was used names neither a batch nor an item.",
            "Name the batch or the item.",
            field="body.batch",
        )
    item = naming.item(books, body.item)
    for used in _dying_first(books, given, item):
        gone = Movement(
            used.batch.id,
            used.quantity,
            ANYWHERE,
            target,
            given.at,
            reason=body.reason,
            link=used.link,
        )
        draw(books, used.batch, gone)


def _dying_first(books: Books, given: Given[Use], item: ItemRow) -> list[Used]:
    """So much of an item of what dies first; what the books have not is of the same all the same.

    Of what nobody counts there is nothing to take.
    """
    quantity = naming.quantity(books, given.body.quantity, item)
    if not quantity:
        return []
    need = Need(given.id, "", "", item.id, quantity, wanted_by=given.at, until=given.at)
    found = given_of(books, [need], given.at)
    rest = quantity - sum(used.quantity for used in found)
    if not rest:
        return found
    batch = found[-1].batch if found else _likeliest(books, item)
    return [*found, Used(batch, rest, "assumed")]


def _likeliest(books: Books, item: ItemRow) -> BatchRow:
    rows = every(books.connection, BatchRow, house=books.id, item=item.id)
    if not rows:
        raise NotThere(
            ITEM_NEVER_THERE,
            f"The house has never had a batch of {item.name}.",
            "Record how it came into the house first.",
            value=item.id,
            field="body.item",
        )
    return max(rows, key=dies_first)


def send_out(books: Books, given: Given[SendOut]) -> None:
    """Part of a batch left for another house; nobody's available stock until it is received."""
    _leave(books, given, given.body.batch, accounts.transit(slug(given.body.house)))


def set_level(books: Books, given: Given[SetLevel]) -> None:
    """What nobody counts is plenty, low or out."""
    item = naming.item(books, given.body.item)
    set_level_of(books, item.id, given.body.level, given.at)


def _leave(books: Books, given: Given[Use] | Given[SendOut], name: str, target: str) -> None:
    batch = naming.batch(books, name)
    written = given.body.quantity
    wanted = Movement(
        batch=batch.id,
        quantity=naming.quantity(books, written, naming.item(books, batch.item)),
        source=ANYWHERE,
        target=target,
        at=given.at,
        pieces=naming.pieces(written),
        reason=given.body.reason if isinstance(given.body, Use) else None,
    )
    draw(books, batch, wanted)
