"""Rows of what is bought in and what must be kept in (PL6)."""

from typing import Literal

from pantry.reports.shapes.written import Day, Duration, Instant, Number, Quantity, Shape
from pantry.rules.notice import Verdict

_Weekday = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]


class NoticeFail(Shape, frozen=True):
    """A meal that makes an item one to keep in, and by how much it misses; null: always."""

    weekday: _Weekday
    meal: str
    by: Duration | None


class NoticeSpell(Shape, frozen=True):
    """Days in a row on which less is kept of an item, with the most `people` there on any of them.

    `delivery`: the latest that brings it before more people are there; null where that is not
    within what is looked ahead, or none does.
    """

    house: Literal["empty", "light"]
    first: Day
    last: Day
    people: Number
    delivery: Instant | None
    order_by: Instant | None


class NoticeRow(Shape, frozen=True):
    """An item; floor and level are proposals for what is kept in, beside those that are set.

    `enough`: the least notice with which it is bought in, null where none would do. `would_do`:
    who does not sell it, and with whom it would be bought in.
    """

    item: str
    item_id: str
    version: int
    suppliers: list[str]
    enough: Duration | None
    would_do: list[str]
    floor_set: Quantity | None
    order_up_to_set: Quantity | None
    needed: Duration | None
    verdict: Verdict
    fails: list[NoticeFail]
    floor: Quantity | None
    order_up_to: Quantity | None
    spells: list[NoticeSpell]


class LongerNoticeRow(Shape, frozen=True):
    """A length of notice, and how many items it leaves to be kept in.

    `gained` and `lost` name the items that would be bought in, or no longer, against the house's
    own notice.
    """

    notice: Duration
    is_own: bool
    bought_in: Number
    kept_in: Number
    gained: list[str]
    lost: list[str]
