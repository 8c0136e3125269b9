"""The last possible order-by of every need that is planned (PL5)."""

from collections.abc import Iterable
from datetime import datetime, timedelta

from pantry.records.read.markets import market
from pantry.records.read.opened import Opened
from pantry.records.tables import NeedRow
from pantry.rules.fefo import Need
from pantry.rules.market import Market

_ABOUT_A_DAY = timedelta(days=1)


class Deadlines:
    """The deadlines as they were written with the needs; of what is new, as the calendars say.

    They change only with a supplier's calendar or packs, which writes them anew.
    """

    def __init__(self, rows: Iterable[NeedRow]) -> None:
        self._written: dict[str, tuple[datetime, datetime, datetime | None]] = {}
        self._items: set[str] = set()
        for row in rows:
            self._written[row.id] = (row.wanted_by, row.until, row.last_order_by)
            self._items.add(row.item)
        self._market: Market | None = None
        self._last: datetime | None = None

    def last_order_by(self, house: Opened, need: Need) -> datetime | None:
        """The last possible order-by; None: it cannot be bought at all, or is made here."""
        written = self._written.get(need.id)
        if written and written[:2] == (need.wanted_by, need.until):
            return written[2]
        return self._sold(house, need).last_order_by(need.item, need.wanted_by, need.until)

    def _sold(self, house: Opened, need: Need) -> Market:
        """The market far enough ahead, read for all that may yet be asked at once."""
        known, last = self._market, self._last
        if known is None or last is None or last < need.until or need.item not in self._items:
            self._items.add(need.item)
            self._last = max(last or need.until, need.until + _ABOUT_A_DAY)
            self._market = known = market(house, self._items, self._last)
        return known
