"""Rows of what is bought in and what must be kept in (PL6)."""

from typing import Literal

from pantry.reports.shapes.written import Duration, Quantity, Shape
from pantry.rules.notice import Verdict

_Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]


class NoticeFail(Shape, frozen=True):
    """A meal that makes an item one to keep in, and by how much it misses; null: always."""

    weekday: _Weekday
    meal: str
    by: Duration | None


class NoticeRow(Shape, frozen=True):
    """An item; floor and level are proposals for what is kept in."""

    item: str
    needed: Duration | None
    verdict: Verdict
    fails: list[NoticeFail]
    floor: Quantity | None
    order_up_to: Quantity | None
