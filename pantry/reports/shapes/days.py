"""Rows of the days ahead and of the morning, tagged by `what` they are about."""

from typing import Literal

from pantry.reports.shapes.written import Day, Instant, Number, Owner, Quantity, Shape
from pantry.rules.menu import ServiceState
from pantry.rules.stock import DateKind


class DayMark(Shape, frozen=True, tag_field="what"):
    """What stands at an instant, on a local day."""

    at: Instant
    day: Day


class ServiceMark(DayMark, frozen=True, tag="service"):
    """A service; `short` is how many items it lacks."""

    service: str
    meal: str
    table: str
    covers: Number
    state: ServiceState
    dishes: list[str]
    short: Number


class DeliveryMark(DayMark, frozen=True, tag="delivery"):
    """A delivery that is awaited, with how many lines."""

    order: str
    supplier: str
    lines: Number


class DeliveryLine(Shape, frozen=True):
    """So many packs that are still awaited."""

    item: str
    pack: str
    packs: Number


class DeliveryTodayMark(DayMark, frozen=True, tag="delivery"):
    """A delivery of today, line by line."""

    order: str
    supplier: str
    lines: list[DeliveryLine]


class CutOffMark(DayMark, frozen=True, tag="cut_off"):
    """The order-by of what must be ordered; `items` is of how many items."""

    supplier: str
    delivery: Instant
    items: Number
    alert: Literal["none", "open", "last_call"]


class ChooseByMark(DayMark, frozen=True, tag="choose_by"):
    """Until when proposed dishes can be chosen."""

    service: str
    dishes: list[str]


class DiesMark(DayMark, frozen=True, tag="dies"):
    """The last usable instant of a batch; `area` is null where it stands nowhere any more."""

    batch: str
    label: str
    item: str
    area: str | None
    on_hand: Quantity
    promised: Quantity
    available: Quantity
    mark: DateKind


class PullMark(DayMark, frozen=True, tag="pull"):
    """What must be out of the freezer at the latest."""

    batch: str
    label: str
    item: str
    area: str | None
    quantity: Quantity
    service: str


class MakeMark(DayMark, frozen=True, tag="make"):
    """What must be made at the latest."""

    item: str
    quantity: Quantity
    dish: str
    service: str


class LeftMark(Shape, frozen=True, tag_field="what", tag="left"):
    """What was left unfinished; `owner` is the role that settles it, of a question only."""

    kind: Literal["batch", "delivery", "service", "question", "cut_off", "round"]
    key: str
    since: Instant
    text: str
    owner: Owner | None


_OfAnyDay = ServiceMark | CutOffMark | ChooseByMark | DiesMark | PullMark | MakeMark

DaysRow = _OfAnyDay | DeliveryMark
"""A row of the days ahead."""

MorningRow = _OfAnyDay | DeliveryTodayMark | LeftMark
"""A row of the morning."""
