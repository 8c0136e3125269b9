"""The server's disk is lost: a backup is restored, phones hand in, all is replayed (SY7)."""

from pantry.records.database import reading
from tests.simulation import server
from tests.simulation.checks import require
from tests.simulation.history import History

FAULTS = (server.BEFORE_COMMIT, server.AFTER_COMMIT, server.COMMIT_FAILS)


class Restoring:
    """Disks that are lost in one history, and how the house goes on."""

    def __init__(self, history: History) -> None:
        self.world = history
        self.draw = history.draw
        self._patience = 0
        self._epochs = 0
        self._lost: dict[str, str] = {}
        self._is_whole = False
        self._losses = self.draw.choice([0, 1, 1, 2])

    def lose_disk(self) -> None:
        world = self.world
        if not (world.server.exchange.is_open and world.server.backups and self._losses):
            return
        self._losses -= 1
        self._epochs += 1
        older = world.server.backups > 1 and self.draw.random() < 0.35
        before = {heard.command["id"]: heard.outcome for heard in world.oracle.journal}
        position = world.server.lose_disk(f"{self._epochs:04}", older=older)
        kept = world.forget_after(position, older=older)
        self._lost = {key: outcome for key, outcome in before.items() if key not in kept}
        self._is_whole = world.held_with_a_place() - kept == self._lost.keys()
        self._patience = world.step + self.draw.choice([8, 16, 1000])
        world.counts["disks lost"] += 1
        world.say(f"the disk is lost; restored to {position}{', an older backup' if older else ''}")

    def turn(self) -> None:
        """A restored server that has heard everybody, or is told to go on, replays."""
        exchange = self.world.server.exchange
        if exchange.gathering:
            with reading(self.world.server.engine) as connection:
                everybody = exchange.everybody_was_heard(connection)
            if not everybody and self.world.step < self._patience:
                return
            self._is_whole = self._is_whole and everybody
            self.world.say(f"the replay begins{'' if everybody else ' without everybody'}")
            exchange.gathering, exchange.replaying = False, True
        if exchange.replaying:
            is_hit = self.world.loss and self.draw.random() < 0.15
            self.world.replay(self.draw.choice(FAULTS) if is_hit else None)
            if exchange.is_open:
                self._check_replay()

    def _check_replay(self) -> None:
        """What had been answered is answered so again, where nothing that went before is lost.

        Where a phone never heard that a command of its own was applied, nobody knows the place of
        that command any more, and what followed from it may be answered otherwise.
        """
        now = {heard.command["id"]: heard.outcome for heard in self.world.oracle.journal}
        changed = [key for key, outcome in self._lost.items() if now.get(key, outcome) != outcome]
        self.world.counts["answers that a restore changed"] += len(changed)
        if not self._is_whole:
            return
        self.world.counts["replays of everything"] += 1
        for key, outcome in self._lost.items():
            require(
                now.get(key) == outcome,
                f"{self.world.seen.given[key]['kind']} {key[-6:]} was {outcome}; "
                f"after the restore it is {now.get(key, 'gone')}",
            )
