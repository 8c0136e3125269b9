"""How warm the cold places are, and the rounds in which somebody looked (SL5)."""

from collections.abc import Iterable, Sequence
from datetime import datetime

from pantry.handbook.policies import CAUTION
from pantry.records.read.failed_places import waiting
from pantry.records.rows import every
from pantry.records.tables import AreaRow, TemperatureRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.cold_places import Limits, Warmth, limits_of
from pantry.rules.rounds import Round, rounds
from pantry.rules.stock import AreaKind
from pantry.rules.temperature import degrees

_DAYS = 2


def temperatures(view: View, days: int = _DAYS) -> list[Row]:
    """A row for each chilled or frozen place, in the order of the shelves.

    `readings` and `rounds` are those of the last days, the first one first; a round in which
    nobody took its temperature has `taken` false: from the round of the house's first reading on,
    and the one that runs. `max_c` is the stricter of the house's own limit and its policy's.
    """
    taken = every(view.connection, TemperatureRow, house=view.id)
    asked = list(rounds(view.policy, view.zone, days, view.now))
    begun = min((row.at for row in taken), default=None)
    counted = [each for each in asked if _counts(each, begun, view.now)]
    failed = {area for _, area in waiting(view.connection, view.id)}
    return [
        _row(view, area, counted, _of(taken, area, asked[0].start))
        | {"failed": area.id in failed, "last": _last(taken, area)}
        for area in cold_areas(view)
    ]


def cold_areas(view: View) -> list[AreaRow]:
    """The chilled and frozen places, in the order of the shelves."""
    rows = every(view.connection, AreaRow, house=view.id)
    cold = [row for row in rows if row.kind != AreaKind.AMBIENT.value]
    return sorted(cold, key=lambda row: (row.shelf_order, row.name))


def _counts(of: Round, begun: datetime | None, now: datetime) -> bool:
    return of.start <= now < of.end or (begun is not None and begun < of.end)


def _of(taken: Iterable[TemperatureRow], area: AreaRow, since: datetime) -> list[TemperatureRow]:
    found = [row for row in taken if row.area == area.id and row.at >= since]
    return sorted(found, key=lambda row: (row.at, row.command))


def _last(taken: Iterable[TemperatureRow], area: AreaRow) -> Row | None:
    of_area = [row for row in taken if row.area == area.id]
    last = max(of_area, key=lambda row: (row.at, row.command), default=None)
    return None if last is None else _reading(last)


def _row(view: View, area: AreaRow, asked: Sequence[Round], taken: Sequence[TemperatureRow]) -> Row:
    limits = limits_of(view.policy, AreaKind(area.kind), area.min_tenths, area.max_tenths)
    return {
        "area_id": area.id,
        "area": area.name,
        "kind": area.kind,
        **_limits(limits),
        "again_minutes": view.policy.number("round.again").amount,
        "readings": [_reading(row) for row in taken],
        "rounds": [_round(each, taken) for each in asked],
        "caution": CAUTION,
    }


def _limits(limits: Limits) -> Row:
    return {
        "min_c": None if limits.lowest is None else degrees(limits.lowest),
        "max_c": degrees(limits.highest or 0),
        "max_source": limits.source,
    }


def _reading(row: TemperatureRow) -> Row:
    return {
        "command": row.command,
        "at": instant(row.at),
        "temperature_c": degrees(row.tenths),
        "warmth": Warmth(row.warmth).value,
        "done": row.done,
        "note": row.note,
        "person": row.person,
    }


def _round(of: Round, taken: Iterable[TemperatureRow]) -> Row:
    return {
        "day": of.day.isoformat(),
        "number": of.number,
        "of": of.of,
        "start": instant(of.start),
        "end": instant(of.end),
        "taken": any(of.start <= row.at < of.end for row in taken),
    }
