"""Rows of the suppliers and their calendars."""

from typing import Literal

from pantry.reports.shapes.written import Day, Instant, Money, Number, Shape
from pantry.rules.public_holidays import HolidayDelivery
from pantry.rules.supply import OrderGiven, Substitution


class WeeklyDelivery(Shape, frozen=True):
    """One delivery of a supplier's week, in local wall time."""

    weekday: str
    time: str
    cutoff_days_before: Number
    cutoff_time: str


class KnownClosure(Shape, frozen=True):
    """An exception of the calendar, through `until`; `called_off` by hand, as a boat is."""

    date: Day
    what: Literal["no_delivery", "no_orders"]
    instead: Day | None
    until: Day | None
    reason: str | None
    called_off: str | None


class KeptHolidays(Shape, frozen=True):
    """Whose public holidays are kept, and what becomes of a delivery on one."""

    country: str
    subdivision: str | None
    delivery: HolidayDelivery
    orders_taken: bool


class PlannedDelivery(Shape, frozen=True):
    """A delivery of the next weeks; what is null of it falls away.

    `on` is the day it would come on, `comes_on` the day it comes on, both of the supplier's zone;
    `why` is what moves it or takes it away, as far as somebody said. `cutoff_moved`: its cut-off
    would be on a day without orders, `cutoff_why` says which.
    """

    on: Day
    comes_on: Day | None
    delivery: Instant | None
    cutoff: Instant | None
    order_by: Instant | None
    why: str | None
    cutoff_moved: bool
    cutoff_why: str | None


class SupplierRow(Shape, frozen=True):
    """A supplier: terms, calendar, and what comes of it in the next weeks.

    `zone` null: its calendar is in the house's wall time.
    """

    id: str
    supplier: str
    version: Number
    email: str | None
    minimum: Money
    charge: Money
    may_fail: bool
    send_minutes: Number
    fails_percent: Number | None
    zone: str | None
    order_given: OrderGiven | None
    order_words: str | None
    substitution: Substitution | None
    fallback_shop: str | None
    holidays: KeptHolidays | None
    deliveries: list[WeeklyDelivery]
    closures: list[KnownClosure]
    coming: list[PlannedDelivery]


class Incident(Shape, frozen=True):
    """Where a supplier did not keep to what was ordered.

    `told`: how late as a duration, how warm in Celsius, how many days or packs of how many, why it
    was refused or called off; null where there is nothing to tell.
    """

    what: Literal["late", "short", "warm", "refused", "short_dated", "said_short", "called_off"]
    at: Instant
    order: str | None
    item: str | None
    told: str | None


class OwedCredits(Shape, frozen=True):
    """What a supplier owes for what did not come; `oldest`: since when the first is open."""

    count: Number
    value: Money
    oldest: Instant | None


class SupplierRecordRow(Shape, frozen=True):
    """How a supplier kept to what was ordered since then; see `incidents` for what did not."""

    supplier: str
    supplier_id: str
    since: Day
    deliveries: Number
    in_time: Number
    whole: Number
    lines: Number
    whole_lines: Number
    measured: Number
    dated: Number
    dearer: Number
    cheaper: Number
    incidents: list[Incident]
    credits: OwedCredits
