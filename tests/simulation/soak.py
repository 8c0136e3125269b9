"""The simulator, for long: `make soak`, or `python tests/simulation/soak.py --seeds 20000`.

Plays many histories on every core and writes what came of them into bench-results/soak.json. With
`--planted` it plays each planted fault instead, so many seeds each, and says how many saw it. It
ends with 1 where a history broke, or where no seed saw a planted fault.
"""

import argparse
import json
import logging
import platform
import sqlite3
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from datetime import UTC, datetime
from os import cpu_count
from pathlib import Path

from rich.console import Console
from rich.progress import track

import pantry
from tests.simulation.course import Played, play
from tests.simulation.planted import FAULTS
from tests.simulation.premises import Premises

RESULTS = Path("bench-results")
_SEEDS, _SEEDS_PLANTED = 2_000, 40
_own: dict[str, Premises] = {}
_until_the_end = ExitStack()


def main() -> int:
    arguments = _arguments()
    seeds = arguments.seeds or (_SEEDS_PLANTED if arguments.planted else _SEEDS)
    faults = list(FAULTS) if arguments.planted else [None]
    tasks = [
        (fault, seed)
        for fault in faults
        for seed in range(arguments.start, arguments.start + seeds)
    ]
    console = Console()
    began = time.perf_counter()
    with ProcessPoolExecutor(initializer=_begin) as pool:
        played = pool.map(_play, tasks, chunksize=4)
        told = list(track(played, "histories", total=len(tasks), console=console))
    seconds = time.perf_counter() - began
    result = _about(arguments.start, seeds, seconds)
    by_fault = dict(zip(tasks, told, strict=True))
    return (_planted if arguments.planted else _clean)(console, result, by_fault)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Play many histories.")
    parser.add_argument("--seeds", type=int, help="how many")
    parser.add_argument("--start", type=int, default=0, help="the first seed")
    parser.add_argument("--planted", action="store_true", help="with each planted fault in turn")
    return parser.parse_args()


def _begin() -> None:
    """Every process has a folder of its own; what fails is told by the history, and not logged."""
    logging.disable()
    _own["premises"] = _until_the_end.enter_context(Premises())


def _play(task: tuple[str | None, int]) -> Played:
    fault, seed = task
    premises = _own["premises"]
    return play(seed, premises) if fault is None else FAULTS[fault].played(seed, premises)


def _about(start: int, seeds: int, seconds: float) -> dict:
    return {
        "schema": 1,
        "date": datetime.now(UTC).isoformat(timespec="seconds"),
        "machine": {"system": platform.platform(), "cores": cpu_count()},
        "versions": {
            "chooseby": pantry.__version__,
            "python": platform.python_version(),
            "sqlite": sqlite3.sqlite_version,
        },
        "start": start,
        "seeds": seeds,
        "seconds": round(seconds, 1),
    }


def _clean(console: Console, result: dict, told: dict) -> int:
    broken = [played for played in told.values() if played.broken]
    counts: Counter[str] = sum((played.counts for played in told.values()), Counter())
    rate = len(told) / result["seconds"]
    result |= {
        "histories_per_second": round(rate, 2),
        "counts": dict(sorted(counts.items())),
        "failures": [{"seed": played.seed, "broken": played.broken} for played in broken],
    }
    _write(result, "soak.json")
    for played in broken[:5]:
        console.print(played.told(), markup=False, highlight=False)
    console.print(
        f"{len(told)} histories, {counts['commands']} commands, {rate:.1f} histories a second,"
        f" {len(broken)} broken"
    )
    return 1 if broken else 0


def _planted(console: Console, result: dict, told: dict) -> int:
    rows = list(_rows(told))
    result["faults"] = [
        dict(zip(("fault", "seen", "of", "first"), row, strict=True)) for row in rows
    ]
    _write(result, "soak-planted.json")
    for fault, seen, of, first in rows:
        console.print(f"{fault:36} seen by {seen:3} of {of}, first by {first}")
    return 1 if any(not seen for _, seen, _, _ in rows) else 0


def _rows(told: dict) -> Iterator[tuple[str, int, int, int | None]]:
    for fault in FAULTS:
        played = [each for (of, _), each in told.items() if of == fault]
        seeing = [each.seed for each in played if each.broken]
        yield fault, len(seeing), len(played), min(seeing, default=None)


def _write(result: dict, name: str) -> None:
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / name).write_text(json.dumps(result, indent=2) + "\n")


if __name__ == "__main__":
    sys.exit(main())
