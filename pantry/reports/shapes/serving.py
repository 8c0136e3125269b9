"""Rows of what is to be served, and of what was."""

from typing import Literal

from pantry.reports.shapes.conflicts import MenuConflict
from pantry.reports.shapes.written import Day, Instant, Number, Quantity, Shape
from pantry.rules.menu import ServiceState


class ServingDish(Shape, frozen=True):
    """A dish of a service: as many portions as were planned; `served` where that was otherwise."""

    course: str
    dish: str
    name: str
    variant: str | None
    portions: Number
    served: Number | None
    conflicts: list[MenuConflict]


class ServingBatch(Shape, frozen=True):
    """So much of a batch that a service was promised, or that was taken out for it already."""

    item: str
    item_id: str
    batch: str
    label: str
    area: str | None
    quantity: Quantity
    taken_out: Quantity
    usable_until: Instant | None


class ServingLeftOver(Shape, frozen=True):
    """So many portions that came back unserved, as the batch they became."""

    command: str | None
    batch: str
    label: str
    dish: str
    variant: str | None
    portions: Number
    usable_until: Instant | None


class Served(Shape, frozen=True):
    """That it was served: by which command, when that was written down, and by whom."""

    command: str
    at: Instant
    person: str


class ServingRow(Shape, frozen=True):
    """A service of today, or one of which nobody has recorded that it was served."""

    service: str
    date: Day
    meal: str
    table: str
    at: Instant
    covers: Number
    state: ServiceState
    version: Number
    dishes: list[ServingDish]
    batches: list[ServingBatch]
    left_overs: list[ServingLeftOver]
    done: Served | None


class Against(Shape, frozen=True):
    """Who cannot eat a dish."""

    person: str
    cannot_eat: str
    certainty: Literal["contains", "may_contain"]


class InsteadRow(Shape, frozen=True):
    """A dish that could take another's place on a menu; `last_served` is by that table."""

    dish: str
    name: str
    variants: list[str]
    courses: list[str]
    against: list[Against]
    unknown: bool
    in_season: bool
    last_served: Day | None


class ServedLeftOver(Shape, frozen=True):
    """What was left of a dish, as a batch, and how many portions of that were wasted."""

    batch: str
    label: str
    portions: Number
    wasted: Quantity


class ServedRow(Shape, frozen=True):
    """A dish of a service that took place; `confirmed_by` is null where nobody knows."""

    service: str
    date: Day
    meal: str
    table: str
    at: Instant
    covers: Number
    course: str
    dish: str
    name: str
    variant: str | None
    portions: Number
    planned: Number
    confirmed_by: str | None
    left_over: Number
    left_overs: list[ServedLeftOver]
