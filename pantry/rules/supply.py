"""Where food comes from: suppliers, their calendars and packs, open orders, the garden."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from typing import Literal
from zoneinfo import ZoneInfo

from pantry.rules.house_time import Span
from pantry.rules.public_holidays import HolidayRule

HowSent = Literal["email", "telephone", "message", "by_hand", "portal"]
"""How an order reached its supplier."""

OrderGiven = Literal["telephone", "email", "portal", "by_hand"]
"""How a supplier takes orders."""

Substitution = Literal["ask_first", "never", "allowed"]
"""What a supplier may do where something is not to be had."""


@dataclass(frozen=True, slots=True)
class DeliveryRule:
    """One delivery of a supplier's week, in local wall time (PL2).

    Attributes:
        weekday: 0 is Monday.
        at: when the goods are in the house.
        cutoff_days_before: whole days before the delivery's date on which the cut-off falls.
        cutoff_at: local wall time of the cut-off.
    """

    weekday: int
    at: time
    cutoff_days_before: int
    cutoff_at: time


class ClosureKind(StrEnum):
    """What does not happen on a date."""

    NO_DELIVERY = "no_delivery"
    NO_ORDERS = "no_orders"


@dataclass(frozen=True, slots=True)
class Closure:
    """An exception of a supplier's calendar.

    `no_delivery`: the delivery of that date does not come, or comes on `instead`. `no_orders`:
    nobody takes orders on that date; a cut-off on it moves to the same time on `instead`, or else
    to the last day before on which orders are taken. It holds for every day through `until`, as out
    of season (None: the one day); `reason` is in the words of whoever said it.
    """

    on: date
    kind: ClosureKind
    instead: date | None = None
    until: date | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class Supplier:
    """Who sells, when and on what terms; money in minor units of the house's currency.

    Attributes:
        minimum: the least an order may come to; 0: none.
        charge: what a delivery costs.
        may_fail: a delivery may fail to come (a boat), so that one delivery earlier is planned.
        send: how long somebody needs to send the order; order-by is the cut-off less this.
        zone: in whose wall time the calendar is; None: the house's.
        holidays: the public holidays it keeps; None: none.
    """

    id: str
    name: str
    rules: tuple[DeliveryRule, ...]
    closures: tuple[Closure, ...] = ()
    minimum: int = 0
    charge: int = 0
    may_fail: bool = False
    send: timedelta = timedelta(0)
    zone: ZoneInfo | None = None
    holidays: HolidayRule | None = None


@dataclass(frozen=True, slots=True)
class Pack:
    """An item as a supplier sells it.

    Attributes:
        quantity: what one pack holds, in thousandths of the item's base unit.
        sealed_quantity: what one unopened unit inside it holds (one bottle of the case).
        price: minor units for one pack.
        life_on_arrival_days: the day of arrival being day 1; None: no limit.
    """

    id: str
    supplier: str
    item: str
    name: str
    quantity: int
    sealed_quantity: int
    price: int
    life_on_arrival_days: int | None = None
    gtin: str | None = None


@dataclass(frozen=True, slots=True)
class Expected:
    """Something on its way: a line of an open order, or a harvest estimate.

    Attributes:
        kind: `delivery` or `harvest`.
        ready: when it is in the house.
        usable_until: the last instant it may be used once here; None: no limit.
    """

    kind: str
    id: str
    item: str
    quantity: int
    ready: datetime
    usable_until: datetime | None
    sealed_quantity: int | None = None


@dataclass(frozen=True, slots=True)
class House:
    """The house's own settings.

    Attributes:
        notice: how long before a service the household chooses.
        warning: how long before order-by an alert opens.
        last_call: how long before order-by the last call begins.
        receiving_margin: how long before an ingredient is wanted its delivery must be in.
        people: how many people are in the house, for daily use (RQ5).
        decimal_mark: `.` or `,`, where an amount can be read either way (MS2).
    """

    id: str
    name: str
    zone: str
    currency: str
    unit_system: str
    notice: Span
    warning: Span
    last_call: Span
    receiving_margin: Span
    policy: str
    allergen_list: str
    people: int = 0
    decimal_mark: str = "."
