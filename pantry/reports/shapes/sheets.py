"""Rows of what was shown to the household, and what they answered."""

from typing import Literal

from pantry.reports.shapes.written import Day, Instant, Number, Shape
from pantry.rules.menu import ServiceState


class AnsweredDish(Shape, frozen=True):
    """A dish that the household named."""

    dish: str
    name: str
    variant: str | None


class AnsweredCourse(Shape, frozen=True):
    """What was said of a course; `not_these` were struck."""

    course: str
    dish: AnsweredDish | None
    any: bool
    instead: AnsweredDish | None
    not_these: list[AnsweredDish]


class MenuAnswer(Shape, frozen=True):
    """The answer that stands; `earlier` where the menu was changed since."""

    id: str
    at: Instant
    by: str
    earlier: bool
    covers: Number | None
    wish: str
    courses: list[AnsweredCourse]


class MenuShown(Shape, frozen=True):
    """On which sheet a menu is shown now; `read_at` null: its link was not followed yet."""

    sheet: str
    sent_at: Instant
    read_at: Instant | None
    until: Instant


class SheetService(Shape, frozen=True):
    """A service on a sheet; `answer_by` null where nothing is to be chosen any more."""

    service: str
    date: Day
    meal: str
    table: str
    state: ServiceState
    answer_by: Instant | None
    answer: MenuAnswer | None


class SheetRow(Shape, frozen=True):
    """A sheet; `table` where all of it is of one, `to` who chooses by it."""

    sheet: str
    version: Number
    to: str | None
    table: str | None
    sent_by: str
    sent_at: Instant
    until: Instant
    state: Literal["shown", "over", "withdrawn"]
    has_link: bool
    read_at: Instant | None
    services: list[SheetService]
