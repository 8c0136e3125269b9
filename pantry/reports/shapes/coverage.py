"""Rows of what every dish is covered by."""

from msgspec import UNSET, UnsetType, field

from pantry.reports.shapes.ways_out import WayOut
from pantry.reports.shapes.written import Instant, Quantity, Shape
from pantry.rules.menu import ServiceState


class CoveredFrom(Shape, frozen=True):
    """What a need is given from, of one of four kinds.

    A `batch` with its `label`, a `delivery` or a `harvest` that is `ready` then, or a `making`.
    """

    quantity: Quantity
    batch: str | UnsetType = UNSET
    label: str | UnsetType = UNSET
    delivery: str | UnsetType = UNSET
    harvest: str | UnsetType = UNSET
    making: str | UnsetType = UNSET
    ready: Instant | UnsetType = UNSET
    thaw_from: Instant | UnsetType = UNSET


class SafeDish(Shape, frozen=True):
    """What a person can eat instead."""

    person: str
    dish: str
    variant: str | None


class RecipeLine(Shape, frozen=True):
    """A line of a recipe that a need comes from; numbers exact, such as `6` or `3/4`."""

    amount: Quantity
    trimming_yield: str
    scales: bool


class NeedDerivation(Shape, frozen=True):
    """The lines of a recipe that a need is the sum of (PL7)."""

    portions: str
    yields: str
    lines: list[RecipeLine]
    whole: bool


class CoverageRow(Shape, frozen=True):
    """An item of a dish; `for` is the preparation that wants it, null: the dish itself does."""

    service: str
    state: ServiceState
    course: str
    dish: str
    variant: str | None
    item: str
    for_: str | None = field(name="for")
    need: Quantity
    taken_out: Quantity
    wanted_by: Instant
    from_: list[CoveredFrom] = field(name="from")
    short: Quantity
    mend_until: Instant | None
    choose_by: Instant | None
    ways_out: list[WayOut]
    safe: list[SafeDish]
    flags: list[str]
    derivation: NeedDerivation | None
