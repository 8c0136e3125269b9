"""What suppliers bring of themselves, and which of them have to be told that nobody is here."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise

from pantry.records.rows import every, grouped, one
from pantry.records.tables import (
    OrderBeforeRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    StandingDeliveryRow,
    StandingLineRow,
    StandingOrderRow,
    SupplierRow,
)
from pantry.reports.presence import people
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.deliveries import Delivery, coming
from pantry.rules.house_time import WEEKDAYS, local_date
from pantry.rules.standing_orders import LOOK_AHEAD, EmptyHouse, brought, comes_to_nobody

_LONGER = LOOK_AHEAD + timedelta(days=14)
"""So far it is looked what comes next after the last order that is written."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A delivery that comes of itself, and would be for nobody: its supplier has to be told."""

    order: OrderRow
    delivery: Delivery
    nobody: EmptyHouse


def standing_orders(view: View) -> list[Row]:
    """A row for each supplier with a standing order, by name: its lines, and what comes of it."""
    found = _Found(view)
    stops = {stop.order.id: stop for stop in found.stops()}
    rows = [found.row(standing, stops) for standing in found.standing]
    return sorted(rows, key=lambda row: (row["supplier"], row["supplier_id"]))


def stops(view: View) -> list[Stop]:
    """The deliveries of standing orders that have to be stopped, the nearest first."""
    return sorted(_Found(view).stops(), key=lambda stop: (stop.delivery.at, stop.order.id))


def standing_as_they_are(view: View) -> frozenset[str]:
    """Ids of orders that a standing order wrote and nobody amended: their suppliers know them."""
    written = every(view.connection, StandingDeliveryRow, house=view.id)
    if not written:
        return frozenset()
    before = every(view.connection, OrderBeforeRow, house=view.id, kind="amend_order")
    amended = {row.purchase_order for row in before}
    return frozenset(row.purchase_order for row in written) - amended


class _Found:
    """What is kept of standing orders, read once."""

    def __init__(self, view: View) -> None:
        self.view = view
        connection, house = view.connection, view.id
        self.standing = every(connection, StandingOrderRow, house=house)
        self.lines = grouped(every(connection, StandingLineRow, house=house), _supplier_of)
        self.written = grouped(every(connection, StandingDeliveryRow, house=house), _supplier_of)

    @cached_property
    def orders(self) -> dict[str, OrderRow]:
        """Open orders, by id."""
        rows = every(self.view.connection, OrderRow, house=self.view.id, state="open")
        return {row.id: row for row in rows}

    @cached_property
    def people(self) -> dict[date, int]:
        """How many are in the house on the days on which it is not the usual number."""
        return people(self.view)

    def people_on(self, day: date) -> int:
        """How many are in the house on a day."""
        return self.people.get(day, self.view.house.people)

    def stops(self) -> Iterator[Stop]:
        """Where the house has never said who is in it, nobody is told that it is empty."""
        if not self.view.house.people:
            return
        for standing in self.standing:
            if not standing.when_empty:
                yield from self._stops_of(standing.supplier)

    def _stops_of(self, supplier: str) -> Iterator[Stop]:
        view = self.view
        open_of = {
            row.on: self.orders[row.purchase_order]
            for row in self.written.get(supplier, ())
            if row.purchase_order in self.orders
        }
        weekdays = frozenset(line.weekday for line in self.lines.get(supplier, ()))
        known = view.suppliers[supplier]
        comes = [*brought(known, weekdays, view.now, view.now + _LONGER, view.zone)]
        for each, following in pairwise(comes):
            order = open_of.get(each.on)
            if order is None:
                continue
            day, until = (local_date(of.delivery.at, view.zone) for of in (each, following))
            today = local_date(view.now, view.zone)
            nobody = comes_to_nobody(day, until, self.people_on, today)
            if nobody is not None and not self._has_begun(order):
                yield Stop(order, each.delivery, nobody)

    def _has_begun(self, order: OrderRow) -> bool:
        lines = every(
            self.view.connection, OrderLineRow, house=self.view.id, purchase_order=order.id
        )
        return any(line.received for line in lines)

    def row(self, standing: StandingOrderRow, stops: dict[str, Stop]) -> Row:
        view = self.view
        supplier = one(view.connection, SupplierRow, house=view.id, id=standing.supplier)
        terms = view.terms.get(supplier.id)
        coming_rows = [
            self._coming(self.orders[row.purchase_order], stops.get(row.purchase_order))
            for row in self.written.get(standing.supplier, ())
            if row.purchase_order in self.orders
        ]
        return {
            "supplier": supplier.name,
            "supplier_id": supplier.id,
            "version": supplier.version,
            "email": supplier.email,
            "order_words": terms.order_words if terms else None,
            "when_empty": standing.when_empty,
            "said_by": standing.person,
            "said_at": instant(standing.at),
            "lines": [self._line(line) for line in self.lines.get(standing.supplier, ())],
            "coming": sorted(coming_rows, key=lambda row: (row["delivery"], row["order"])),
        }

    def _line(self, line: StandingLineRow) -> Row:
        pack = self.packs.get(line.pack or "")
        return {
            "weekday": WEEKDAYS[line.weekday],
            "item": self.view.item_name(pack.item) if pack else None,
            "item_id": pack.item if pack else None,
            "pack": pack.name if pack else None,
            "packs": line.packs if line.words is None else None,
            "words": line.words,
            "amount": line.amount,
        }

    @cached_property
    def packs(self) -> dict[str, PackRow]:
        """Every pack by its id."""
        return {row.id: row for row in every(self.view.connection, PackRow, house=self.view.id)}

    def _coming(self, order: OrderRow, stop: Stop | None) -> Row:
        view = self.view
        at = order.delivery_at
        found = next(iter(coming(view.suppliers[order.supplier], at, at, view.zone)), None)
        return {
            "order": order.id,
            "version": order.version,
            "delivery": instant(at),
            "tell_by": instant(found.order_by if found else None),
            "nobody": nobody_of(stop),
        }


def nobody_of(stop: Stop | None) -> Row | None:
    """Between which days nobody is in the house; None: somebody is there for it."""
    if stop is None:
        return None
    return {"first": stop.nobody.first.isoformat(), "last": stop.nobody.last.isoformat()}


def _supplier_of(row: StandingLineRow | StandingDeliveryRow) -> str:
    return row.supplier
