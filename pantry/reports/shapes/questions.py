"""Rows of the open questions, and of what has changed."""

from pantry.reports.shapes.ways_out import WayOut
from pantry.reports.shapes.written import Instant, Number, Owner, Quantity, Shape


class DishShort(Shape, frozen=True):
    """A dish that lacks an item, and what is left for it; of what nobody counts nothing lacks."""

    service: str
    dish: str
    lacking: Quantity
    wanted_by: Instant
    ways_out: list[WayOut]


class ShortLine(Shape, frozen=True):
    """What of an item came short or has run out, and the dishes that lack it."""

    item: str
    missing: Quantity
    dishes: list[DishShort]


class QuestionRow(Shape, frozen=True):
    """A question nobody has settled; version 0: time alone raised it.

    `short` has the lines of a delivery that came short, or the item that has run out, as they are
    now; of other questions none.
    `photos` are the ids of the pictures taken with what it is about; one may not have arrived yet.
    """

    question: str
    kind: str
    owner: Owner
    about: str
    recorded: str
    against: str
    answers: list[str]
    opened_at: Instant
    version: Number
    short: list[ShortLine]
    photos: list[str]


class ChangeRow(Shape, frozen=True):
    """A numbered change of the house's one sequence (SY6)."""

    number: Number
    position: Number
    what: str
    key: str
