"""What is known of the days ahead, each report asked once: for days, the morning and the menus."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from pantry.reports import safe_dishes
from pantry.reports.coverage import coverage
from pantry.reports.coverage_rows import Covered, dish_choose_by, dish_flags
from pantry.reports.expected import OpenOrder, open_orders
from pantry.reports.plan import plan
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import read_instant
from pantry.rules.menu import Service, ServiceState, Serving

_NOTHING = "0"


@dataclass(frozen=True, slots=True)
class DishAhead:
    """One dish of one service.

    Attributes:
        choose_by: the latest instant at which it can be chosen; None: it cannot be had, or its
            service is no longer ahead.
        short: the names of the items it lacks.
        flags: what a person should know of it, and of what it is given from.
    """

    choose_by: datetime | None = None
    short: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()


@dataclass(frozen=True)
class Ahead:
    """The coverage, the plan and the open orders of a house at one instant."""

    view: View

    @cached_property
    def coverage(self) -> Sequence[Row]:
        """What every dish is covered by."""
        return coverage(self.view)

    @cached_property
    def plan(self) -> Sequence[Row]:
        """What must be ordered, and what cannot be had any more."""
        return plan(self.view)

    @cached_property
    def orders(self) -> Sequence[OpenOrder]:
        """What is on its way."""
        return open_orders(self.view)

    def dish(self, service: Service, serving: Serving) -> DishAhead:
        """What is known of a dish; nothing where its service is not ahead any more."""
        if not self.is_ahead(service):
            return DishAhead()
        name = self.view.recipes[serving.dish].name
        rows = self._by_dish.get((service.id, serving.course, name, serving.variant))
        return _together(rows) if rows else self._of_what_nobody_counts(service, serving)

    def is_ahead(self, service: Service) -> bool:
        """Whether a service is still proposed and to come, or confirmed and not lapsed."""
        if service.state is ServiceState.PROPOSED:
            return service.at >= self.view.now
        return service.state is ServiceState.CONFIRMED and service.id not in self.view.lapsed

    def short(self, service: str) -> tuple[str, ...]:
        """The names of all items that any dish of a service lacks."""
        return tuple(dict.fromkeys(_lacking(self._by_service.get(service, ()))))

    @cached_property
    def _by_dish(self) -> Mapping[tuple[str, str, str, str | None], list[Row]]:
        found: dict[tuple[str, str, str, str | None], list[Row]] = {}
        for row in self.coverage:
            key = (row["service"], row["course"], row["dish"], row["variant"])
            found.setdefault(key, []).append(row)
        return found

    @cached_property
    def _by_service(self) -> Mapping[str, list[Row]]:
        found: dict[str, list[Row]] = {}
        for row in self.coverage:
            found.setdefault(row["service"], []).append(row)
        return found

    def _of_what_nobody_counts(self, service: Service, serving: Serving) -> DishAhead:
        """A dish of which no item is measured: nothing of it can be short (MS3)."""
        dish = Covered(service, serving, (), {}, {})
        chosen_by = dish_choose_by(self.view, dish)
        against = safe_dishes.against(self.view, service, serving)
        return DishAhead(chosen_by.at, (), tuple(dish_flags(self.view, dish, chosen_by, against)))


def _together(rows: Sequence[Row]) -> DishAhead:
    written = rows[0]["choose_by"]
    return DishAhead(
        None if written is None else read_instant(written),
        tuple(dict.fromkeys(_lacking(rows))),
        tuple(dict.fromkeys(flag for row in rows for flag in row["flags"])),
    )


def _lacking(rows: Sequence[Row]) -> list[str]:
    return [row["item"] for row in rows if row["short"]["value"] != _NOTHING]
