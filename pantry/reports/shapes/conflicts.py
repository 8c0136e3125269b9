"""Who cannot eat a dish, what they can eat instead, and what was agreed about it (AL3)."""

from typing import Literal

from pantry.reports.shapes.written import Instant, Shape

Certainty = Literal["contains", "may_contain"]


class MenuSafe(Shape, frozen=True):
    """Somebody's own safe dish; whether it stands in the same course of that menu."""

    dish: str
    name: str
    variant: str | None
    on_menu: bool


class Agreed(Shape, frozen=True):
    """Who agreed, when, and to what: to serve it all the same, or how a question was answered."""

    by: str
    at: Instant
    answer: str


class MenuConflict(Shape, frozen=True):
    """Who cannot eat a dish, through what; `safe` is null where the house has nothing (AL3).

    `asked`: a question about that person at that meal is open. Of a meal that is over
    only what was agreed to is told.
    """

    person: str
    cannot_eat: str
    certainty: Certainty
    through: list[str]
    safe: MenuSafe | None
    agreed: Agreed | None
    asked: bool


class NamelessConflict(Shape, frozen=True):
    """The same, with `person` null for who is not told whose it is."""

    person: str | None
    cannot_eat: str
    certainty: Certainty
    through: list[str]
    safe: MenuSafe | None
    agreed: Agreed | None
    asked: bool
