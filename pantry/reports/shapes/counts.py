"""Rows about counting: what is due in each storage area, and what counts found."""

from typing import Literal

from msgspec import UNSET, UnsetType

from pantry.reports.shapes.written import Instant, Money, Number, Quantity, Shape
from pantry.rules.counts_due import Due
from pantry.rules.stock import AreaKind, BaseUnit


class PromisedSoon(Shape, frozen=True):
    """What of a batch is promised to services of today and tomorrow."""

    batch: str
    quantity: Quantity


class CountLine(Shape, frozen=True):
    """An item to be counted in a storage area; what the books have there is not said.

    `closely`: it is of high risk or high value, and is counted a second time where a count is
    further off than `tolerance`, in percent of what the books have. `why` it is due, or null.
    """

    item: str
    item_id: str
    unit: BaseUnit
    closely: bool
    tolerance: Number
    counted_at: Instant | None
    why: Due | None
    promised_soon: list[PromisedSoon]


class CountLevel(Shape, frozen=True):
    """An item that nobody counts: somebody looks at it."""

    item: str
    item_id: str
    level: Literal["plenty", "low", "out"]


class CountsRow(Shape, frozen=True):
    """A storage area: when it was counted last, by whom; its lines in the order they stand in."""

    area: str
    area_id: str
    kind: AreaKind
    counted_at: Instant | None
    counted_by: str | None
    due: Number
    lines: list[CountLine]
    levels: list[CountLevel]


class CountDifferenceRow(Shape, frozen=True):
    """What a count found of a batch otherwise than the books had it, newest first.

    `difference` is below nothing where less was found; `value` is not told at the back door.
    `explained` is what its question was answered with, or null.
    """

    area: str
    item: str
    batch: str
    label: str
    at: Instant
    person: str
    command: str
    difference: Quantity
    reason: str
    explained: str | None
    value: Money | UnsetType = UNSET
