"""Rows of the dishes a house can cook."""

from typing import Annotated

from msgspec import Meta

from pantry.reports.shapes.written import Day, Duration, Shape

_MonthDay = Annotated[str, Meta(pattern=r"^[0-9]{2}-[0-9]{2}$")]


class DishLine(Shape, frozen=True):
    """A line of a recipe, the amount as it was written."""

    item: str
    item_id: str
    amount: str


class DishServed(Shape, frozen=True):
    """When a table last had a dish."""

    table: str
    date: Day


class DishRow(Shape, frozen=True):
    """A dish with its recipe; the season from a month and day to another, both inclusive."""

    id: str
    dish: str
    version: int
    variants: list[str]
    approved: bool
    put_away: bool
    season_from: _MonthDay | None
    season_to: _MonthDay | None
    lead: Duration
    yields: str
    lines: list[DishLine]
    method: str
    last_served: list[DishServed]
    contains: list[str]
    may_contain: list[str]
    unknown: list[str]
