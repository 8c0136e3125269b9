"""What leaves the house's stock without a menu: a tray, a late supper, another house (LG6)."""

from pantry.commands import naming
from pantry.commands.facts import SendOut, SetLevel, Use
from pantry.commands.given import Given
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import change
from pantry.records.slugs import slug
from pantry.records.tables import ItemRow

OFF_MENU = "off-menu"


def use(books: Books, given: Given[Use]) -> None:
    """Part of a batch was eaten or drunk outside any menu."""
    target = accounts.served(OFF_MENU)
    _leave(books, given, given.body.batch, target)


def send_out(books: Books, given: Given[SendOut]) -> None:
    """Part of a batch left for another house; nobody's available stock until it is received."""
    _leave(books, given, given.body.batch, accounts.transit(slug(given.body.house)))


def set_level(books: Books, given: Given[SetLevel]) -> None:
    """What nobody counts is plenty, low or out."""
    item = naming.item(books, given.body.item)
    where = {"house": books.id, "id": item.id}
    change(books.connection, ItemRow, where, level=given.body.level)
    books.note("item", item.id)


def _leave(books: Books, given: Given[Use] | Given[SendOut], name: str, target: str) -> None:
    batch = naming.batch(books, name)
    quantity = naming.quantity(books, given.body.quantity, naming.item(books, batch.item))
    reason = given.body.reason if isinstance(given.body, Use) else None
    source = place_of(books, batch)
    take(books, batch, Movement(batch.id, quantity, source, target, given.at, reason=reason))
