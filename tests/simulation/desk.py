"""A desk: no outbox and no numbers; it sends a command with the same id until it is answered.

What it was told is safe only as far as the server's disk is, and its backups (SY7).
"""

import json
from datetime import datetime

from tests.simulation.oracle_ledger import Shelf
from tests.simulation.shown import standing


class Desk:
    """A browser at a desk, a script, an integrator: whoever has no outbox behind them."""

    def __init__(self) -> None:
        self.epoch = "0000"
        self.cursor: int | None = None
        self.things: dict = {}
        self.waiting: list[str] = []

    def stamped(self, true: datetime) -> dict:
        """The server's own time."""
        return {"at": true.isoformat(timespec="seconds").replace("+00:00", "Z")}

    def shown(self) -> Shelf:
        return standing(self.things)

    def give(self, command: dict) -> None:
        self.waiting.append(json.dumps(command))

    def close(self) -> None:
        """The window is closed: what has no answer is forgotten, and was never said to be done."""
        self.waiting.clear()

    def request(self) -> dict:
        return {
            "epoch": self.epoch,
            "cursor": self.cursor,
            "commands": [self._written(command) for command in self.waiting],
        }

    def _written(self, command: str) -> dict:
        return json.loads(command)

    def take(self, reply: dict) -> None:
        if "answers" not in reply:
            return
        answered = {answer["id"] for answer in reply["answers"]}
        self.waiting = [each for each in self.waiting if json.loads(each)["id"] not in answered]
        self.things = reply["things"] if reply["whole"] else self.things | reply["things"]
        self.epoch, self.cursor = reply["epoch"], reply["cursor"]
