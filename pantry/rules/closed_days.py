"""The days on which a supplier does not deliver or takes no orders, and why (PL2)."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from pantry.rules.house_time import days_of
from pantry.rules.public_holidays import moved, names
from pantry.rules.supply import ClosureKind, Supplier


@dataclass(frozen=True, slots=True)
class ClosedDays:
    """What a supplier's calendar leaves out.

    Attributes:
        no_delivery: by date, when its delivery comes instead; None: not at all.
        no_orders: by date, where a cut-off on it moves; None: to the last day with orders before.
    """

    no_delivery: Mapping[date, date | None]
    no_orders: Mapping[date, date | None]


def closed_days(supplier: Supplier, first: date, last: date) -> ClosedDays:
    """The closed days around two dates; what somebody entered goes before a public holiday."""
    no_delivery: dict[date, date | None] = {}
    no_orders: dict[date, date | None] = {}
    rule = supplier.holidays
    if rule is not None:
        weekdays = frozenset(each.weekday for each in supplier.rules)
        no_delivery.update(moved(rule, weekdays, first.year - 1, last.year + 1))
        if not rule.orders_taken:
            no_orders.update(dict.fromkeys(no_delivery))
    for closure in supplier.closures:
        for day in days_of(closure.on, closure.until or closure.on):
            closed = no_delivery if closure.kind is ClosureKind.NO_DELIVERY else no_orders
            closed[day] = closure.instead
    return ClosedDays(no_delivery, no_orders)


def reason(supplier: Supplier, day: date) -> str | None:
    """Why a day is closed: what somebody wrote, or the holiday's name; None: nobody said."""
    for closure in supplier.closures:
        if closure.on <= day <= (closure.until or closure.on):
            return closure.reason
    rule = supplier.holidays
    return names(rule.country, rule.subdivision, day.year).get(day) if rule else None
