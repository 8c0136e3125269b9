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

    def __init__(self, house: Opened, rows: Iterable[NeedRow]) -> None:
        self._house = house
        self._written = {row.id: row for row in rows}
        self._markets: dict[str, tuple[datetime, Market]] = {}

    def last_order_by(self, need: Need) -> datetime | None:
        """The last possible order-by; None: it cannot be bought at all, or is made here."""
        row = self._written.get(need.id)
        if row and (row.wanted_by, row.until) == (need.wanted_by, need.until):
            return row.last_order_by
        return self._market(need).last_order_by(need.item, need.wanted_by, need.until)

    def _market(self, need: Need) -> Market:
        last, known = self._markets.get(need.item, (None, None))
        if last is None or known is None or last < need.until:
            last = need.until + _ABOUT_A_DAY
            known = market(self._house, [need.item], last)
            self._markets[need.item] = (last, known)
        return known
