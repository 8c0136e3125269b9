"""Rows of what the kitchen makes on which day."""

from msgspec import UNSET, UnsetType, field

from pantry.reports.shapes.conflicts import NamelessConflict
from pantry.reports.shapes.written import Day, Exact, Instant, Quantity, Shape


class PreparationFrom(Shape, frozen=True):
    """What goes into it: a batch that stands in an area, or what is to come or to be made."""

    quantity: Quantity
    area: str | None
    batch: str | UnsetType = UNSET
    label: str | UnsetType = UNSET
    delivery: str | UnsetType = UNSET
    harvest: str | UnsetType = UNSET
    making: str | UnsetType = UNSET
    ready: Instant | UnsetType = UNSET
    thaw_from: Instant | UnsetType = UNSET


class PreparationLine(Shape, frozen=True):
    """So much of an item goes into it, from where, and what of it is short."""

    item: str
    item_id: str
    need: Quantity
    from_: list[PreparationFrom] = field(name="from")
    short: Quantity


class PreparationConflict(NamelessConflict, frozen=True):
    """Who at the table cannot eat the dish that it is for, in which variant."""

    dish: str
    variant: str | None


class PreparationFor(Shape, frozen=True):
    """What so much of it is for; `into` is what else is made of it for that dish."""

    service: str
    dish: str
    into: str | None
    quantity: Quantity
    conflicts: list[PreparationConflict]


class Prepared(Shape, frozen=True):
    """That it was made: by which command, as which batch."""

    command: str
    batch: str
    label: str


class PreparationRow(Shape, frozen=True):
    """A preparation that is to be made by `start`, or that was made today (`done`).

    `recipes` is how many times its recipe that is; `there` what stands of it already and may be
    used; `late`: it is not ready in time any more. `is_cooked`: how it cools is written down.
    """

    making: str | None
    day: Day
    start: Instant
    ready: Instant
    late: bool
    recipe: str
    preparation: str
    item: str
    item_id: str
    quantity: Quantity
    recipes: Exact
    full_recipes: bool
    is_cooked: bool
    area: str
    usable_until: Instant | None
    there: Quantity
    wanted: list[PreparationFor]
    lines: list[PreparationLine]
    method: str
    contains: list[str]
    may_contain: list[str]
    unknown: list[str]
    done: Prepared | None
