"""What each command should be answered, and what follows: plain Python, none of it the product's.

It hears every command in the order of the journal, says what the answer must be (`applied`; `kept`
for a fact that cannot be applied; `refused` or `conflict` for a decision), and keeps the ledger.
"""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from tests.simulation.oracle_ledger import Ledger, Posting
from tests.simulation.oracle_terms import FACTS, UNIT_OF, Cannot, Moved, Version
from tests.simulation.oracle_verbs import VERBS, Follow, check_rights


class Wrong(AssertionError):  # noqa: N818 - the answer is wrong; the oracle does not err
    """The product answered otherwise than it must."""


@dataclass(frozen=True)
class Heard:
    """One command of the journal."""

    command: dict
    outcome: str


@dataclass
class Oracle:
    """Everything that follows from the commands heard so far.

    Attributes:
        truly: when commands were really given, by id, for whoever wants to know.
    """

    truly: dict[str, datetime] = field(default_factory=dict)
    journal: list[Heard] = field(default_factory=list)
    heard: set[str] = field(default_factory=set)
    ledger: Ledger = field(default_factory=Ledger)
    homes: dict[str, str] = field(default_factory=dict)
    labels: set[str] = field(default_factory=set)
    items: dict[str, Version] = field(default_factory=lambda: {key: Version() for key in UNIT_OF})
    levels: dict[str, str] = field(default_factory=dict)
    services: dict[str, Version] = field(default_factory=dict)
    devices: set[str] = field(default_factory=set)
    revoked: set[str] = field(default_factory=set)
    applied: dict[str, dict] = field(default_factory=dict)
    taken_back: set[str] = field(default_factory=set)
    settled: set[tuple[str, object]] = field(default_factory=set)

    def hear(self, command: dict, outcome: str) -> None:
        """The next command of the journal, and how the product answered it.

        Raises:
            Wrong: it had to answer otherwise.
        """
        self.journal.append(Heard(command, outcome))
        self.heard.add(command["id"])
        if command["kind"] == "missing":
            return
        wanted, follow = self._judge(command)
        if command["kind"] == "settle":
            self._hear_settle(command, outcome)
        elif outcome != wanted:
            raise Wrong(f"{command['kind']} {command['id'][-6:]} was {outcome}, must be {wanted}")
        if outcome == "applied" and follow:
            self.applied[command["id"]] = command
            follow()

    def again(self, upto: int) -> "Oracle":
        """An oracle that has heard the first so many commands only."""
        fresh = Oracle(self.truly)
        for heard in self.journal[:upto]:
            fresh.hear(heard.command, heard.outcome)
        return fresh

    def _judge(self, command: dict) -> tuple[str, Follow | None]:
        try:
            check_rights(self, command)
            return "applied", VERBS[command["kind"]](self, command)
        except Cannot:
            return ("kept" if command["kind"] in FACTS else "refused"), None
        except Moved:
            return "conflict", None

    def posts(self, command: dict, *moves: tuple[str, str | None, str, int]) -> Follow:
        """What posts these movements of a command once it is applied."""
        clock = command.get("clock", {"offset_ms": 0, "bound_ms": 0})
        written = datetime.fromisoformat(command["at"])
        at = written + timedelta(seconds=(clock["offset_ms"] + 500) // 1000)
        bound = timedelta(milliseconds=clock["bound_ms"])
        identity, device = command["id"], command.get("device")
        common = (at, bound, self.truly.get(identity, at), len(self.journal), identity, device)

        def follow() -> None:
            for move in moves:
                self.ledger.post(Posting(*common, *move))

        return follow

    def _hear_settle(self, command: dict, outcome: str) -> None:
        """Which questions there are is the product's to say: of several answers one is applied."""
        key = (command["body"]["question"], command["base"])
        if outcome == "applied" and key in self.settled:
            raise Wrong(f"question {key} was settled twice")
        if outcome == "kept":
            raise Wrong("a decision is never kept without effect")
