"""What leaves the house's stock without a menu: a tray, a late supper, another house (LG6)."""

from pantry.commands import naming
from pantry.commands.facts import SendOut, SetLevel, Use
from pantry.commands.given import Given
from pantry.commands.shelf import ANYWHERE, draw
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import change
from pantry.records.slugs import slug
from pantry.records.tables import ItemRow


def use(books: Books, given: Given[Use]) -> None:
    """Part of a batch was eaten or drunk outside any menu."""
    target = accounts.served(accounts.OFF_MENU)
    _leave(books, given, given.body.batch, target)


def send_out(books: Books, given: Given[SendOut]) -> None:
    """Part of a batch left for another house; nobody's available stock until it is received."""
    _leave(books, given, given.body.batch, accounts.transit(slug(given.body.house)))


def set_level(books: Books, given: Given[SetLevel]) -> None:
    """What nobody counts is plenty, low or out."""
    set_level_of(books, naming.item(books, given.body.item).id, given.body.level)


def set_level_of(books: Books, item: str, level: str) -> None:
    """Write how much there is of an item that nobody counts."""
    change(books.connection, ItemRow, {"house": books.id, "id": item}, level=level)
    books.note("item", item)
    books.settings_changed()


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
