"""What was given to whom: every dish that was served, and what became of what was left of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from pantry.records import accounts
from pantry.records.read import served as read
from pantry.records.rows import among
from pantry.records.slugs import slug
from pantry.records.tables import BatchRow, LeftOverRow, MovementRow, ServiceRow, ServingRow
from pantry.reports.days_asked import days_asked
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.measure import Quantity
from pantry.rules.menu import ServiceState
from pantry.rules.stock import BaseUnit


def served(
    view: View,
    first: str | None = None,
    last: str | None = None,
    table: str | None = None,
    dish: str | None = None,
) -> list[Row]:
    """A row for each dish of each service that took place, the latest service first.

    `portions` is what was served of it, `planned` what was planned; a dish that was not served at
    all stands there with none. Of what is left over only what stands or stood is told: what was
    taken back is not.

    Args:
        view: the house.
        first: the first day, a civil date of the house; None: the first of this month.
        last: the last day; None: today.
        table: by its name or id; None: all.
        dish: by its name or id; None: all.

    Raises:
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    today = local_date(view.now, view.zone)
    since, until = days_asked(first, last, (today.replace(day=1), today))
    rows = read.in_days(view.connection, view.id, ServiceState.SERVED, since, until)
    wanted = [row for row in rows if table is None or row.dining_table == slug(table)]
    found = _Served(view, wanted)
    return [
        found.row(row, each)
        for row in reversed(wanted)
        for each in found.dishes.get(row.id, ())
        if dish is None or each.dish == slug(dish)
    ]


@dataclass(frozen=True)
class _Served:
    """What is known of these services."""

    view: View
    services: list[ServiceRow]

    @property
    def _ids(self) -> list[str]:
        return [row.id for row in self.services]

    @cached_property
    def dishes(self) -> Mapping[str, list[ServingRow]]:
        """The dishes of each service."""
        found: dict[str, list[ServingRow]] = {}
        for each in among(self.view.connection, ServingRow, self.view.id, "service", self._ids):
            found.setdefault(each.service, []).append(each)
        return found

    def row(self, row: ServiceRow, each: ServingRow) -> Row:
        """One dish as the report tells it."""
        planned = row.covers if each.portions is None else each.portions
        left = self._left(row.id, each)
        return {
            "service": row.id,
            "date": row.on.isoformat(),
            "meal": row.meal,
            "table": self.view.tables[row.dining_table].name,
            "at": instant(row.at),
            "covers": row.covers,
            "course": each.course,
            "dish": each.dish,
            "name": each.called or self.view.recipes[each.dish].name,
            "variant": each.variant,
            "portions": planned if each.served is None else each.served,
            "planned": planned,
            "confirmed_by": row.confirmed_by,
            "left_over": sum(part["portions"] for part in left),
            "left_overs": left,
        }

    def _left(self, service: str, each: ServingRow) -> list[Row]:
        return [
            self._left_over(row)
            for row in self._left_overs.get(service, ())
            if (row.dish, row.variant) == (each.dish, each.variant) and row.batch in self._moved
        ]

    def _left_over(self, row: LeftOverRow) -> Row:
        moved = self._moved[row.batch]
        wasted = sum(each.quantity for each in moved if each.target == accounts.WASTE)
        return {
            "batch": row.batch,
            "label": self._labels[row.batch],
            "portions": row.portions,
            "wasted": dict(Quantity(wasted, BaseUnit.EACH).as_json()),
        }

    @cached_property
    def _left_overs(self) -> Mapping[str, list[LeftOverRow]]:
        return read.left_overs(self.view.connection, self.view.id, self._ids)

    @cached_property
    def _moved(self) -> Mapping[str, list[MovementRow]]:
        ids = [each.batch for rows in self._left_overs.values() for each in rows]
        return read.standing_movements(self.view.connection, self.view.id, ids)

    @cached_property
    def _labels(self) -> Mapping[str, str]:
        ids = sorted(self._moved)
        rows = among(self.view.connection, BatchRow, self.view.id, "id", ids)
        return {row.id: row.label for row in rows}
