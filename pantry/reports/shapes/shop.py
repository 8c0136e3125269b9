"""Rows of shop runs, and of what the back door asks for."""

from pantry.reports.shapes.written import Day, Instant, Money, Quantity, Shape


class BoughtLine(Shape, frozen=True):
    """An item that was bought, as the batch it became; `cost` is null where nobody said it."""

    item: str
    label: str
    counted: bool
    quantity: Quantity
    cost: Money | None


class ShopRunRow(Shape, frozen=True):
    """That somebody went to a shop; `others` is what the house has no item of."""

    run: str
    at: Instant
    week: Day
    person: str
    shop: str
    total: Money | None
    lines: list[BoughtLine]
    others: list[str]
    photos: list[str]


class AskedForRow(Shape, frozen=True):
    """What the back door asks for; `item` is null where it is not stocked."""

    asked: str
    item: str | None
    item_id: str | None
    counted: bool | None
    words: str | None
    person: str
    at: Instant
    on_hand: Quantity | None
    wanted_by: Instant | None
    wanted_for: str | None
    version: int
