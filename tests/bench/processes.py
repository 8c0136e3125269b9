"""Whole processes: how long until an answer stands in the terminal, start-up and all."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from time import perf_counter

from rounds import Ratio, Timing, alternate, compare
from scenario import NOW

_CHOOSEBY = str(Path(sys.executable).with_name("chooseby"))
_SEED = str(Path(__file__).resolve().parents[2] / "seed")
_STARTS = 5
"""One start is over too soon to be measured alone."""


def start_up(rounds: int) -> Ratio:
    """A question that needs no database, beside the interpreter starting and ending."""
    question = [_CHOOSEBY, "measure", "1 1/2 cups", "--system", "us"]
    nothing = [sys.executable, "-c", "pass"]

    def ours() -> float:
        return sum(_seconds(question) for _ in range(_STARTS))

    def twin() -> float:
        return sum(_seconds(nothing) for _ in range(_STARTS))

    return Ratio(
        "start-up",
        "`chooseby measure`, from the start of the process to its end",
        "`python -c pass`",
        _STARTS,
        compare(ours, twin, rounds),
    )


def import_of_the_demo_house(folder: Path, rounds: int) -> Timing:
    """The house book in `seed/` read, checked and taken in by a process of its own."""
    data = folder / "data"
    environment = {"CHOOSEBY_DATA": str(data), "CHOOSEBY_NOW": NOW.isoformat()}

    def once() -> float:
        shutil.rmtree(data, ignore_errors=True)
        return _seconds([_CHOOSEBY, "import", _SEED], **environment)

    found = Timing("import of the demo house", alternate({"seconds": once}, rounds)["seconds"])
    shutil.rmtree(data, ignore_errors=True)
    return found


def _seconds(arguments: list[str], **environment: str) -> float:
    begun = perf_counter()
    subprocess.run(arguments, env=os.environ | environment, capture_output=True, check=True)
    return perf_counter() - begun
