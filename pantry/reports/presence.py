"""Who is in the house: how many eat at each table and meal, what the number is made of."""

from collections.abc import Iterable, Iterator
from datetime import date, time, timedelta

from pantry.records.read import presence as read
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import AwayRow, RotaRow, StayRow
from pantry.reports.days_asked import day_asked
from pantry.reports.meal_asked import MealAsked
from pantry.reports.report import Row, instant
from pantry.reports.view import LOOK_AHEAD, View
from pantry.rules.house_time import days_of, instant_of, local_date
from pantry.rules.menu import DiningTable, Service
from pantry.rules.presence import (
    USUAL_TIMES,
    Counted,
    Covers,
    Meal,
    Presence,
    covers,
    people_on,
)

DAYS = 14

_NOON = time(12)
"""When a meal is whose hour nobody has said."""


def presence(
    view: View, days: int = DAYS, first: str | None = None, meals: str | None = None
) -> list[Row]:
    """A row for each day, table and meal, today first: how many eat, and all it is made of.

    The meals of a day are those that the table has on that weekday and those it has a menu for.
    `covers` null: nobody has said. `menu` is the service that stands there, at its own number.
    `said` is who said last what the number is made of; null where it is only usual.

    Args:
        view: the house as it stands.
        days: how many.
        first: the first of them; None: today.
        meals: those, separated by commas, that every table is to have on each day besides.

    Raises:
        UnreadableInput: `day_unreadable`.
    """
    told = Told(view)
    begins = day_asked(first, "from") if first else local_date(view.now, view.zone)
    besides = [slug(name) for name in (meals or "").split(",") if slug(name)]
    return [
        row
        for day in days_of(begins, begins + timedelta(days=days - 1))
        for table in sorted(view.tables.values(), key=lambda each: (each.rank, each.name))
        for row in told.of_day(table, day, besides)
    ]


def people(view: View) -> dict[date, int]:
    """How many are in the house on each day ahead on which that is not the house's own number.

    With the day after, which what comes on the last of them has to last for.
    """
    said = read.presence(view.connection, view.id)
    if not (said.stays or said.away or said.rotas):
        return {}
    first = local_date(view.now, view.zone)
    days = days_of(first, local_date(view.now + LOOK_AHEAD, view.zone) + timedelta(days=1))
    known = {day: people_on(day, view.house.people, view.tables.values(), said) for day in days}
    return {day: number for day, number in known.items() if number != view.house.people}


class Told:
    """All that was said, read once, and what it comes to."""

    def __init__(self, view: View) -> None:
        """Read it."""
        self.view = view
        self.said: Presence = read.presence(view.connection, view.id)
        self.meals = read.meals(view.connection, view.id, view.zone, view.now)
        self.menus: dict[tuple[date, str], list[Service]] = {}
        for service in view.services:
            self.menus.setdefault((service.date, service.table), []).append(service)

    def covers(self, service: Service) -> Covers:
        """How many eat at a service."""
        at = service.at.astimezone(self.view.zone).time()
        return self._at(self.view.tables[service.table], Meal(service.date, service.meal, at))

    def at(self, meal: MealAsked) -> Covers:
        """How many eat at a meal, whether or not a menu stands there."""
        when = Meal(meal.date, meal.meal, meal.at.astimezone(self.view.zone).time())
        return self._at(self.view.tables[meal.table], when)

    def of_day(self, table: DiningTable, day: date, besides: Iterable[str] = ()) -> Iterator[Row]:
        """The rows of a table on one day, in the order of time."""
        menus = {service.meal: service for service in self.menus.get((day, table.id), ())}
        usual = self.meals.get(table.id, {}).get(day.weekday(), {})
        own = {
            meal: service.at.astimezone(self.view.zone).time() for meal, service in menus.items()
        }
        times = {**USUAL_TIMES, **self._times(table)}
        more = {meal: times.get(meal, _NOON) for meal in besides}
        for meal, at in sorted({**more, **usual, **own}.items(), key=lambda each: each[1]):
            yield self._row(table, Meal(day, meal, at), menus.get(meal))

    def _at(self, table: DiningTable, meal: Meal) -> Covers:
        return covers(table, meal, self.said, self._times(table))

    def _times(self, table: DiningTable) -> dict[str, time]:
        return read.times_of(self.meals.get(table.id, {}))

    def _row(self, table: DiningTable, meal: Meal, menu: Service | None) -> Row:
        found = self._at(table, meal)
        return {
            "date": meal.on.isoformat(),
            "meal": meal.name,
            "table": table.name,
            "at": instant(instant_of(meal.on, meal.at, self.view.zone)),
            "covers": found.number,
            "made_of": [made_of(each) for each in found.made_of],
            "said": said_last(found),
            "menu": menu and {"service": menu.id, "state": menu.state.value, "covers": menu.covers},
        }


def said_last(found: Covers) -> Row | None:
    """A number, with who said last what it is made of and when; None where it is only usual."""
    last = found.last_said
    if last is None:
        return None
    return {"covers": found.number, "said_by": last.said_by, "said_at": instant(last.said_at)}


def made_of(part: Counted) -> Row:
    """One thing that a number is made of."""
    return {
        "what": part.what,
        "heads": part.heads,
        "id": part.id or None,
        "who": part.who or None,
        "said_by": part.said_by or None,
        "said_at": instant(part.said_at),
    }


def stays(view: View) -> list[Row]:
    """Who stays, and who stayed until yesterday at the longest, by their first day."""
    rows = read.standing(every(view.connection, StayRow, house=view.id), lambda row: row.id)
    ahead = [row for row in rows if row.heads and _is_ahead(view, row.last)]
    return [
        {
            "stay": row.id,
            "who": row.who,
            "heads": row.heads,
            "table": view.tables[row.dining_table].name,
            "first": row.first.isoformat(),
            "first_at": row.first_at or None,
            "last": row.last and row.last.isoformat(),
            "last_at": row.last_at or None,
            "said_by": row.said_by,
            "said_at": instant(row.said_at),
            "version": row.number,
        }
        for row in sorted(ahead, key=lambda row: (row.first, row.who))
    ]


def away(view: View) -> list[Row]:
    """Who eats elsewhere from today on, by the first day."""
    rows = read.standing(every(view.connection, AwayRow, house=view.id), lambda row: row.id)
    ahead = [row for row in rows if row.heads and _is_ahead(view, row.last)]
    return [
        {
            "away": row.id,
            "who": row.who,
            "heads": row.heads,
            "table": view.tables[row.dining_table].name,
            "first": row.first.isoformat(),
            "last": row.last.isoformat(),
            "meal": row.meal or None,
            "said_by": row.said_by,
            "said_at": instant(row.said_at),
            "version": row.number,
        }
        for row in sorted(ahead, key=lambda row: (row.first, row.who))
    ]


def rotas(view: View) -> list[Row]:
    """The rota of each table that has one."""
    said = read.presence(view.connection, view.id).rotas
    rows = every(view.connection, RotaRow, house=view.id)
    return [
        {
            "table": view.tables[row.dining_table].name,
            "lines": [
                {
                    "heads": line.heads,
                    "weekday": line.weekday,
                    "date": line.on and line.on.isoformat(),
                    "meal": line.meal or None,
                }
                for line in said[row.dining_table].lines
            ],
            "said_by": row.said_by,
            "said_at": instant(row.said_at),
            "version": row.number,
        }
        for row in read.standing(rows, lambda row: row.dining_table)
    ]


def _is_ahead(view: View, last: date | None) -> bool:
    return last is None or last >= local_date(view.now, view.zone) - timedelta(days=1)
