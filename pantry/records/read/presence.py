"""Who is in the house, as it was said last, and when the meals of each table are."""

import json
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, time, timedelta
from typing import Any, Protocol, TypeVar
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, bindparam, select

from pantry.records.rows import every, table
from pantry.records.tables import AwayRow, RotaRow, ServiceRow, StayRow
from pantry.rules.presence import Away, Presence, Rota, RotaLine, Stay

_AROUND = timedelta(days=28)
_MEALS = (
    select(
        table(ServiceRow).c.dining_table,
        table(ServiceRow).c.on,
        table(ServiceRow).c.meal,
        table(ServiceRow).c.at,
    )
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.at >= bindparam("first"))
    .where(table(ServiceRow).c.at <= bindparam("last"))
    .order_by(table(ServiceRow).c.at)
)


class _Said(Protocol):
    number: int


Saying = TypeVar("Saying", bound=_Said)

Meals = Mapping[str, Mapping[int, Mapping[str, time]]]
"""By table and weekday (0 is Monday): the wall time of each meal, as it was or will be last."""


def presence(connection: Connection, house: str) -> Presence:
    """What stands of all that was said."""
    return Presence(
        stays=tuple(_stay(row) for row in standing(every(connection, StayRow, house=house), _id)),
        away=tuple(_away(row) for row in standing(every(connection, AwayRow, house=house), _id)),
        rotas={
            row.dining_table: _rota(row)
            for row in standing(
                every(connection, RotaRow, house=house), lambda row: row.dining_table
            )
        },
    )


def stays(connection: Connection, house: str) -> list[Stay]:
    """The stays as they stand."""
    return [_stay(row) for row in standing(every(connection, StayRow, house=house), _id)]


def standing(rows: Iterable[Saying], of: Callable[[Saying], str]) -> list[Saying]:
    """Of all that was said of each thing the last."""
    last: dict[str, Saying] = {}
    for row in rows:
        thing = of(row)
        if thing not in last or last[thing].number < row.number:
            last[thing] = row
    return list(last.values())


def meals(connection: Connection, house: str, zone: ZoneInfo, now: datetime) -> Meals:
    """The meals that each table has, by weekday, four weeks back and ahead."""
    found: dict[str, dict[int, dict[str, time]]] = {}
    around = {"house": house, "first": now - _AROUND, "last": now + _AROUND}
    for of_table, on, meal, at in connection.execute(_MEALS, around):
        of_day = found.setdefault(of_table, {}).setdefault(on.weekday(), {})
        of_day[meal] = at.astimezone(zone).time()
    return found


def times_of(of_table: Mapping[int, Mapping[str, time]]) -> dict[str, time]:
    """When a table's meals usually are, whatever the weekday."""
    return {meal: at for of_day in of_table.values() for meal, at in of_day.items()}


def _id(row: Any) -> str:  # noqa: ANN401 - a row of any table that has an id
    return str(row.id)


def _stay(row: StayRow) -> Stay:
    return Stay(
        id=row.id,
        who=row.who,
        heads=row.heads,
        table=row.dining_table,
        first=row.first,
        first_at=row.first_at,
        last=row.last,
        last_at=row.last_at,
        said_by=row.said_by,
        said_at=row.said_at,
    )


def _away(row: AwayRow) -> Away:
    return Away(
        id=row.id,
        who=row.who,
        heads=row.heads,
        table=row.dining_table,
        first=row.first,
        last=row.last,
        meal=row.meal,
        said_by=row.said_by,
        said_at=row.said_at,
    )


def _rota(row: RotaRow) -> Rota:
    lines = tuple(
        RotaLine(
            heads=line["heads"],
            weekday=line.get("weekday"),
            on=date.fromisoformat(line["on"]) if line.get("on") else None,
            meal=line.get("meal", ""),
        )
        for line in json.loads(row.lines)
    )
    return Rota(row.dining_table, lines, row.said_by, row.said_at)
