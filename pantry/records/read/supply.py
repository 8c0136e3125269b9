"""Suppliers, packs, open orders and harvests, as the rules see them."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, and_, bindparam, select

from pantry.records.rows import among, every, made, table
from pantry.records.tables import (
    ClosureRow,
    DeliveryRuleRow,
    HarvestRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    SupplierRow,
    SupplierTermsRow,
)
from pantry.rules.fefo import Source
from pantry.rules.house_time import end_of_day, instant_of, last_day, local_date
from pantry.rules.public_holidays import HolidayDelivery, HolidayRule
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Pack, Supplier

_LINE, _ORDER = table(OrderLineRow), table(OrderRow)
_OPEN_LINES = (
    select(_LINE)
    .join(_ORDER, and_(_ORDER.c.house == _LINE.c.house, _ORDER.c.id == _LINE.c.purchase_order))
    .where(_LINE.c.house == bindparam("house"), _ORDER.c.state == "open", ~_LINE.c.closed)
    .order_by(_LINE.c.purchase_order, _LINE.c.pack)
)
_OPEN_LINES_OF = _OPEN_LINES.where(_LINE.c.item.in_(bindparam("items", expanding=True)))

GATHERED_AT = time(12, 0)
"""What the garden gives on a day is counted from noon, local time; common practice, no source."""


def suppliers(connection: Connection, house: str) -> dict[str, Supplier]:
    """Every supplier with its calendar, by id."""
    rules: dict[str, list[DeliveryRule]] = {}
    for row in every(connection, DeliveryRuleRow, house=house):
        rules.setdefault(row.supplier, []).append(delivery_rule(row))
    closures: dict[str, list[Closure]] = {}
    for closed in every(connection, ClosureRow, house=house):
        closures.setdefault(closed.supplier, []).append(closure(closed))
    terms = {row.supplier: row for row in every(connection, SupplierTermsRow, house=house)}
    return {
        row.id: _supplier(row, terms.get(row.id), rules.get(row.id, []), closures.get(row.id, []))
        for row in every(connection, SupplierRow, house=house)
    }


def delivery_rule(row: DeliveryRuleRow) -> DeliveryRule:
    """One delivery of a supplier's week."""
    return DeliveryRule(
        weekday=row.weekday,
        at=time.fromisoformat(row.at),
        cutoff_days_before=row.cutoff_days_before,
        cutoff_at=time.fromisoformat(row.cutoff_at),
    )


def closure(row: ClosureRow) -> Closure:
    """One exception of a supplier's calendar."""
    return Closure(row.on, ClosureKind(row.what), row.instead, row.until, row.reason)


def holiday_rule(row: SupplierTermsRow | None) -> HolidayRule | None:
    """The public holidays a supplier keeps; None: none."""
    if row is None or row.country is None:
        return None
    delivery = HolidayDelivery(row.holiday_delivery)
    return HolidayRule(row.country, row.subdivision, delivery, row.holiday_orders)


def _supplier(
    row: SupplierRow,
    terms: SupplierTermsRow | None,
    rules: list[DeliveryRule],
    closures: list[Closure],
) -> Supplier:
    return Supplier(
        id=row.id,
        name=row.name,
        rules=tuple(rules),
        closures=tuple(closures),
        minimum=row.minimum,
        charge=row.charge,
        may_fail=row.may_fail,
        send=timedelta(minutes=row.send_minutes),
        zone=ZoneInfo(terms.zone) if terms and terms.zone else None,
        holidays=holiday_rule(terms),
    )


def packs(connection: Connection, house: str, items: Sequence[str] | None = None) -> list[Pack]:
    """The packs of these items, or all."""
    if items is None:
        rows = every(connection, PackRow, house=house)
    else:
        rows = among(connection, PackRow, house, "item", items)
    return [pack(row) for row in rows]


def pack(row: PackRow) -> Pack:
    """One pack."""
    return Pack(
        id=row.id,
        supplier=row.supplier,
        item=row.item,
        name=row.name,
        quantity=row.quantity,
        sealed_quantity=row.sealed_quantity,
        price=row.price,
        life_on_arrival_days=row.life_on_arrival_days,
        gtin=row.gtin,
    )


def on_order(
    connection: Connection,
    house: str,
    zone: ZoneInfo,
    now: datetime,
    items: Sequence[str] | None = None,
) -> list[Source]:
    """What open orders are still to bring, line by line; its life from the pack's life on arrival.

    What was due and has come in part is short, and what has not come by the end of its day is not
    coming: neither is waited for. A line's source id is `ORDER|PACK`.
    """
    lines = _open_lines(connection, house, items)
    if not lines:
        return []
    named = {line.purchase_order for line in lines}
    orders = {row.id: row for row in among(connection, OrderRow, house, "id", sorted(named))}
    lives = {row.id: row for row in among(connection, PackRow, house, "id", _packs_of(lines))}
    return [
        _ordered(orders[line.purchase_order], line, lives.get(line.pack), zone)
        for line in lines
        if _is_awaited(orders[line.purchase_order], line, zone, now)
    ]


def _open_lines(
    connection: Connection, house: str, items: Sequence[str] | None
) -> list[OrderLineRow]:
    """The lines of open orders of which something is still to come, of these items or of all."""
    if items is None:
        result = connection.execute(_OPEN_LINES, {"house": house})
    else:
        result = connection.execute(_OPEN_LINES_OF, {"house": house, "items": list(items)})
    return made(OrderLineRow, result)


def _is_awaited(order: OrderRow, line: OrderLineRow, zone: ZoneInfo, now: datetime) -> bool:
    if line.quantity <= line.received:
        return False
    if order.delivery_at > now:
        return True
    of_today = local_date(order.delivery_at, zone) == local_date(now, zone)
    return of_today and not line.received


def _packs_of(lines: list[OrderLineRow]) -> list[str]:
    return sorted({line.pack for line in lines})


def _ordered(order: OrderRow, line: OrderLineRow, row: PackRow | None, zone: ZoneInfo) -> Source:
    life = row.life_on_arrival_days if row else None
    return Source(
        kind="delivery",
        id=f"{order.id}|{line.pack}",
        item=line.item,
        quantity=line.quantity - line.received,
        usable_until=_life_end(order.delivery_at, life, zone),
        good_until=None,
        since=order.delivery_at,
        ready=order.delivery_at,
        sealed_quantity=row.sealed_quantity if row else 0,
    )


def _life_end(arrives: datetime, life: int | None, zone: ZoneInfo) -> datetime | None:
    if life is None:
        return None
    return end_of_day(last_day(local_date(arrives, zone), life), zone)


def harvests(connection: Connection, house: str, zone: ZoneInfo, today: date) -> list[Source]:
    """What the garden is still expected to give, in equal parts on each day that is left.

    A part's source id is `ITEM|FIRST DATE|DAY`.
    """
    found: list[Source] = []
    for row in every(connection, HarvestRow, house=house):
        if row.last >= today and row.quantity > row.gathered:
            found.extend(_parts(row, max(row.first, today), zone))
    return found


def _parts(row: HarvestRow, first: date, zone: ZoneInfo) -> list[Source]:
    days = (row.last - first).days + 1
    share, rest = divmod(row.quantity - row.gathered, days)
    parts = []
    for number in range(days):
        day = first + timedelta(days=number)
        quantity = share + (rest if number == days - 1 else 0)
        if quantity:
            ready = instant_of(day, GATHERED_AT, zone)
            name = f"{row.item}|{row.first.isoformat()}|{day.isoformat()}"
            parts.append(
                Source("harvest", name, row.item, quantity, None, None, ready, ready=ready)
            )
    return parts
