"""The days ahead as one line of time: what is served, comes, must be ordered, chosen, used, done.

Every row stands at the instant that matters and on a local day, so that a person sees why Friday
is a problem.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from pantry.reports.ahead import Ahead
from pantry.reports.cut_offs import by_deadline
from pantry.reports.expected import outstanding
from pantry.reports.report import Row, instant
from pantry.reports.stock import stock
from pantry.reports.to_do import makes, pulls
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.menu import Service, ServiceState
from pantry.rules.unfinished import day_to_do, day_to_pull


def days(view: View, days: int = 7) -> list[Row]:
    """Rows `{what, at, day, ...}` of today and the days after it, in the order of time.

    `what` is a delivery that is awaited, a cut_off (the order-by of what must be ordered), a
    choose_by of proposed dishes, what to pull out of the freezer and what to make for confirmed
    services (at the latest), a service, or a batch that dies (at its last usable instant). What
    was to be pulled or made before today and is not yet stands on today.

    Args:
        view: the house.
        days: how many, today being the first; orders and menus are known four weeks ahead.
    """
    return days_of(Ahead(view), days)


def days_of(ahead: Ahead, days: int) -> list[Row]:
    """The same, of what is known of the days ahead already."""
    line = _Line(ahead, local_date(ahead.view.now, ahead.view.zone), days)
    return sorted(line.rows(), key=lambda row: row["at"])


@dataclass(frozen=True)
class _Line:
    """Finds what stands on the days."""

    ahead: Ahead
    today: date
    length: int

    def rows(self) -> Iterator[Row]:
        """Every row; of one instant in the order in which a kitchen meets them."""
        yield from self._deliveries()
        yield from self._cut_offs()
        yield from self._choose_bys()
        yield from self._to_do("pull", pulls(self.ahead), day_to_pull)
        yield from self._to_do("make", makes(self.ahead), day_to_do)
        yield from self._services()
        yield from self._dying()

    @property
    def view(self) -> View:
        """The house."""
        return self.ahead.view

    def _on(self, what: str, at: datetime, day: date | None = None) -> Row | None:
        """The beginning of a row, if its day is one of these."""
        day = day or local_date(at, self.view.zone)
        if not self.today <= day < self.today + timedelta(days=self.length):
            return None
        return {"what": what, "at": instant(at), "day": day.isoformat()}

    def _deliveries(self) -> Iterator[Row]:
        for order, lines in self.ahead.orders:
            if row := self._on("delivery", order.delivery_at):
                yield row | {
                    "order": order.id,
                    "supplier": self.view.supplier_names[order.supplier],
                    "lines": sum(outstanding(line) > 0 for line in lines),
                }

    def _cut_offs(self) -> Iterator[Row]:
        for order in by_deadline(self.ahead.plan):
            first = order[0]
            if row := self._on("cut_off", read_instant(first["order_by"])):
                yield row | {
                    "supplier": first["supplier"],
                    "delivery": first["delivery"],
                    "items": len({line["item"] for line in order}),
                    "alert": first["alert"],
                }

    def _choose_bys(self) -> Iterator[Row]:
        for service in self.view.services:
            if service.state is not ServiceState.PROPOSED:
                continue
            for at, dishes in self._by_choose_by(service).items():
                if row := self._on("choose_by", at):
                    yield row | {"service": service.id, "dishes": dishes}

    def _by_choose_by(self, service: Service) -> dict[datetime, list[str]]:
        """The dishes of a service by the instant until which they can be chosen."""
        found: dict[datetime, dict[str, None]] = {}
        for serving in service.servings:
            at = self.ahead.dish(service, serving).choose_by
            if at is not None:
                found.setdefault(at, {})[self.view.recipes[serving.dish].name] = None
        return {at: list(dishes) for at, dishes in found.items()}

    def _to_do(
        self,
        what: str,
        jobs: Iterable[tuple[datetime, Row]],
        day_of: Callable[[datetime, datetime, ZoneInfo], date],
    ) -> Iterator[Row]:
        for at, job in jobs:
            day = day_of(at, self.view.now, self.view.zone)
            if row := self._on(what, at, day):
                yield row | job

    def _services(self) -> Iterator[Row]:
        for service in self.view.services:
            row = self._on("service", service.at, service.date)
            if row and service.state is not ServiceState.TAKEN_OFF:
                dishes = (self.view.recipes[serving.dish].name for serving in service.servings)
                yield row | {
                    "service": service.id,
                    "meal": service.meal,
                    "table": self.view.tables[service.table].name,
                    "covers": service.covers,
                    "state": service.state.value,
                    "dishes": list(dict.fromkeys(dishes)),
                    "short": len(self.ahead.short(service.id)),
                }

    def _dying(self) -> Iterator[Row]:
        for batch in stock(self.view):
            at = batch["usable_until"]
            if at and (row := self._on("dies", read_instant(at))):
                wanted = ("batch", "label", "item", "area", "on_hand", "promised", "available")
                yield (
                    row
                    | {name: batch[name] for name in wanted}
                    | {"mark": batch["date_mark"]["kind"]}
                )
