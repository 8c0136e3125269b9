"""Histories hold, and are the same for the same seed (SY1-SY11)."""

import os
import subprocess
import sys
from collections import Counter

import pytest

from tests.simulation.course import play

PART = 12
PARTS = 10
HAPPENS = (
    "request lost",
    "request late",
    "request twice",
    "request overtaken",
    "server: before commit",
    "server: after commit",
    "server: commit fails",
    "phone crashed",
    "phone died saving",
    "backups",
    "disks lost",
    "replays of everything",
    "outcome: applied",
    "outcome: kept",
    "outcome: refused",
    "outcome: conflict",
)


@pytest.mark.parametrize("part", range(PARTS))
def test_SY1_to_SY11_hold_in_every_history(premises, part):
    """Nothing lost, twice, invented or out of order, whatever befell phones, network and server."""
    counts = Counter()
    for seed in range(part * PART, (part + 1) * PART):
        played = play(seed, premises)
        assert played.broken is None, played.told()
        counts += played.counts
    assert [each for each in HAPPENS if not counts[each]] == []


def test_the_same_seed_gives_the_same_history(premises):
    """The last link of the journal's chain covers every command, answer and instant."""
    assert [play(seed, premises).head for seed in (3, 4)] == _heads_in_another_process()


def _heads_in_another_process():
    script = (
        "from tests.simulation.course import play\n"
        "from tests.simulation.premises import Premises\n"
        "with Premises() as premises:\n"
        "    print(*(play(seed, premises).head for seed in (3, 4)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        env=os.environ | {"PYTHONHASHSEED": "7"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout.split()
