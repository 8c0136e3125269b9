"""Rows about cold places, what cools, probes and cleaning; temperatures in degrees Celsius."""

from typing import Literal

from pantry.reports.shapes.written import Day, Instant, Number, Quantity, Shape
from pantry.rules.cold_places import Warmth
from pantry.rules.safety import Verdict

Cold = Literal["chilled", "frozen"]


class PlaceReading(Shape, frozen=True):
    """A temperature of a place, how it stood to the limits then, and what was done about it."""

    command: str
    at: Instant
    temperature_c: str
    warmth: Warmth
    done: str | None
    note: str | None
    person: str


class RoundOf(Shape, frozen=True):
    """A round of a day, the `number`th of so many; `taken`: the place was read in it."""

    day: Day
    number: Number
    of: Number
    start: Instant
    end: Instant
    taken: bool


class ColdPlaceRow(Shape, frozen=True):
    """A chilled or frozen place; `failed`: what stood there waits for the chef.

    Not warmer than `max_c`, which is the stricter of the house's own and its policy's. One that
    was too warm is read again after `again_minutes`.
    """

    area_id: str
    area: str
    kind: Cold
    min_c: str | None
    max_c: str
    max_source: str
    again_minutes: Number
    failed: bool
    last: PlaceReading | None
    readings: list[PlaceReading]
    rounds: list[RoundOf]
    caution: str


class FailedPlaceRow(Shape, frozen=True):
    """A batch on hold since its place failed, with what the policy says of it.

    `held_for`: why any of the batch is on hold besides, which keeping it would end, too. `clear`:
    nothing speaks against keeping it together with others that are.
    """

    batch: str
    label: str
    item: str
    area_id: str
    area: str
    on_hold: Quantity
    held_for: list[str]
    since: Instant
    highest_c: str
    verdict: Verdict
    clear: bool
    reason: str
    source: str
    usable_until: Instant | None
    caution: str


class CoolingReading(Shape, frozen=True):
    """A temperature of a batch that cools."""

    command: str
    at: Instant
    temperature_c: str
    person: str


class CoolingStage(Shape, frozen=True):
    """What must be reached within how many minutes of leaving `from_c`."""

    to_c: str
    to: str
    within_minutes: Number
    source: str


class CoolingRow(Shape, frozen=True):
    """A batch that cools: at `to_c` by `by` while it runs; `unread`: nobody has measured it."""

    batch: str
    label: str
    item: str
    outcome: Literal["unread", "running", "passed", "failed"]
    stage: Number
    by: Instant | None
    to_c: str | None
    reason: str | None
    readings: list[CoolingReading]
    from_c: str
    stages: list[CoolingStage]
    caution: str


class CheckRow(Shape, frozen=True):
    """A probe that was checked, with what it showed, or something that was cleaned."""

    kind: Literal["probe", "cleaning"]
    what: str
    area: str | None
    ice_c: str | None
    boiling_c: str | None
    is_right: bool | None
    at: Instant
    person: str
    command: str
