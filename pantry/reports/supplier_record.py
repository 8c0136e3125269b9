"""How suppliers kept to what was ordered: in time, whole, cold, in date, at the price."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import cached_property
from operator import itemgetter

from pantry.records.rows import every, grouped
from pantry.records.tables import (
    AnsweredLineRow,
    ClosureRow,
    DriverLeftRow,
    OrderLineRow,
    OrderRow,
    PackPriceRow,
    PackRow,
    ReceiptRow,
    SupplierAnswerRow,
    SupplierRow,
)
from pantry.reports.credits_owed import credits_owed
from pantry.reports.report import Row, instant, money
from pantry.reports.view import View
from pantry.rules.house_time import Span, after, local_date, start_of_day, write_span

DAYS = 84
"""So many days back, where nobody says how many."""

PATIENCE = timedelta(minutes=30)
"""So long after its hour a delivery still is in time (common practice, no source)."""


def supplier_record(view: View, days: int = DAYS) -> list[Row]:
    """A row for each supplier, by name, over so many days back from now.

    A delivery counts once something was said of it at the back door. It was in time where the first
    of it was there half an hour after its hour, or by the house's receiving margin, and whole where
    every line came to the full. What is warm was measured so; what is short-dated lives less long
    than the supplier's pack promises, the day of arrival being day 1. `incidents` names each.
    """
    found = _Found(view, view.now - timedelta(days=days))
    rows = every(view.connection, SupplierRow, house=view.id)
    return [found.row(row) for row in sorted(rows, key=lambda row: (row.name, row.id))]


@dataclass(frozen=True)
class _Found:
    """What is kept of deliveries since then, read once for all suppliers."""

    view: View
    since: datetime

    def row(self, supplier: SupplierRow) -> Row:
        orders = [row for row in self._orders if row.supplier == supplier.id]
        receipts = [row for row in self._receipts if row.supplier == supplier.id]
        lines = [line for row in orders for line in self._lines.get(row.id, ())]
        prices = [row for row in self._prices if self._packs[row.pack].supplier == supplier.id]
        incidents = sorted(self._incidents(supplier, orders, receipts), key=itemgetter("at"))
        late = {one["order"] for one in incidents if one["what"] == "late"}
        short = {one["order"] for one in incidents if one["what"] == "short"}
        return {
            "supplier": supplier.name,
            "supplier_id": supplier.id,
            "since": local_date(self.since, self.view.zone).isoformat(),
            "deliveries": len(orders),
            "in_time": len(orders) - len(late),
            "whole": len(orders) - len(short),
            "lines": len(lines),
            "whole_lines": sum(_is_whole(line) for line in lines),
            "measured": sum(row.temperature_tenths is not None for row in receipts),
            "dated": sum(self._promised(row) is not None for row in receipts),
            "dearer": sum(row.price > row.before for row in prices),
            "cheaper": sum(row.price < row.before for row in prices),
            "incidents": incidents,
            "credits": self._credits(supplier.name),
        }

    def _incidents(
        self, supplier: SupplierRow, orders: Iterable[OrderRow], receipts: Iterable[ReceiptRow]
    ) -> Iterator[Row]:
        for order in orders:
            came = self._came[order.id]
            margin = after(order.delivery_at, self.view.house.receiving_margin, self.view.zone)
            if came > max(margin, order.delivery_at + PATIENCE):
                late = write_span(Span(exact=came - order.delivery_at))
                yield _incident("late", came, order.id, None, late)
            lines = self._lines.get(order.id, [])
            missing = [line for line in lines if not _is_whole(line)]
            for line in missing:
                yield _incident("short", came, order.id, self.view.item_name(line.item), None)
        for row in receipts:
            yield from self._of_receipt(row)
        yield from self._told(supplier)

    def _of_receipt(self, row: ReceiptRow) -> Iterator[Row]:
        item = self.view.item_name(row.item)
        if row.warmth in ("ask", "refuse"):
            degrees = str(Decimal(row.temperature_tenths or 0) / 10)
            yield _incident("warm", row.at, row.purchase_order, item, degrees)
        if row.verdict == "refuse":
            yield _incident("refused", row.at, row.purchase_order, item, row.reason)
        promised, lived = self._promised(row), self._life(row)
        if promised is not None and lived is not None and lived < promised:
            told = f"{max(lived, 0)} of {promised}"
            yield _incident("short_dated", row.at, row.purchase_order, item, told)

    def _told(self, supplier: SupplierRow) -> Iterator[Row]:
        """What the supplier said before the delivery: less than was ordered, or not at all."""
        for line in self._answered:
            pack = self._packs.get(line.pack)
            answer = self._answers.get(line.command)
            if answer and pack and pack.supplier == supplier.id and line.packs < line.ordered:
                item = self.view.item_name(pack.item)
                told = f"{line.packs} of {line.ordered}"
                yield _incident("said_short", answer.at, answer.purchase_order, item, told)
        closed = every(self.view.connection, ClosureRow, house=self.view.id, supplier=supplier.id)
        for row in closed:
            if row.command is not None and self._is_within(row.on):
                at = start_of_day(row.on, self.view.zone)
                yield _incident("called_off", at, None, None, row.reason)

    def _is_within(self, day: date) -> bool:
        zone = self.view.zone
        return local_date(self.since, zone) <= day <= local_date(self.view.now, zone)

    def _credits(self, supplier: str) -> Row:
        """What is owed still, and since when."""
        owed = [row for row in self._owed if row["supplier"] == supplier]
        return {
            "count": len(owed),
            "value": money(sum(row["value"]["minor"] for row in owed), self.view),
            "oldest": min((row["opened_at"] for row in owed), default=None),
        }

    def _promised(self, row: ReceiptRow) -> int | None:
        """The life in days that the pack promises, of what came with a date."""
        pack = self._packs.get(row.pack or "")
        if pack is None or row.verdict == "refuse" or self._life(row) is None:
            return None
        return pack.life_on_arrival_days

    def _life(self, row: ReceiptRow) -> int | None:
        """How many days it lives, that of arrival being day 1; None: it has no date."""
        batch = self.view.every_batch.get(row.batch)
        if batch is None or batch.mark_date is None:
            return None
        return (batch.mark_date - local_date(row.at, self.view.zone)).days + 1

    @cached_property
    def _orders(self) -> list[OrderRow]:
        """Those of the time that came, and of which nothing is waited for at the door any more."""
        rows = every(self.view.connection, OrderRow, house=self.view.id)
        return [row for row in rows if row.id in self._came and self._is_over(row)]

    def _is_over(self, row: OrderRow) -> bool:
        if row.state == "cancelled" or not self.since <= row.delivery_at <= self.view.now:
            return False
        today = local_date(self.view.now, self.view.zone)
        is_past = local_date(row.delivery_at, self.view.zone) < today
        return row.state == "received" or row.id in self._left or is_past

    @cached_property
    def _came(self) -> Mapping[str, datetime]:
        """When the first was said of each order's delivery."""
        found: dict[str, datetime] = {}
        said = [(row.purchase_order, row.at) for row in self._receipts]
        said += [(row.purchase_order, row.at) for row in self._left.values()]
        for order, at in said:
            if order:
                found[order] = min(at, found.get(order, at))
        return found

    @cached_property
    def _left(self) -> Mapping[str, DriverLeftRow]:
        rows = every(self.view.connection, DriverLeftRow, house=self.view.id)
        return {row.purchase_order: row for row in rows}

    @cached_property
    def _receipts(self) -> list[ReceiptRow]:
        rows = every(self.view.connection, ReceiptRow, house=self.view.id)
        return [row for row in rows if row.at >= self.since]

    @cached_property
    def _lines(self) -> Mapping[str, list[OrderLineRow]]:
        rows = every(self.view.connection, OrderLineRow, house=self.view.id)
        return grouped(rows, lambda row: row.purchase_order)

    @cached_property
    def _packs(self) -> Mapping[str, PackRow]:
        return {row.id: row for row in every(self.view.connection, PackRow, house=self.view.id)}

    @cached_property
    def _prices(self) -> list[PackPriceRow]:
        rows = every(self.view.connection, PackPriceRow, house=self.view.id)
        return [row for row in rows if row.at >= self.since and row.pack in self._packs]

    @cached_property
    def _answers(self) -> Mapping[str, SupplierAnswerRow]:
        rows = every(self.view.connection, SupplierAnswerRow, house=self.view.id)
        return {row.command: row for row in rows if row.at >= self.since}

    @cached_property
    def _answered(self) -> list[AnsweredLineRow]:
        return every(self.view.connection, AnsweredLineRow, house=self.view.id)

    @cached_property
    def _owed(self) -> list[Row]:
        return credits_owed(self.view)


def _is_whole(line: OrderLineRow) -> bool:
    return line.received >= line.quantity if line.quantity else line.closed


def _incident(
    what: str, at: datetime, order: str | None, item: str | None, told: str | None
) -> Row:
    return {"what": what, "at": instant(at), "order": order, "item": item, "told": told}
