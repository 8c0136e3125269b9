"""What a delivery left short, whom it leaves without, and what can replace it by when (PL5).

Worked out when it is read, as though what was refused would not come, so that it stays true.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from pantry.records.rows import every
from pantry.records.tables import CreditRow, OrderLineRow, ReceiptRow
from pantry.reports.coverage_rows import Projected
from pantry.reports.lacking import lacking
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.fefo import Source


@dataclass(frozen=True)
class CameShort:
    """The deliveries of a house that came short; what is read for one serves the others."""

    view: View

    def lines(self, order: str) -> list[Row]:
        """A row for each item of an order that is short, with the dishes that lack it."""
        return [
            {
                "item": self.view.item_name(item),
                "missing": amount(missing, self.view.items[item]),
                "dishes": lacking(self._projected, item),
            }
            for item, missing in sorted(self._missing(order).items())
        ]

    def _missing(self, order: str) -> Mapping[str, int]:
        missing: dict[str, int] = {}
        for line in every(self.view.connection, OrderLineRow, house=self.view.id):
            if line.purchase_order == order and (short := self._short(line)) is not None:
                missing[line.item] = missing.get(line.item, 0) + short
        return missing

    def _short(self, line: OrderLineRow) -> int | None:
        """What of a line does not come, in thousandths; None where nothing was told of it."""
        rest = max(0, line.quantity - line.received)
        if line.quantity and not rest:
            return None
        key = f"{line.purchase_order}|{line.pack}"
        if key in self._credited:
            return rest
        return min(rest, self._refused[key]) if key in self._refused else None

    @cached_property
    def _credited(self) -> frozenset[str]:
        rows = every(self.view.connection, CreditRow, house=self.view.id)
        return frozenset(row.id for row in rows)

    @cached_property
    def _refused(self) -> Mapping[str, int]:
        """What was refused at the door of each line that is still open."""
        found: dict[str, int] = {}
        for row in every(self.view.connection, ReceiptRow, house=self.view.id, verdict="refuse"):
            key = f"{row.purchase_order}|{row.instead or row.pack}"
            found[key] = found.get(key, 0) + row.quantity
        return found

    @cached_property
    def _projected(self) -> Projected:
        return Projected(
            _Without(self.view.connection, self.view.row, self.view.now, self._refused)
        )


@dataclass(frozen=True)
class _Without(View):
    """The house as though some of what is on its way would not come, by `ORDER|PACK`."""

    lacking: Mapping[str, int]

    @cached_property
    def sources(self) -> Mapping[str, Sequence[Source]]:
        """Everything there is and is to come, less what is lacking."""
        whole = View(self.connection, self.row, self.now).sources
        return {item: [self._rest(each) for each in of_item] for item, of_item in whole.items()}

    def _rest(self, source: Source) -> Source:
        left = source.quantity - self.lacking.get(source.id, 0)
        return replace(source, quantity=max(0, left))
