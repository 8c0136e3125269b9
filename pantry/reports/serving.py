"""What is served today, of which batches, and what nobody has recorded as served (LG2, LG5)."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from pantry.records.read import menu, served
from pantry.records.rows import among, find
from pantry.records.tables import (
    BatchRow,
    JournalRow,
    LeftOverRow,
    MovementRow,
    ServiceRow,
    ServingRow,
)
from pantry.reports import agreed, safe_dishes
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.menu import Service, ServiceState, Serving

_LONG_AGO = date.min
_A_DAY = timedelta(days=1)


def serving(view: View) -> list[Row]:
    """A row for each service to be served until tonight, the oldest first; then what was served.

    What was served is told until the end of the next day, so that what is left over, or a mistake,
    can be recorded. `batches` is what a service still holds, or had taken out for it; a service
    that has lapsed holds nothing any more, and what dies first is taken when it is recorded.
    """
    today = local_date(view.now, view.zone)
    due = served.in_days(view.connection, view.id, ServiceState.CONFIRMED, _LONG_AGO, today)
    done = served.in_days(view.connection, view.id, ServiceState.SERVED, today - _A_DAY, today)
    found = _Serving(view, [*due, *reversed(done)])
    return [found.row(row) for row in found.rows]


@dataclass(frozen=True)
class _Serving:
    """What is known of these services."""

    view: View
    rows: list[ServiceRow]

    @property
    def _ids(self) -> list[str]:
        return [row.id for row in self.rows]

    def row(self, row: ServiceRow) -> Row:
        """One service as the report tells it."""
        return {
            "service": row.id,
            "date": row.on.isoformat(),
            "meal": row.meal,
            "table": self.view.tables[row.dining_table].name,
            "at": instant(row.at),
            "covers": row.covers,
            "state": row.state,
            "version": row.version,
            "dishes": [self._dish(row, each) for each in self._dishes.get(row.id, ())],
            "batches": self._batches(row.id),
            "left_overs": [
                self._left_over(each)
                for each in self._left_overs.get(row.id, ())
                if each.batch in self._moved
            ],
            "done": self._done(row),
        }

    @cached_property
    def _dishes(self) -> Mapping[str, list[ServingRow]]:
        found: dict[str, list[ServingRow]] = {}
        for each in among(self.view.connection, ServingRow, self.view.id, "service", self._ids):
            found.setdefault(each.service, []).append(each)
        return found

    def _dish(self, row: ServiceRow, each: ServingRow) -> Row:
        return {
            "course": each.course,
            "dish": each.dish,
            "name": each.called or self.view.recipes[each.dish].name,
            "variant": each.variant,
            "portions": row.covers if each.portions is None else each.portions,
            "served": each.served,
            "conflicts": self._conflicts(row, each),
        }

    def _conflicts(self, row: ServiceRow, each: ServingRow) -> list[Row]:
        """Who cannot eat a dish; of what was served already, what was agreed to then."""
        serving = Serving(each.course, each.dish, each.variant)
        if row.state == ServiceState.SERVED:
            return agreed.only_agreed(self.view, row.id, serving)
        return safe_dishes.told(self.view, self._services[row.id], serving)

    @cached_property
    def _services(self) -> Mapping[str, Service]:
        view = self.view
        return {row.id: menu.service(view.connection, view.id, row) for row in self.rows}

    def _batches(self, service: str) -> list[Row]:
        view = self.view
        held: dict[str, int] = {}
        for promise in view.held:
            if promise.service == service:
                held[promise.batch] = held.get(promise.batch, 0) + promise.quantity
        taken = {
            batch: standing.kitchen[service]
            for batch, standing in view.standing.items()
            if service in standing.kitchen
        }
        rows = (row for row in view.batches if row.id in held or row.id in taken)
        told = (self._batch(row, held.get(row.id, 0), taken.get(row.id, 0)) for row in rows)
        return sorted(told, key=lambda row: (row["item"], row["label"]))

    def _batch(self, row: BatchRow, held: int, taken: int) -> Row:
        view = self.view
        item, shelf = view.items[row.item], view.standing[row.id].shelf
        most = max(shelf, key=lambda place: (shelf[place], place), default=None)
        return {
            "item": item.name,
            "item_id": item.id,
            "batch": row.id,
            "label": row.label,
            "area": view.areas.get(most, most) if most else None,
            "quantity": amount(held + taken, item),
            "taken_out": amount(taken, item),
            "usable_until": instant(row.usable_until),
        }

    @cached_property
    def _left_overs(self) -> Mapping[str, list[LeftOverRow]]:
        return served.left_overs(self.view.connection, self.view.id, self._ids)

    @cached_property
    def _moved(self) -> Mapping[str, list[MovementRow]]:
        ids = [each.batch for rows in self._left_overs.values() for each in rows]
        return served.standing_movements(self.view.connection, self.view.id, ids)

    @cached_property
    def _left_batches(self) -> Mapping[str, BatchRow]:
        ids = sorted(self._moved)
        rows = among(self.view.connection, BatchRow, self.view.id, "id", ids)
        return {row.id: row for row in rows}

    def _left_over(self, each: LeftOverRow) -> Row:
        batch = self._left_batches[each.batch]
        return {
            "command": served.command_that_made(self._moved[each.batch]),
            "batch": batch.id,
            "label": batch.label,
            "dish": self.view.recipes[each.dish].name,
            "variant": each.variant,
            "portions": each.portions,
            "usable_until": instant(batch.usable_until),
        }

    def _done(self, row: ServiceRow) -> Row | None:
        if row.state != ServiceState.SERVED:
            return None
        given = find(self.view.connection, JournalRow, house=self.view.id, id=row.last_command)
        if given is None or given.kind != "serve":
            return None
        return {"command": given.id, "at": instant(given.at), "person": given.person}
