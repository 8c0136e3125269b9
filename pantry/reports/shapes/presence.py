"""Rows about who is in the house."""

from typing import Annotated, Literal

from msgspec import Meta

from pantry.reports.shapes.envelope import Report
from pantry.reports.shapes.written import Day, Instant, Number, Shape
from pantry.rules.menu import ServiceState
from pantry.rules.presence import Following

Weekday = Annotated[int, Meta(ge=0, le=6)]
"""0 is Monday (ISO 8601, less one)."""


class CoversPart(Shape, frozen=True):
    """What a number of covers is made of: so many more or fewer, who said so, and when."""

    what: Literal["usual", "rota", "stay", "away"]
    heads: int
    id: str | None
    who: str | None
    said_by: str | None
    said_at: Instant | None


class CoversSaid(Shape, frozen=True):
    """How many eat, with who said last what the number is made of, and when."""

    covers: Number
    said_by: str
    said_at: Instant


class MenuThere(Shape, frozen=True):
    """The menu that stands at a meal, for how many."""

    service: str
    state: ServiceState
    covers: Number


class PresenceRow(Shape, frozen=True):
    """How many eat at a table at one meal; null: nobody has said. `said` null: as usual."""

    date: Day
    meal: str
    table: str
    at: Instant
    covers: Number | None
    made_of: list[CoversPart]
    said: CoversSaid | None
    menu: MenuThere | None


class StayChangeRow(Shape, frozen=True):
    """A menu for which another number would be said; `following`: what it would do then."""

    service: str
    date: Day
    meal: str
    table: str
    at: Instant
    state: ServiceState
    covers: Number
    said: Number | None
    would_be: Number | None
    following: Following


class OneStay(Shape, frozen=True):
    """Who stays; `first_at` and `last_at` are a meal, a wall time, or null for the whole day."""

    stay: str
    who: str
    heads: Number
    table: str
    first: Day
    first_at: str | None
    last: Day | None
    last_at: str | None
    said_by: str
    said_at: Instant
    version: Number


class OneAway(Shape, frozen=True):
    """Who eats elsewhere; `meal` null: at all of them."""

    away: str
    who: str
    heads: Number
    table: str
    first: Day
    last: Day
    meal: str | None
    said_by: str
    said_at: Instant
    version: Number


class OneRotaLine(Shape, frozen=True):
    """How many on a weekday, or as an exception on a date; `meal` null: at all of them."""

    heads: Number
    weekday: Weekday | None
    date: Day | None
    meal: str | None


class OneRota(Shape, frozen=True):
    """How many of a table eat when."""

    table: str
    lines: list[OneRotaLine]
    said_by: str
    said_at: Instant
    version: Number


class PresenceReport(Report[PresenceRow], frozen=True):
    """The numbers, and all that was said that they follow from."""

    stays: list[OneStay]
    away: list[OneAway]
    rotas: list[OneRota]
