"""The invoices of a supplier against what was ordered, came and is owed, one after the other.

Whatever came is billed by the first invoice recorded for it. So a later invoice never changes what
an earlier one should have come to, but for what nobody has billed yet, which is told of the last.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeVar
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from pantry.records.read.came import CameOf
from pantry.records.rows import among, every, find, grouped
from pantry.records.slugs import slug
from pantry.records.tables import (
    CreditRow,
    InvoiceAgreedRow,
    InvoiceCreditRow,
    InvoiceLineRow,
    InvoiceOrderRow,
    InvoiceRow,
    OrderLineRow,
    SupplierRow,
)
from pantry.rules.credits import credit_due
from pantry.rules.house_time import local_date
from pantry.rules.invoiced import (
    SHORT,
    Agreed,
    BilledGoods,
    BilledInWords,
    Came,
    Difference,
    Invoice,
    Matched,
    TakenOff,
)
from pantry.rules.invoices import match, with_credits

_OfInvoice = TypeVar(
    "_OfInvoice", InvoiceOrderRow, InvoiceLineRow, InvoiceCreditRow, InvoiceAgreedRow
)


@dataclass(frozen=True)
class Printed:
    """An invoice as it is kept, with the orders it is for and what was agreed of it."""

    row: InvoiceRow
    orders: tuple[str, ...]
    lines: Sequence[InvoiceLineRow]
    taken_off: Sequence[InvoiceCreditRow]
    agreed: Mapping[str, InvoiceAgreedRow]

    def agreed_of(self, difference: Difference) -> InvoiceAgreedRow | None:
        """What was agreed of a difference, as long as it is what it was then."""
        row = self.agreed.get(difference.key)
        return row if row and row.amount == difference.amount else None


@dataclass(frozen=True)
class Billing:
    """One supplier's invoices that stand, the first recorded first, and what each comes to."""

    connection: Connection
    house: str
    supplier: str
    zone: ZoneInfo

    @cached_property
    def came(self) -> CameOf:
        """What came of the supplier."""
        return CameOf(self.connection, self.house, self.supplier)

    @cached_property
    def printed(self) -> list[Printed]:
        """The invoices that were not withdrawn."""
        of = {"house": self.house, "supplier": self.supplier}
        rows = every(self.connection, InvoiceRow, **of, withdrawn_at=None)
        rows.sort(key=lambda row: (row.at, row.id))
        orders = self._of(InvoiceOrderRow, rows)
        lines = self._of(InvoiceLineRow, rows)
        taken_off = self._of(InvoiceCreditRow, rows)
        agreed = self._of(InvoiceAgreedRow, rows)
        return [
            Printed(
                row,
                tuple(each.purchase_order for each in orders.get(row.id, ())),
                lines.get(row.id, []),
                taken_off.get(row.id, []),
                {each.difference: each for each in agreed.get(row.id, ())},
            )
            for row in rows
        ]

    def _of(
        self, model: type[_OfInvoice], rows: Sequence[InvoiceRow]
    ) -> Mapping[str, list[_OfInvoice]]:
        ids = [row.id for row in rows]
        found = among(self.connection, model, self.house, "invoice", ids)
        return grouped(found, lambda row: row.invoice)

    @cached_property
    def billed(self) -> frozenset[str]:
        """The orders that some invoice is for."""
        return frozenset(order for each in self.printed for order in each.orders)

    @cached_property
    def matched(self) -> Mapping[str, Matched]:
        """Each invoice, by its id, as it should be and in what it differs."""
        found, told = {}, set[str]()
        for printed in self.printed:
            left = {
                row.id: self.worth[row.id]
                for row in self.came.credits.values()
                if row.id not in told and self._is_left(printed, row)
            }
            told |= left.keys()
            goods = self._goods[printed.row.id]
            invoice = self._invoice(printed)
            found[printed.row.id] = with_credits(goods, invoice.taken_off, self.worth, left)
        return found

    @cached_property
    def worth(self) -> Mapping[str, int]:
        """What each credit of the supplier is worth, in minor units, recorded or not.

        Of an order that is billed it is what is billed and did not come; else what did not come.
        """
        rows = self.came.credits.values()
        return {row.id: self._worth(row) for row in rows if row.supplier == self.supplier}

    def _worth(self, row: CreditRow) -> int:
        if row.purchase_order is None:
            return row.cost
        if row.purchase_order in self.billed:
            return sum(
                each.amount
                for printed, each in self._short(row.id)
                if not _is_paid(printed.agreed_of(each))
            )
        line = self._line(row)
        return credit_due(row.cost, line.quantity, line.received) if line else 0

    def _line(self, row: CreditRow) -> OrderLineRow | None:
        lines = self.came.lines.get(row.purchase_order or "", ())
        return next((line for line in lines if line.pack == row.pack), None)

    def _short(self, source: str) -> Iterator[tuple[Printed, Difference]]:
        """Where what did not come of an order line is billed."""
        for printed in self.printed:
            for each in self._goods[printed.row.id].differences:
                if each.kind in SHORT and each.source == source:
                    yield printed, each

    def _is_left(self, printed: Printed, row: CreditRow) -> bool:
        """Whether a credit was owed when an invoice was written, and is not taken off anywhere.

        One that stands as a difference of some invoice nobody has agreed on is told there.
        """
        is_owed = row.supplier == self.supplier and row.settled_at is None and self.worth[row.id]
        if not is_owed or row.invoice == printed.row.id or row.purchase_order in printed.orders:
            return False
        is_told = any(of.agreed_of(each) is None for of, each in self._short(row.id))
        return not is_told and local_date(row.opened_at, self.zone) <= printed.row.dated

    @property
    def _goods(self) -> Mapping[str, Matched]:
        """Each invoice by its goods and charges alone."""
        return self._billed_in_turn[0]

    @property
    def without_order(self) -> list[Came]:
        """What came unordered and no invoice bills."""
        return [each for each in self._billed_in_turn[1].values() if not each.order and each.came]

    @cached_property
    def _billed_in_turn(self) -> tuple[Mapping[str, Matched], Mapping[str, Came]]:
        """Each invoice by its goods and charges, and what they leave unbilled, by its source."""
        last = {order: each.row.id for each in self.printed for order in each.orders}
        by_order = {order: self.came.of_order(order) for order in last if order in self.came.orders}
        unordered = self.came.without_order()
        left = {each.source: each for of in (*by_order.values(), unordered) for each in of}
        found, begun = {}, set[str]()
        for printed in self.printed:
            parts = [by_order.get(order, []) for order in printed.orders]
            own = [left[each.source] for part in (*parts, unordered) for each in part]
            to_bill = {each.source for each in own if last.get(each.order or "") == printed.row.id}
            agreed = self._agreed(printed, begun)
            matched = match(self._invoice(printed), own, to_bill, agreed)
            begun |= set(printed.orders)
            for source, taken in matched.taken.items():
                each = left[source]
                left[source] = replace(
                    each, came=each.came - taken.came, missing=each.missing - taken.missing
                )
            found[printed.row.id] = matched
        return found, left

    def _agreed(self, printed: Printed, begun: set[str]) -> Agreed:
        """What was agreed on beside the goods of deliveries that no earlier invoice is for."""
        orders = [order for order in printed.orders if order in self.came.orders]
        first = [order for order in orders if order not in begun]
        return self.agreed_for(first, [line for each in orders for line in self._words(each)])

    def agreed_for(self, orders: Sequence[str], words: Sequence[str] = ()) -> Agreed:
        """The charge for some orders, once a delivery, and what they lack of the minimum."""
        came = [order for order in orders if self.came.has_come(order) or self.came.free.get(order)]
        deliveries = {self.came.orders[order].delivery_at for order in came}
        charge, minimum = self._charge_and_minimum
        below = sum(max(0, minimum - self.ordered(order)) for order in came)
        return Agreed(charge * len(deliveries), below, frozenset(words))

    @cached_property
    def _charge_and_minimum(self) -> tuple[int, int]:
        supplier = find(self.connection, SupplierRow, house=self.house, id=self.supplier)
        return (supplier.charge, supplier.minimum) if supplier else (0, 0)

    def ordered(self, order: str) -> int:
        """What the items of an order were to cost, in minor units."""
        row = self.came.orders[order]
        return sum(
            line.packs * self.came.prices.of_order(row, line.pack)[0]
            for line in self.came.lines.get(order, ())
        )

    def _words(self, order: str) -> Iterator[str]:
        return (slug(row.words) for row in self.came.free.get(order, ()))

    def _invoice(self, printed: Printed) -> Invoice:
        goods = [line for line in printed.lines if line.item is not None]
        others = [line for line in printed.lines if line.item is None]
        return Invoice(
            tuple(self._billed(line) for line in goods),
            tuple(_in_words(line) for line in others),
            tuple(TakenOff(row.line, row.credit, row.amount) for row in printed.taken_off),
        )

    def _billed(self, line: InvoiceLineRow) -> BilledGoods:
        pack, packs = self.came.packs.get(line.pack or ""), line.packs or 0
        quantity = line.quantity or 0
        return BilledGoods(
            line=line.line,
            item=line.item or "",
            pack=line.pack or "",
            packs=packs,
            quantity=quantity,
            amount=line.amount,
            price=pack.price if pack else 0,
            of_pack=max(1, quantity // max(1, packs)),
        )


def _in_words(line: InvoiceLineRow) -> BilledInWords:
    words = slug(line.words or "")
    return BilledInWords(line.line, line.charge_for or "other", words, line.amount)  # type: ignore[arg-type] # a CHECK holds it


def _is_paid(agreed: InvoiceAgreedRow | None) -> bool:
    return agreed is not None and agreed.agreed == "paid"
