"""Rows of the menus of the days ahead."""

from pantry.reports.shapes.conflicts import MenuConflict
from pantry.reports.shapes.presence import CoversSaid
from pantry.reports.shapes.sheets import MenuAnswer, MenuShown
from pantry.reports.shapes.written import Day, Instant, Number, Shape
from pantry.rules.menu import ServiceState


class MenuDish(Shape, frozen=True):
    """A dish of a course; `portions` null is one for each cover."""

    dish: str
    name: str
    variant: str | None
    portions: Number | None
    chosen: bool
    approved: bool
    choose_by: Instant | None
    short: list[str]
    flags: list[str]
    conflicts: list[MenuConflict]


class MenuCourse(Shape, frozen=True):
    """A course with its alternatives."""

    course: str
    dishes: list[MenuDish]


class MenuRow(Shape, frozen=True):
    """A service; `choose_by` is null where nothing is to be chosen any more."""

    service: str
    date: Day
    meal: str
    table: str
    at: Instant
    covers: Number
    state: ServiceState
    version: int
    choose_by: Instant | None
    answer_by: Instant | None
    notice_by: Instant
    short: Number
    courses: list[MenuCourse]
    answer: MenuAnswer | None
    shown: MenuShown | None
    said: CoversSaid | None
