"""A late change weighed, beside the same answer from the whole kitchen projected again."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from time import perf_counter

from rounds import Ratio, Timing, compare
from scenario import HOUSE, NOW
from sqlalchemy import Connection, text

from pantry.records.database import open_database, reading
from pantry.records.read.kitchen_part import part_of, planned
from pantry.reports.late_change import late_change
from pantry.reports.report import Row
from pantry.reports.view import view
from pantry.rules.late_change import changed
from pantry.rules.menu import ServiceState
from pantry.rules.recipes import direct_needs

_SERVICES = text(
    "SELECT id, covers FROM service WHERE house = :house AND state = :state ORDER BY at, id"
)
_LOOKED_AT = 12
"""So many services, spread evenly over the days ahead."""


def late_changes(file: Path, rounds: int, failures: list[str]) -> tuple[Ratio, Timing]:
    """Two covers more at services all over the days ahead: the next answer, and the first one."""
    engine = open_database(f"sqlite:///{file}")
    with reading(engine) as connection:
        services = _services(connection)
        first = [seconds for seconds, _ in _asked(connection, services, more=1)]
        told = [rows for _, rows in _asked(connection, services, more=2)]
        expected = [rows for _, rows in _whole(connection, services)]
        if [_brief(rows) for rows in told] != expected:
            failures.append("a late change: the whole kitchen says otherwise")
        ratio = Ratio(
            "a late change",
            "one more cover at a service that is looked at",
            "the whole kitchen projected as it stands and as it would stand",
            len(services),
            compare(
                lambda: sum(seconds for seconds, _ in _asked(connection, services, more=2)),
                lambda: sum(seconds for seconds, _ in _whole(connection, services)),
                rounds,
            ),
        )
        worst = max(seconds for seconds, _ in _asked(connection, services, more=2))
        ratio.facts |= {"worst_seconds": worst, "services": len(services)}
    engine.dispose()
    return ratio, Timing("a late change: the first answer, the house read", first)


def _services(connection: Connection) -> list[tuple[str, int]]:
    of = {"house": HOUSE.id, "state": ServiceState.CONFIRMED.value}
    rows = [(name, covers) for name, covers in connection.execute(_SERVICES, of)]
    step = max(1, len(rows) // _LOOKED_AT)
    return rows[step // 2 :: step][:_LOOKED_AT]


def _asked(
    connection: Connection, services: list[tuple[str, int]], *, more: int
) -> Iterator[tuple[float, list[Row]]]:
    """Each service asked as somebody does who has its panel open; kept are only so many."""
    for name, covers in services:
        if more > 1:
            late_change(view(connection, HOUSE.id, NOW), name)
        begun = perf_counter()
        rows = late_change(view(connection, HOUSE.id, NOW), name, covers=covers + more)
        yield perf_counter() - begun, rows


def _whole(
    connection: Connection, services: list[tuple[str, int]]
) -> Iterator[tuple[float, list[tuple[str, str, str]]]]:
    """The same effects from everything projected twice; reading the house is not counted."""
    seen = view(connection, HOUSE.id, NOW)
    part = part_of(seen, seen.items)
    recipes, items, tables, zone = seen.recipes, seen.items, seen.tables, seen.zone
    for name, covers in services:
        service = next(each for each in seen.services if each.id == name)
        begun = perf_counter()
        before = planned(seen, part)
        wanted = direct_needs(replace(service, covers=covers + 2), recipes, items, tables, zone)
        rest = [need for need in before.needs if need.service != name or need.via]
        after = planned(seen, part, [*rest, *wanted])
        sources = (each for of_item in part.sources.values() for each in of_item)
        found = changed(before.projection, after.projection, sources, NOW)
        took = perf_counter() - begun
        told = ((one.effect.value, items[one.item].name, one.quantity) for one in found)
        yield took, sorted((effect, item, str(quantity)) for effect, item, quantity in told)


def _brief(rows: list[Row]) -> list[tuple[str, str, str]]:
    told = ((row["effect"], row["item"], Decimal(row["quantity"]["value"])) for row in rows)
    return sorted((effect, item, str(int(value * 1000))) for effect, item, value in told)
