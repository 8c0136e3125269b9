"""What can be bought of some items: their packs, suppliers and deliveries, as of now."""

from collections.abc import Iterable
from datetime import datetime

from pantry.records.read import supply
from pantry.records.read.opened import Opened
from pantry.rules.market import Market


def market(house: Opened, items: Iterable[str], last: datetime) -> Market:
    """The market for these items up to an instant."""
    packs = supply.packs(house.connection, house.id, sorted(items))
    sellers = {pack.supplier for pack in packs}
    everybody = supply.suppliers(house.connection, house.id) if sellers else {}
    return Market(
        [everybody[name] for name in sorted(sellers)],
        packs,
        margin=house.receiving_margin,
        zone=house.zone,
        now=house.now,
        last=max(last, house.now),
    )
