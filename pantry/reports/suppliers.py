"""Who sells to the house, on what terms, and their calendars of the next weeks (PL2)."""

from collections.abc import Iterator
from datetime import timedelta
from operator import itemgetter

from pantry.records.read.supply import holiday_rule
from pantry.records.rows import every
from pantry.records.tables import ClosureRow, DeliveryRuleRow, SupplierRow, SupplierTermsRow
from pantry.reports.report import Row, as_data, instant, money
from pantry.reports.view import View
from pantry.rules.closed_days import reason
from pantry.rules.deliveries import PlannedDelivery, calendar_of
from pantry.rules.house_time import WEEKDAYS, local_date
from pantry.rules.supply import Supplier

AHEAD = timedelta(days=28)
"""So far the calendars are told."""


def suppliers(view: View) -> list[Row]:
    """A row for each supplier, by name, with every delivery of the next four weeks.

    What a public holiday, a closure or a sailing that was called off moves, or takes away, says so.
    """
    rows = every(view.connection, SupplierRow, house=view.id)
    return [
        _row(view, row, view.terms.get(row.id))
        for row in sorted(rows, key=lambda row: (row.name, row.id))
    ]


def _row(view: View, row: SupplierRow, terms: SupplierTermsRow | None) -> Row:
    told = terms or SupplierTermsRow(house=view.id, supplier=row.id)
    return {
        "id": row.id,
        "supplier": row.name,
        "version": row.version,
        "email": row.email,
        "minimum": money(row.minimum, view),
        "charge": money(row.charge, view),
        "may_fail": row.may_fail,
        "send_minutes": row.send_minutes,
        "fails_percent": told.fails_percent,
        "zone": told.zone,
        "order_given": told.order_given,
        "order_words": told.order_words,
        "substitution": told.substitution,
        "fallback_shop": told.fallback_shop,
        "holidays": as_data(holiday_rule(terms)),
        "deliveries": _week(view, row.id),
        "closures": _closures(view, row.id),
        "coming": sorted(_coming(view, view.suppliers[row.id]), key=itemgetter("on")),
    }


def _week(view: View, supplier: str) -> list[Row]:
    rows = every(view.connection, DeliveryRuleRow, house=view.id, supplier=supplier)
    return [
        {
            "weekday": WEEKDAYS[row.weekday],
            "time": row.at,
            "cutoff_days_before": row.cutoff_days_before,
            "cutoff_time": row.cutoff_at,
        }
        for row in sorted(rows, key=lambda row: (row.weekday, row.at))
    ]


def _closures(view: View, supplier: str) -> list[Row]:
    rows = every(view.connection, ClosureRow, house=view.id, supplier=supplier)
    return [
        {
            "date": row.on.isoformat(),
            "what": row.what,
            "instead": as_data(row.instead),
            "until": as_data(row.until),
            "reason": row.reason,
            "called_off": row.command,
        }
        for row in sorted(rows, key=lambda row: (row.on, row.what))
    ]


def _coming(view: View, supplier: Supplier) -> Iterator[Row]:
    last = view.now + AHEAD
    today, end = local_date(view.now, view.zone), local_date(last, view.zone)
    for planned in calendar_of(supplier, view.now, last, view.zone):
        delivery = planned.delivery
        comes = delivery is not None and view.now <= delivery.at <= last
        if comes or (delivery is None and today <= planned.on <= end):
            yield _planned(view, supplier, planned)


def _planned(view: View, supplier: Supplier, planned: PlannedDelivery) -> Row:
    delivery, since = planned.delivery, planned.cutoff_moved_from
    zone = supplier.zone or view.zone
    comes_on = local_date(delivery.at, zone) if delivery else None
    return {
        "on": planned.on.isoformat(),
        "comes_on": as_data(comes_on),
        "delivery": instant(delivery.at if delivery else None),
        "cutoff": instant(delivery.cutoff if delivery else None),
        "order_by": instant(delivery.order_by if delivery else None),
        "why": None if comes_on == planned.on else reason(supplier, planned.on),
        "cutoff_moved": since is not None,
        "cutoff_why": reason(supplier, since) if since else None,
    }
