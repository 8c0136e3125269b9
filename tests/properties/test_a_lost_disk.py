"""Whatever two phones did since the last backup, losing the server's disk changes nothing (SY7).

The books that are restored, once both have handed in what they hold, are the books that were lost:
every balance, promise, menu and open question, and every answer.
"""

import json
from datetime import timedelta
from pathlib import Path

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, rule

from pantry.records.tables import BalanceRow, BatchRow, PromisedRow, ServiceRow, SupplierRow
from tests.commands.phones import Phone, is_backed_up, loses_its_disk, stands
from tests.properties.any_day import Kitchen

_OF_SERVICES = {"confirm", "change_covers", "take_off", "swap_dish", "pin"}


class LostDisk(Kitchen):
    """Every command comes from one of two phones, whichever chance takes."""

    def __init__(self):
        super().__init__()
        self.phones = [Phone(self.house, name) for name in ("cellar", "stove")]
        self.backups = 0
        self.turn = 0

    @initialize(first=st.integers(0, 1))
    def a_first_backup(self, first):
        self.turn = first
        self.back_up()

    def give(self, kind, body, at=None):
        self.turn += 1
        phone = self.phones[self.turn * (self.turn + 1) // 2 % 2]
        base = self.base(kind, body)
        more = {} if base is None else {"base": base}
        answer = phone.give(self.house, kind, body, at=at, **more)
        assert answer.problem is None or answer.problem.code != "program_failed", answer.problem
        if answer.outcome == "applied":
            self.applied.append(answer.id)
        for row in self.house.new_batches(self.batches):
            self.batches[row.id] = row.item
        return answer

    def base(self, kind, body):
        """The version on the screen, or one that is long gone."""
        if kind == "place_order":
            return self.house.row(SupplierRow, id=body["supplier"]).version
        if kind == "propose":
            part = body["service"]
            name = f"{part['date']}/{part['meal']}/{part['table']}"
        elif kind in _OF_SERVICES:
            name = body["service"]
        else:
            return None
        known = self.house.rows(ServiceRow, id=name)
        return known[0].version - (self.turn % 7 == 0) if known else None

    @rule(passed=st.integers(1, 40))
    def time_passes(self, passed):
        """A house in which nobody does anything does nothing either."""
        self.house.now += timedelta(hours=passed)

    @rule()
    def back_up(self):
        self.backups += 1
        self.file = Path(self.folder) / f"{self.backups}.backup"
        is_backed_up(self.house, self.file, *self.phones)

    @rule(first=st.integers(0, 1), later=st.integers(0, 3))
    def the_disk_is_lost(self, first, later):
        self.house.hand_in()
        lost = self.books()
        answers = [entry["answer"] for phone in self.phones for entry in phone.held]
        self.house.engine.dispose()
        self.house = loses_its_disk(self.house, self.file)
        for phone in self.phones[:: 1 if first else -1]:
            phone.hand_in(self.house)
        assert stands(self.house) is None
        assert self.books() == lost
        again = {}
        for phone in self.phones:
            again |= phone.asks_again(self.house)
        for answer in answers:
            same = again[answer.id]
            assert (same.outcome, same.problem) == (answer.outcome, answer.problem)
        assert self.house.disagreements() == []
        self.house.now += timedelta(hours=later)

    def books(self):
        balances = {
            (row.batch, row.account): (row.quantity, row.pieces)
            for row in self.house.rows(BalanceRow)
            if row.quantity or row.pieces
        }
        promised = {
            (row.need, row.batch): row.quantity
            for row in self.house.rows(PromisedRow)
            if row.quantity
        }
        batches = [row.model_dump() for row in self.house.rows(BatchRow)]
        services = [row.model_dump(exclude={"last_command"}) for row in self.house.rows(ServiceRow)]
        asked = sorted(row.id for row in self.house.questions())
        return json.dumps([sorted(balances.items()), sorted(promised.items())]), (
            batches,
            services,
            asked,
        )


TestALostDisk = LostDisk.TestCase
TestALostDisk.settings = settings(
    max_examples=20,
    stateful_step_count=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
