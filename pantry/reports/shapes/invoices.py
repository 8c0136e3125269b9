"""Rows of invoices: what was billed, what it should come to, and what differs."""

from typing import Literal

from pantry.reports.shapes.envelope import Report
from pantry.reports.shapes.written import Day, Instant, Money, Number, Quantity, Shape
from pantry.rules.invoiced import ChargeFor, DifferenceKind, PriceFrom


class InvoiceLine(Shape, frozen=True):
    """A line of an invoice: packs of an item, or `words` and what they are for."""

    item: str | None
    pack: str | None
    packs: Number | None
    charge_for: ChargeFor | None
    words: str | None
    amount: Money


class TakenOff(Shape, frozen=True):
    """What the supplier took off; `credit` where one was expected."""

    credit: str | None
    note: str | None
    amount: Money


class ReceiptNamed(Shape, frozen=True):
    """What the back door said of a line that came; `label` null where it was refused."""

    command: str
    verdict: Literal["accept", "hold", "refuse"]
    label: str | None
    at: Instant


class CreditNamed(Shape, frozen=True):
    """The credit of a difference; `note` or `reason` once it is recorded or written off."""

    credit: str
    is_recorded: bool
    note: str | None
    reason: str | None


class DifferenceRow(Shape, frozen=True):
    """What is `billed`, less what it is `held_against`, is the `amount` of a difference.

    `quantity` did not come, or is not billed; `price` was agreed for one pack, and `price_from` is
    where that is from.
    """

    difference: str
    kind: DifferenceKind
    amount: Money
    billed: Money
    held_against: Money
    line: Number | None
    item: str | None
    words: str | None
    quantity: Quantity | None
    price: Money | None
    price_from: PriceFrom | None
    orders: list[str]
    receipts: list[ReceiptNamed]
    credit: CreditNamed | None
    agreed: Literal["paid", "credit"] | None
    agreed_words: str | None
    agreed_by: str | None
    agreed_at: Instant | None
    is_settled: bool


class InvoiceRow(Shape, frozen=True):
    """An invoice: `should_be` and the amounts of its differences are its `total`, exactly."""

    invoice: str
    number: str
    supplier: str
    supplier_id: str
    dated: Day
    recorded_at: Instant
    person: str
    version: Number
    state: Literal["agrees", "differs", "settled"]
    total: Money
    should_be: Money
    difference: Money
    kinds: list[DifferenceKind]
    orders: list[str]
    lines: list[InvoiceLine]
    credits: list[TakenOff]
    differences: list[DifferenceRow]


class CameLine(Shape, frozen=True):
    """What came of a line, and what an invoice of it should have: `value`, for so many `packs`.

    `on_hold`: somebody still has to decide whether it is kept. `refused` has the reasons.
    """

    item: str
    item_id: str
    pack: str
    pack_id: str
    counted: bool
    packs: Number
    ordered_packs: Number
    came: Quantity | None
    missing: Quantity | None
    on_hold: bool
    refused: list[str]
    price: Money
    price_from: PriceFrom
    value: Money


class NotBilledRow(Shape, frozen=True):
    """An order that came and no invoice is for; `order` null: what came unordered."""

    order: str | None
    supplier: str
    supplier_id: str
    delivery: Instant
    lines: list[CameLine]
    words: list[str]
    charge: Money


class OwedRow(Shape, frozen=True):
    """An open credit, as it can be taken off an invoice; of an order line, or of an invoice."""

    credit: str
    supplier_id: str
    order: str | None
    pack_id: str | None
    about: str
    value: Money


class InvoicesReport(Report[InvoiceRow], frozen=True):
    """Invoices, and beside them what came and is not billed, and what is owed."""

    not_billed: list[NotBilledRow]
    owed: list[OwedRow]
