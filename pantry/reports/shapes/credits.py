"""Rows of the credits that suppliers owe."""

from pantry.reports.shapes.written import Instant, Money, Number, Quantity, Shape


class CreditRow(Shape, frozen=True):
    """An open credit for an order line that did not come whole.

    `refused` has the reason of each refusal at the door, `instead` the items that came instead.
    """

    credit: str
    order: str
    supplier: str
    delivery: Instant
    item: str
    pack: str
    packs: Number
    counted: bool
    ordered: Quantity
    missing: Quantity
    value: Money
    refused: list[str]
    instead: list[str]
    driver: str | None
    opened_at: Instant
    version: Number
