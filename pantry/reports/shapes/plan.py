"""Rows of what must be ordered, of whom, by when."""

from pantry.reports.shapes.derivation import Derivation
from pantry.reports.shapes.ways_out import WayOut
from pantry.reports.shapes.written import Instant, Money, Number, Quantity, Shape
from pantry.rules.deadlines import Alert


class PlanRow(Shape, frozen=True):
    """An item on a delivery; where no delivery can make it, what of one is null."""

    item: str
    net: Quantity
    wanted_by: Instant
    supplier: str | None
    pack: str | None
    packs: Number
    order_by: Instant | None
    delivery: Instant | None
    alert: Alert
    because: list[str]
    ways_out: list[WayOut]
    cost: Money
    at_risk: bool
    derivation: Derivation
