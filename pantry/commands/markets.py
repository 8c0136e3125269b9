"""What can be bought of some items: their packs, suppliers and deliveries, as of now."""

from collections.abc import Iterable
from datetime import datetime

from pantry.records.books import Books
from pantry.records.read import supply
from pantry.records.read.house import settings
from pantry.rules.market import Market


def market(books: Books, items: Iterable[str], last: datetime) -> Market:
    """The market for these items up to an instant."""
    packs = supply.packs(books.connection, books.id, sorted(items))
    sellers = {pack.supplier for pack in packs}
    everybody = supply.suppliers(books.connection, books.id) if sellers else {}
    return Market(
        [everybody[name] for name in sorted(sellers)],
        packs,
        margin=settings(books.house).receiving_margin,
        zone=books.zone,
        now=books.now,
        last=max(last, books.now),
    )
