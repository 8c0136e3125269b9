"""The sheets `suppliers`, `deliveries`, `closures` and `packs`: who sells what, and when."""

from dataclasses import replace
from datetime import time, timedelta

from pantry.commands.book import amounts, cells
from pantry.commands.book.items import product_number
from pantry.commands.book.pack_ladder import read_ladder
from pantry.commands.book.reading import Line, Reading
from pantry.commands.book.terms import own_holidays, own_zone, read_terms
from pantry.commands.set_calendar import wall_time, weekday
from pantry.records.slugs import slug
from pantry.records.tables import (
    ClosureRow,
    DeliveryRuleRow,
    PackRow,
    SupplierRow,
    SupplierTermsRow,
)
from pantry.refusals import Refusal
from pantry.rules.deliveries import refuse_endless, refuse_late_cutoff
from pantry.rules.pack_words import words_of
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Pack, Supplier

_DECIDE_CUTOFF = ("time", "cutoff_days_before", "cutoff_time")
_DAYS_BEFORE = cells.whole(0, 366)


def read_suppliers(reading: Reading) -> None:
    """Every row of `suppliers`; a known one keeps its calendar unless the book has one."""
    for line in reading.lines("suppliers"):
        identity = line.name("supplier", reading.suppliers)
        stands = reading.known.suppliers.get(identity)
        terms = read_terms(line)
        supplier = Supplier(
            id=identity,
            name=line.text("supplier"),
            rules=stands.rules if stands else (),
            closures=stands.closures if stands else (),
            minimum=amounts.money(line, "minimum"),
            charge=amounts.money(line, "charge"),
            may_fail=line.says("may_fail"),
            send=timedelta(minutes=line.read("send_minutes", cells.whole(), 0)),
            zone=own_zone(terms, stands.zone if stands else None),
            holidays=own_holidays(terms, stands.holidays if stands else None),
        )
        reading.suppliers.things[identity] = supplier
        reading.rows.append(_supplier_row(line, supplier))
        if terms:
            house = reading.house.id
            reading.rows.append(SupplierTermsRow(house=house, supplier=identity, **terms))


def _supplier_row(line: Line, supplier: Supplier) -> SupplierRow:
    return SupplierRow(
        house=line.reading.house.id,
        id=supplier.id,
        name=supplier.name,
        email=line.text("email") or None,
        minimum=supplier.minimum,
        charge=supplier.charge,
        may_fail=supplier.may_fail,
        send_minutes=int(supplier.send.total_seconds()) // 60,
    )


def read_deliveries(reading: Reading) -> None:
    """Every row of `deliveries`; those of a supplier take the place of what the house had."""
    rules: dict[str, list[DeliveryRule]] = {}
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("deliveries"):
        supplier = line.refer("supplier", reading.suppliers)
        rule = _rule(line)
        line.once(seen, supplier, str(rule.weekday), line.text("time"))
        rules.setdefault(supplier, []).append(rule)
        reading.rows.append(
            DeliveryRuleRow(
                house=reading.house.id,
                supplier=supplier,
                weekday=rule.weekday,
                at=f"{rule.at:%H:%M}",
                cutoff_days_before=rule.cutoff_days_before,
                cutoff_at=f"{rule.cutoff_at:%H:%M}",
            )
        )
    known = reading.suppliers.things
    for supplier, found in rules.items():
        if supplier in known:
            known[supplier] = replace(known[supplier], rules=tuple(found))


def _rule(line: Line) -> DeliveryRule:
    rule = DeliveryRule(
        weekday=line.read("weekday", lambda text: weekday(text, ""), 0),
        at=clock(line, "time"),
        cutoff_days_before=line.read("cutoff_days_before", _DAYS_BEFORE, 0),
        cutoff_at=clock(line, "cutoff_time"),
    )
    if line.faulty or not all(line.text(column) for column in _DECIDE_CUTOFF):
        return rule
    try:
        refuse_late_cutoff(rule)
    except Refusal as refusal:
        line.refused("cutoff_time", refusal)
    return rule


def clock(line: Line, column: str) -> time:
    """The 24-hour local time in a cell."""
    return line.read(column, lambda text: time.fromisoformat(wall_time(text, "")), time())


def read_closures(reading: Reading) -> None:
    """Every row of `closures`; those of a supplier take the place of what the house had."""
    closures: dict[str, list[Closure]] = {}
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("closures"):
        supplier = line.refer("supplier", reading.suppliers)
        what = line.read("what", cells.one_of(*ClosureKind), ClosureKind.NO_DELIVERY.value)
        on = line.read("date", cells.day, reading.at.date())
        instead = line.read("instead", cells.day, None)
        line.once(seen, supplier, line.text("date"), what)
        until = line.read("to", cells.day, None)
        reason = line.text("reason") or None
        closure = Closure(on, ClosureKind(what), instead, until, reason)
        if not line.faulty:
            _refuse_endless(line, closure)
        closures.setdefault(supplier, []).append(closure)
        reading.rows.append(
            ClosureRow(
                house=reading.house.id,
                supplier=supplier,
                on=on,
                what=what,
                instead=instead,
                until=until,
                reason=reason,
            )
        )
    known = reading.suppliers.things
    for supplier, found in closures.items():
        if supplier in known:
            known[supplier] = replace(known[supplier], closures=tuple(found))


def _refuse_endless(line: Line, closure: Closure) -> None:
    try:
        refuse_endless(closure)
    except Refusal as refusal:
        line.refused("to", refusal)


def read_packs(reading: Reading) -> None:
    """Every row of `packs`; afterwards it is known how much a tin or bunch of an item is."""
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("packs"):
        supplier = line.refer("supplier", reading.suppliers)
        item = line.refer("item", reading.items)
        name = line.identity("pack")
        line.once(seen, supplier, item, name, column="pack")
        pack = _pack(line, supplier, item, name)
        reading.packs[pack.id] = pack
        reading.rows.append(_pack_row(reading, pack))
    reading.words |= words_of(reading.packs.values())


def _pack(line: Line, supplier: str, item: str, name: str) -> Pack:
    price = amounts.money(line, "price")
    gtin = product_number(line, item)
    life = line.read("life_on_arrival_days", cells.whole(1), None)
    thing = line.reading.items.things.get(item)
    ladder = read_ladder(line, thing) if thing else None
    return Pack(
        id=f"{supplier}/{item}/{name}",
        supplier=supplier,
        item=item,
        name=line.text("pack"),
        quantity=ladder.quantity if ladder else 0,
        sealed_quantity=ladder.sealed_quantity if ladder else 0,
        price=price,
        life_on_arrival_days=life,
        gtin=gtin,
    )


def _pack_row(reading: Reading, pack: Pack) -> PackRow:
    return PackRow(
        house=reading.house.id,
        id=pack.id,
        supplier=pack.supplier,
        item=pack.item,
        name=pack.name,
        quantity=pack.quantity,
        sealed_quantity=pack.sealed_quantity,
        price=pack.price,
        gtin=pack.gtin,
        life_on_arrival_days=pack.life_on_arrival_days,
    )


def pack_named(reading: Reading, supplier: str, item: str, name: str) -> Pack | None:
    """The pack of that name in which a supplier sells an item."""
    return reading.packs.get(f"{supplier}/{item}/{slug(name)}")
