"""Reports of a house in a database, reading it included."""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from rounds import Timing, alternate
from scenario import HOUSE, NOW

from pantry.records.database import open_database, reading
from pantry.reports.coverage import coverage
from pantry.reports.plan import plan
from pantry.reports.report import Row
from pantry.reports.view import View, view

REPORTS: dict[str, Callable[[View], list[Row]]] = {"coverage": coverage, "plan": plan}


def reports(file: Path, rounds: int) -> list[Timing]:
    """Seconds until every row of each report is there."""
    return [_timing(name, file, rounds) for name in REPORTS]


def _timing(name: str, file: Path, rounds: int) -> Timing:
    rows = 0
    engine = open_database(f"sqlite:///{file}")

    def once() -> float:
        nonlocal rows
        with reading(engine) as connection:
            begun = perf_counter()
            rows = len(REPORTS[name](view(connection, HOUSE.id, NOW)))
            return perf_counter() - begun

    seconds = alternate({name: once}, rounds)[name]
    engine.dispose()
    return Timing(f"report: {name}", seconds, {"rows": rows})
