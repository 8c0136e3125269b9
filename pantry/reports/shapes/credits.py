"""Rows of the credits that suppliers owe."""

from pantry.reports.shapes.written import Instant, Money, Number, Quantity, Shape


class CreditRow(Shape, frozen=True):
    """An open credit, for an order line that did not come whole or because of an `invoice`.

    `refused` has the reason of each refusal at the door, `instead` the items that came instead.
    Of an invoice, by its number, `words` say what was billed otherwise than agreed; it has no
    order, delivery, pack and quantities, and an item only where it is about one.
    """

    credit: str
    order: str | None
    invoice: str | None
    invoice_id: str | None
    words: str | None
    supplier: str
    supplier_id: str
    delivery: Instant | None
    item: str | None
    pack: str | None
    packs: Number | None
    counted: bool
    ordered: Quantity | None
    missing: Quantity | None
    value: Money
    refused: list[str]
    instead: list[str]
    driver: str | None
    opened_at: Instant
    version: Number
