"""Two servers on one database, and servers that are killed: nothing lost, nothing twice."""

import subprocess
import sys
from collections import Counter
from pathlib import Path

from pantry.records.accounts import SUPPLIER
from pantry.records.tables import BalanceRow, ChangeRow, JournalRow, MovementRow
from tests.hazel_court import COLD_ROOM

ROOT = Path(__file__).parents[2]


def servers(house, *arguments):
    """The lines that the processes print."""
    house.database.dispose()
    url = house.database.url.render_as_string(hide_password=False)
    what, *numbers = map(str, arguments)
    done = subprocess.run(
        [sys.executable, "-m", "tests.records.servers", what, url, house.id, *numbers],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.splitlines()


def assert_one_sequence(house):
    numbers = [row.number for row in house.rows(ChangeRow)]
    assert numbers == list(range(1, house.heads().change + 1))
    positions = [row.position for row in house.rows(JournalRow)]
    assert positions == list(range(1, house.heads().position + 1))


def test_SY6_two_servers_write_one_sequence_and_neither_loses_what_the_other_did(house):
    """Sixteen take five of fifty, and two hundred five of a thousand, through two servers.

    A read before a write that the other server made meanwhile would let all sixteen take.
    """
    house.post("milk", 50, SUPPLIER, COLD_ROOM)
    house.post("flour", 1_000, SUPPLIER, COLD_ROOM)
    answers = servers(house, "take", 2, 5, "flour=100", "milk=8")
    assert Counter(answers) == {"milk taken": 10, "milk refused": 6, "flour taken": 200}
    left = {row.batch: row.quantity for row in house.rows(BalanceRow, account=COLD_ROOM)}
    assert left == {"milk": 0, "flour": 0}
    assert len(house.rows(MovementRow)) == 2 + 10 + 200
    assert_one_sequence(house)
    assert house.disagreements() == []


def test_SY6_a_server_killed_in_the_middle_keeps_what_it_acknowledged_and_nothing_by_half(house):
    acknowledged = servers(house, "kill", 10, 25)
    assert len(acknowledged) >= 250
    assert len(acknowledged) == len(set(acknowledged))
    kept = [row.id for row in house.rows(JournalRow)]
    assert set(acknowledged) <= set(kept)
    moved = Counter(row.command for row in house.rows(MovementRow))
    assert moved == dict.fromkeys(kept, 3), "three movements a command, for every command kept"
    for number in range(10):
        of_round = [name for name in kept if name.startswith(f"round {number} ")]
        assert of_round == [f"round {number} command {n}" for n in range(1, len(of_round) + 1)]
    assert_one_sequence(house)
    assert house.disagreements() == []
