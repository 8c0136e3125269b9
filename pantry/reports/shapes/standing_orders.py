"""Rows of standing orders: what comes of itself, until somebody says otherwise."""

from pantry.reports.shapes.written import Day, Instant, Number, Shape


class StandingLine(Shape, frozen=True):
    """What comes on a weekday: packs of an item, or something in words."""

    weekday: str
    item: str | None
    item_id: str | None
    pack: str | None
    packs: Number | None
    words: str | None
    amount: str | None


class NobodyThere(Shape, frozen=True):
    """Between which days nobody is in the house, both included."""

    first: Day
    last: Day


class StandingDelivery(Shape, frozen=True):
    """An open order of a standing order.

    `nobody`: it would be for nobody, and the supplier can be told until `tell_by`.
    """

    order: str
    version: Number
    delivery: Instant
    tell_by: Instant | None
    nobody: NobodyThere | None


class StandingOrderRow(Shape, frozen=True):
    """A supplier's standing order; `when_empty`: it comes for an empty house, too.

    `email` and `order_words` say how the supplier is reached.
    """

    supplier: str
    supplier_id: str
    version: Number
    email: str | None
    order_words: str | None
    when_empty: bool
    said_by: str
    said_at: Instant
    lines: list[StandingLine]
    coming: list[StandingDelivery]
