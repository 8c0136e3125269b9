"""Rows about what stands in the house."""

from typing import Literal

from msgspec import UNSET, UnsetType

from pantry.reports.shapes.written import DateMark, Duration, Instant, Money, Quantity, Shape
from pantry.rules.stock import DateKind, State


class StockRow(Shape, frozen=True):
    """A batch: on hand = available + promised + on hold + emergency (LG2).

    `area` is null where it stands in the kitchen alone; `pieces` where it is not counted while
    weighed; `numbered` are the numbered labels put on it beside its own. `was_thawed` where
    it is not frozen again: it was thawed and not cooked since (SL3); `left` is what of its safety
    clock was left when it was frozen. `value` is not told at the back door.
    """

    item: str
    item_id: str
    batch: str
    label: str
    numbered: list[str]
    area: str | None
    areas: dict[str, Quantity]
    state: State
    was_thawed: bool
    date_mark: DateMark
    usable_until: Instant | None
    good_until: Instant | None
    left: Duration | None
    on_hand: Quantity
    pieces: Quantity | None
    promised: Quantity
    on_hold: Quantity
    emergency: Quantity
    available: Quantity
    usable: bool
    flagged: bool
    lot: str | None
    value: Money | UnsetType = UNSET


class CouldUse(Shape, frozen=True):
    """A dish that could use a batch; `service` where it is on a menu already."""

    dish: str
    service: str | UnsetType = UNSET


class UseFirstRow(Shape, frozen=True):
    """A batch that dies soon, or is past its best, and is promised to nobody."""

    item: str
    batch: str
    label: str
    area: str
    available: Quantity
    usable_until: Instant | None
    good_until: Instant | None
    date_mark: DateKind
    past: Literal["usable_until", "good_until"] | None
    could_use: list[CouldUse]
