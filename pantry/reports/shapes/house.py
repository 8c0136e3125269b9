"""Rows about the house itself and its people."""

from typing import Literal

from pantry.reports.shapes.written import Duration, Instant, Number, Role, Shape
from pantry.rules.amounts import UnitSystem
from pantry.rules.stock import AreaKind


class HouseArea(Shape, frozen=True):
    """A storage area; limits in degrees Celsius as decimal text."""

    id: str
    area: str
    kind: AreaKind
    min_c: str | None
    max_c: str | None


class HouseTable(Shape, frozen=True):
    """A table; rank 1 is served first."""

    id: str
    table: str
    rank: int
    usual_covers: Number | None


class HouseSupplier(Shape, frozen=True):
    """Who sells to the house, with the version on which an order is decided."""

    id: str
    supplier: str
    version: int


class ReceivingLimits(Shape, frozen=True):
    """What a food may be received at, in degrees Celsius as decimal text.

    Up to `accept_c` it is taken in, up to `refuse_c` the chef is asked, past it is refused; of what
    is `hot` the other way round. `accept` and `refuse` say the same as their sources write it.
    """

    food: str
    hot: bool
    accept_c: str
    accept: str
    accept_source: str
    refuse_c: str
    refuse: str
    refuse_source: str


class HouseLives(Shape, frozen=True):
    """How long food keeps whatever it is, by the food-safety policy (SL3, SL5).

    Vacuum packed: days, the day of packing being day 1. Thawing in the cold room takes `thaw_step`
    for every started `thaw_weight_g`; `thawing_counts` where it counts against what was left.
    `thaw_water` is how warm running drinking water may be at most to thaw in, as its source has it.
    """

    vacuum_days: Number
    thaw_weight_g: Number
    thaw_step: Duration
    thawing_counts: bool
    thaw_water: str
    thaw_water_source: str


class HouseNumbers(Shape, frozen=True):
    """How much there is yet of what a house begins with."""

    items: Number
    batches: Number
    recipes: Number
    services: Number
    suppliers: Number
    people: Number


class NumbersPrinted(Shape, frozen=True):
    """Numbers of labels that were reserved to be printed, both ends included."""

    first: int
    last: int


class HouseRow(Shape, frozen=True):
    """The house: settings, places, tables, suppliers."""

    name: str
    zone: str
    currency: str
    unit_system: UnitSystem
    decimal_mark: Literal[".", ","]
    notice: Duration
    people: Number
    areas: list[HouseArea]
    tables: list[HouseTable]
    suppliers: list[HouseSupplier]
    shops: list[str]
    numbers_printed: list[NumbersPrinted]
    receiving: list[ReceivingLimits]
    lives: HouseLives
    caution: str
    has: HouseNumbers


class PersonRow(Shape, frozen=True):
    """Who works in the house, whether they can come in, and the table they answer for, if one."""

    id: str
    name: str
    role: Role
    email: str | None
    active: bool
    answers_for: str | None
    has_password: bool
    sessions: Number


class AwaitedRow(Shape, frozen=True):
    """A device that has not handed in what it holds since the house was restored."""

    device: str
    name: str
    since: Instant
    went_on_at: Instant | None


class OneDevice(Shape, frozen=True):
    """A device of the house, with how many of its records it has not handed in (SY11)."""

    id: str
    name: str
    enrolled_at: Instant
    heard_at: Instant | None
    unsent: int
    people: list[str]
    locked: bool
    revoked: bool
