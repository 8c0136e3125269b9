"""What a delivered line was packed in, and what it cost (MS1)."""

from datetime import datetime
from fractions import Fraction

from pantry.commands import base
from pantry.commands.facts import Receive
from pantry.commands.order_lines import Ordered
from pantry.commands.parts import MoneyPart
from pantry.records.books import Books
from pantry.records.rows import add, every
from pantry.records.slugs import slug
from pantry.records.tables import ItemRow, PackPriceRow, PackRow
from pantry.refusals import UnreadableInput, declare

CURRENCY_FOREIGN = declare("currency_foreign", "The cost is not in the house's currency.")


def pack_of(
    books: Books, body: Receive, supplier: str | None, item: ItemRow, ordered: Ordered | None
) -> PackRow | None:
    """The pack named, else the one ordered, else the smallest that supplier, or anybody, sells."""
    sold = every(books.connection, PackRow, house=books.id, item=item.id)
    if body.pack is not None:
        wanted = slug(body.pack)
        named = [row for row in sold if body.pack == row.id or wanted == slug(row.name)]
        if named:
            return min(named, key=lambda row: (row.supplier != supplier, row.id))
    if ordered and ordered.pack:
        return ordered.pack
    theirs = [row for row in sold if row.supplier == supplier]
    return min(theirs or sold, key=lambda row: (row.quantity, row.id), default=None)


def cost_of(books: Books, body: Receive, quantity: int, pack: PackRow | None) -> int:
    """What was paid: as given, else the pack's price for what came, in minor units, half-even.

    Raises:
        UnreadableInput: `currency_foreign`.
    """
    if body.cost is not None:
        return in_house_currency(books, body.cost, "body.cost") or 0
    if pack is None or not pack.quantity:
        return 0
    return round(Fraction(quantity * pack.price, pack.quantity))


def in_house_currency(books: Books, sum_: MoneyPart | None, field: str) -> int | None:
    """A sum in minor units of the house's currency; None: nobody said it.

    Raises:
        UnreadableInput: `currency_foreign`.
    """
    if sum_ is None:
        return None
    if sum_.currency != books.house.currency:
        raise UnreadableInput(
            CURRENCY_FOREIGN,
            f"The cost is in {sum_.currency}, the house reckons in {books.house.currency}.",
            f"Give what it cost in {books.house.currency}, or leave it out.",
            value=sum_.currency,
            field=f"{field}.currency",
        )
    return sum_.minor


def changed(books: Books, pack: PackRow, price: int, at: datetime) -> None:
    """A pack costs another price from now on, in minor units; what it cost before is kept."""
    base.next_version(books, pack, "pack", price=price)
    keep_before(books, pack, price, at)


def keep_before(books: Books, pack: PackRow, price: int, at: datetime) -> None:
    """Keep what a pack cost before this command made it cost something else."""
    row = PackPriceRow(
        house=books.id,
        command=books.command,
        pack=pack.id,
        before=pack.price,
        price=price,
        at=at,
    )
    add(books.connection, row)
