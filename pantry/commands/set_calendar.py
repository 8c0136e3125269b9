"""Set a supplier's calendar: its deliveries, cut-offs and closures as they are from now on."""

from datetime import time, timedelta
from typing import Any

from pantry.commands import base, naming
from pantry.commands.decisions import SetCalendar
from pantry.commands.given import Given
from pantry.commands.parts import ClosurePart, DeliveryRulePart
from pantry.records.books import Books
from pantry.records.read import menu, supply
from pantry.records.read.markets import market
from pantry.records.rows import add, among, change, every, find, remove
from pantry.records.tables import ClosureRow, DeliveryRuleRow, NeedRow, SupplierTermsRow
from pantry.refusals import Refusal, UnreadableInput, declare
from pantry.rules.deliveries import refuse_endless, refuse_late_cutoff
from pantry.rules.house_time import WEEKDAYS, zone
from pantry.rules.public_holidays import check_country

WEEKDAY_UNREADABLE = declare("weekday_unreadable", "The weekday has no such name.")
WALL_TIME_UNREADABLE = declare("wall_time_unreadable", "The time is not 24-hour local time.")

CALENDAR_TWICE = declare("calendar_twice", "A delivery or closure is given twice.")


def set_calendar(books: Books, given: Given[SetCalendar]) -> None:
    """Replace a supplier's deliveries, closures or both, and reckon deadlines anew.

    Raises:
        NotThere: `supplier_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `weekday_unreadable`, `wall_time_unreadable`, `date_unreadable`,
            `calendar_twice`, `cutoff_after_delivery`, `closure_ends_first`, `country_unknown`,
            `zone_unknown`.
    """
    body = given.body
    row = naming.supplier(books, body.supplier)
    base.check(books, given, row, row.name)
    if body.deliveries is not None:
        rules = [_rule(books, row.id, part) for part in body.deliveries]
        _refuse_twice([(rule.weekday, rule.at) for rule in rules], "body.deliveries")
        remove(books.connection, DeliveryRuleRow, house=books.id, supplier=row.id)
        add(books.connection, *rules)
    if body.closures is not None:
        closures = [_closure(books, row.id, part) for part in body.closures]
        _refuse_twice([(closure.on, closure.what) for closure in closures], "body.closures")
        stood = every(books.connection, ClosureRow, house=books.id, supplier=row.id)
        called_off = {(each.on, each.what): each.command for each in stood}
        for closure in closures:
            closure.command = called_off.get((closure.on, closure.what))
        remove(books.connection, ClosureRow, house=books.id, supplier=row.id)
        add(books.connection, *closures)
    _keep_terms(books, row.id, body)
    base.next_version(books, row, "supplier")
    reckon_deadlines(books, row.id)


def _keep_terms(books: Books, supplier: str, body: SetCalendar) -> None:
    """Keep what the body says of the calendar's zone and of its holidays."""
    found: dict[str, Any] = {}
    if body.zone is not None:
        found["zone"] = zone(body.zone).key if body.zone else None
    part = body.holidays
    if part is not None:
        try:
            found |= holiday_columns(part.country, part.subdivision)
        except Refusal as refusal:
            raise refusal.at("body.holidays.country") from refusal
        found |= {"holiday_delivery": part.delivery, "holiday_orders": part.orders_taken}
    key: dict[str, Any] = {"house": books.id, "supplier": supplier}
    if found and find(books.connection, SupplierTermsRow, **key):
        change(books.connection, SupplierTermsRow, key, **found)
    elif found:
        add(books.connection, SupplierTermsRow(**key, **found))


def holiday_columns(country: str | None, subdivision: str | None) -> dict[str, str | None]:
    """Whose public holidays are kept, as it is stored, or `country_unknown`."""
    country = (country or "").strip().upper() or None
    subdivision = ((subdivision or "").strip().upper() or None) if country else None
    if country:
        check_country(country, subdivision)
    return {"country": country, "subdivision": subdivision}


def _refuse_twice(keys: list[tuple[Any, Any]], field: str) -> None:
    twice = next((key for number, key in enumerate(keys) if key in keys[:number]), None)
    if twice is not None:
        raise UnreadableInput(
            CALENDAR_TWICE,
            f"The same one is given twice: {twice[0]}, {twice[1]}.",
            "Give each delivery and each closure once.",
            value=f"{twice[0]}, {twice[1]}",
            field=field,
        )


def weekday(written: str, field: str) -> int:
    """0 for Monday, from an English name or its first three letters, or `weekday_unreadable`."""
    plain = written.strip().lower()
    for number, name in enumerate(WEEKDAYS):
        if plain in (name, name[:3]):
            return number
    raise UnreadableInput(
        WEEKDAY_UNREADABLE,
        f"{written!r} is no weekday.",
        "Write Monday, Tuesday, ... or mon, tue, ...",
        value=written,
        field=field,
    )


def wall_time(written: str, field: str) -> str:
    """`HH:MM`, or `wall_time_unreadable`."""
    try:
        return time.fromisoformat(written.strip().rjust(5, "0")).strftime("%H:%M")
    except ValueError as error:
        raise UnreadableInput(
            WALL_TIME_UNREADABLE,
            f"{written!r} is no time of day.",
            "Write 24-hour local time, such as 22:00.",
            value=written,
            field=field,
        ) from error


def reckon_deadlines(books: Books, supplier: str) -> None:
    """Work out anew the last possible order-by of every need of what a supplier sells."""
    packs = supply.packs(books.connection, books.id)
    items = sorted({pack.item for pack in packs if pack.supplier == supplier})
    rows = among(books.connection, NeedRow, books.id, "item", items)
    if not rows:
        return
    offered = market(books, items, max(row.until for row in rows) + timedelta(days=1))
    for row in rows:
        need = menu.need(row)
        last = offered.last_order_by(need.item, need.wanted_by, need.until)
        if last != row.last_order_by:
            where = {"house": books.id, "id": row.id}
            change(books.connection, NeedRow, where, last_order_by=last)
            books.touched.add(row.item)


def _rule(books: Books, supplier: str, part: DeliveryRulePart) -> DeliveryRuleRow:
    row = DeliveryRuleRow(
        house=books.id,
        supplier=supplier,
        weekday=weekday(part.weekday, "body.deliveries.weekday"),
        at=wall_time(part.time, "body.deliveries.time"),
        cutoff_days_before=part.cutoff_days_before,
        cutoff_at=wall_time(part.cutoff_time, "body.deliveries.cutoff_time"),
    )
    try:
        refuse_late_cutoff(supply.delivery_rule(row))
    except Refusal as refusal:
        raise refusal.at("body.deliveries.cutoff_time") from refusal
    return row


def _closure(books: Books, supplier: str, part: ClosurePart) -> ClosureRow:
    instead, until = part.instead, part.until
    row = ClosureRow(
        house=books.id,
        supplier=supplier,
        on=naming.day(part.date, "body.closures.date"),
        what=part.what,
        instead=None if instead is None else naming.day(instead, "body.closures.instead"),
        until=None if until is None else naming.day(until, "body.closures.until"),
        reason=(part.reason or "").strip() or None,
    )
    try:
        refuse_endless(supply.closure(row))
    except Refusal as refusal:
        raise refusal.at("body.closures.until") from refusal
    return row
