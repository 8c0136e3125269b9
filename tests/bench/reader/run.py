"""What the phone's reader reads: every kind of label, by size, tilt, focus, light and noise.

    PYTHONPATH=.:tests/bench python tests/bench/reader/run.py            writes the guide's table
    PYTHONPATH=.:tests/bench python tests/bench/reader/run.py --quick    two sights of each kind

The frames go through the code and the wasm of the phone's own worker, run by Node. The results go
to `bench-results/` as JSON. It ends with 1 where less than 95 in 100 of the house's own labels are
read in dim light.
"""

import argparse
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import figures
import numpy as np
from machine import machine, today

from tests.bench.reader.frames import SEED, SIZE, Kind, Sight, kinds, seen, sights
from web.build import node

ROOT = Path(__file__).resolve().parents[3]
GUIDE = ROOT / "pantry" / "guide" / "figures.md"
OWN_AT_LEAST = 0.95

WAYS = ("plain", "cleared", "sharpened")
"""What the phone does to a picture, by turns."""


def readings(*, quick: bool) -> Iterator[dict[str, Any]]:
    """Every sight of every kind with what was read of it, as it was and cleared."""
    call = [node(), "tests/reading.mjs"]
    with subprocess.Popen(
        call, cwd=ROOT / "web", stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as reader:
        assert reader.stdin
        assert reader.stdout
        drawn = np.random.default_rng(SEED)
        heading = json.dumps({"width": SIZE[0], "height": SIZE[1]}).encode() + b"\n"
        for kind in kinds():
            for sight in sights(kind.modules, quick=quick):
                reader.stdin.write(heading + seen(kind.label, sight, drawn))
                reader.stdin.flush()
                yield _reading(kind, sight, json.loads(reader.stdout.readline()))
        reader.stdin.close()


def _reading(kind: Kind, sight: Sight, told: dict[str, Any]) -> dict[str, Any]:
    texts = {way: told[way]["texts"] for way in WAYS}
    wrong = [text for way in texts.values() for text in way if text != kind.text]
    return {
        "kind": kind.name,
        "is_own": kind.is_own,
        "is_dim": sight.is_dim,
        **sight.as_data(),
        **{way: kind.text in texts[way] for way in WAYS},
        "wrong": wrong,
        "took": {way: told[way]["took"] for way in WAYS},
    }


def table(found: list[dict[str, Any]]) -> str:
    """What is read of each kind, in hundredths: in good and in dim light, as it is and by turns."""
    rows = []
    for name in dict.fromkeys(one["kind"] for one in found):
        of_kind = [one for one in found if one["kind"] == name]
        good = [one for one in of_kind if not one["is_dim"]]
        dim = [one for one in of_kind if one["is_dim"]]
        rows.append(
            (
                name,
                len(of_kind),
                share(good, "plain"),
                share(good, *WAYS),
                share(dim, "plain"),
                share(dim, *WAYS),
            )
        )
    heading = (
        "label",
        "frames",
        "good light, as it is",
        "good light, by turns",
        "dim light, as it is",
        "dim light, by turns",
    )
    lines = [heading, ("---",) * len(heading), *rows]
    return "\n".join(f"| {' | '.join(str(cell) for cell in line)} |" for line in lines) + "\n"


def share(found: list[dict[str, Any]], *ways: str) -> str:
    """Of a hundred frames, how many are read in at least one of these ways."""
    return f"{_part(found, *ways):.0%}".replace("%", " %")


def _part(found: list[dict[str, Any]], *ways: str) -> float:
    return sum(any(one[way] for way in ways) for one in found) / len(found)


def faults(found: list[dict[str, Any]]) -> list[str]:
    """What must not be: an own label unread in dim light, a text that does not stand on a label."""
    own = [one for one in found if one["is_own"] and one["is_dim"]]
    part = _part(own, *WAYS)
    few = [f"own labels in dim light: {part:.1%} read"] if part < OWN_AT_LEAST else []
    # the phone takes a shop's number only when it is seen twice, and any other text at once
    wrong = [
        f"{one['kind']} read as {text}"
        for one in found
        for text in dict.fromkeys(one["wrong"])
        if not text.startswith("]E") or one["wrong"].count(text) > 1
    ]
    return few + wrong


def main() -> int:
    """Read, write, and say whether it was good enough."""
    asked = argparse.ArgumentParser(description="What the phone's reader reads.")
    asked.add_argument("--quick", action="store_true", help="the guide is left alone")
    asked.add_argument("--results", type=Path, default=ROOT / "bench-results", metavar="FOLDER")
    given = asked.parse_args()
    given.results.mkdir(parents=True, exist_ok=True)
    found = list(readings(quick=given.quick))
    wrong = faults(found)
    at = today()
    facts = {"machine": machine(given.results), "measured_at": at, "seed": SEED}
    results = {"schema": 1, **facts, "readings": found, "failures": wrong}
    file = given.results / f"reader-{at.replace(':', '')}.json"
    file.write_text(json.dumps(results, indent=1) + "\n", encoding="utf-8")
    if not given.quick:
        figures.write(GUIDE, {"reader": table(found)})
    print(table(found), *wrong, sep="\n")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
