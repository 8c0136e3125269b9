"""A day of the house, in sentences: what dies, what to pull, what comes, what must be ordered."""

from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from pantry.records.rows import every
from pantry.records.tables import OrderLineRow, OrderRow
from pantry.reports.coverage import coverage
from pantry.reports.plan import plan
from pantry.reports.report import Row
from pantry.reports.stock import stock
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.menu import Service, ServiceState
from pantry.terminal.printing import listed
from pantry.terminal.shown.plan import by_deadline
from pantry.terminal.words import Words, many

_AHEAD = (ServiceState.PROPOSED, ServiceState.CONFIRMED)


@dataclass(frozen=True)
class Morning:
    """What a house sees of its days when it gets up; each report is asked once."""

    words: Words
    seen: View

    @cached_property
    def stock(self) -> list[Row]:
        """What stands in the house."""
        return stock(self.seen)

    @cached_property
    def coverage(self) -> list[Row]:
        """What every dish ahead is covered by."""
        return coverage(self.seen)

    @cached_property
    def plan(self) -> list[Row]:
        """What must be ordered."""
        return plan(self.seen)

    @cached_property
    def orders(self) -> list[OrderRow]:
        """Open orders, in the order in which they come."""
        rows = every(self.seen.connection, OrderRow, house=self.seen.id, state="open")
        return sorted(rows, key=lambda order: order.delivery_at)

    def dies(self, day: date) -> list[str]:
        """`Double cream B-0004, 2 l in Cold room, 1.2 l of it promised`."""
        return [self._dying(row) for row in self.stock if self._is_on(row["usable_until"], day)]

    def pulls(self, day: date) -> list[str]:
        """What must be taken out of the freezer, by when, for what."""
        found = [
            (part["thaw_from"], f"{self._part(row, part)} for {self.words.service(row['service'])}")
            for row in self.coverage
            if row["state"] == ServiceState.CONFIRMED
            for part in row["from"]
            if self._is_on(part.get("thaw_from"), day)
        ]
        return [f"{said}: out by {self._time(at)}" for at, said in sorted(set(found))]

    def makes(self, day: date) -> list[str]:
        """What must be made, by when, for what."""
        found = [
            (row["wanted_by"], f"{self._part(row, part)} for {row['dish']}")
            for row in self.coverage
            if row["state"] == ServiceState.CONFIRMED and self._is_on(row["wanted_by"], day)
            for part in row["from"]
            if "making" in part
        ]
        return [f"{said}: ready by {self._time(at)}" for at, said in sorted(set(found))]

    def comes(self, day: date) -> list[str]:
        """Every delivery that is expected, with what was ordered."""
        packs, items = self.seen.pack_names, self.seen.items
        return [
            f"{self._time(order.delivery_at)} {self._supplier(order)}: "
            + ", ".join(
                f"{line.packs} x {packs[line.pack]} {items[line.item].name}"
                for line in every(
                    self.seen.connection,
                    OrderLineRow,
                    house=self.seen.id,
                    purchase_order=order.id,
                )
            )
            for order in self._orders_on(day)
        ]

    def vans(self, day: date) -> list[str]:
        """`06:45 Tolsaig Creamery` for every delivery that is expected."""
        return [f"{self._time(o.delivery_at)} {self._supplier(o)}" for o in self._orders_on(day)]

    def cut_offs(self, day: date) -> list[str]:
        """`16:50 Tolsaig Creamery, 3 items for Sat 13 Mar 06:45` for every order that is due."""
        return [
            f"{self._time(order[0]['order_by'])} {order[0]['supplier']}, "
            f"{many(len(order), 'item')} for {self.words.moment(order[0]['delivery'])}"
            for order in by_deadline(self.plan)
            if self._is_on(order[0]["order_by"], day)
        ]

    def meals(self, day: date) -> list[str]:
        """`19:30 dinner, family (4)` for every service; `(4, proposed)` where it is only that."""
        services = (each for each in self.seen.services if each.date == day)
        return [self._meal(service) for service in services if service.state in _AHEAD]

    def to_choose(self, day: date) -> list[str]:
        """Proposed dishes that can be chosen until this day at the latest, by their service."""
        dishes: dict[str, list[str]] = {}
        for row in self.coverage:
            if row["state"] == ServiceState.PROPOSED and self._is_on(row["choose_by"], day):
                of_service = dishes.setdefault(row["service"], [])
                if row["dish"] not in of_service:
                    of_service.append(row["dish"])
        return [
            f"{listed(names)} ({self.words.service(service)})" for service, names in dishes.items()
        ]

    def last_day(self, day: date) -> list[str]:
        """`Double cream B-0004` for what may be used until the end of this day and no longer."""
        return [
            f"{row['item']} {row['label']}"
            for row in self.stock
            if self._is_on(row["usable_until"], day)
        ]

    def _dying(self, row: Row) -> str:
        said = f"{row['item']} {row['label']}, {self.words.amount(row['on_hand'])} in {row['area']}"
        if row["promised"]["value"] == "0":
            return f"{said}, promised to nobody"
        return f"{said}, {self.words.amount(row['promised'])} of it promised"

    def _meal(self, service: Service) -> str:
        table = self.seen.tables[service.table].name
        proposed = ", proposed" if service.state is ServiceState.PROPOSED else ""
        return f"{self._time(service.at)} {service.meal}, {table} ({service.covers}{proposed})"

    def _part(self, row: Row, part: Row) -> str:
        label = f" {part['label']}" if "label" in part else ""
        return f"{self.words.amount(part['quantity'])} {row['item']}{label}"

    def _orders_on(self, day: date) -> list[OrderRow]:
        return [order for order in self.orders if self._is_on(order.delivery_at, day)]

    def _supplier(self, order: OrderRow) -> str:
        return self.seen.supplier_names[order.supplier]

    def _time(self, instant: str | datetime) -> str:
        return f"{_aware(instant).astimezone(self.words.zone):%H:%M}"

    def _is_on(self, instant: str | datetime | None, day: date) -> bool:
        return instant is not None and local_date(_aware(instant), self.words.zone) == day


def _aware(instant: str | datetime) -> datetime:
    return read_instant(instant) if isinstance(instant, str) else instant
