"""What a phone keeps: one state, written strictly, and what a crash leaves of it (SY4).

A transaction that has ended is on the disk; one that has not is gone. A history may let the phone
die before one of its next writes.
"""

import json
from dataclasses import dataclass, field, replace

from tests.simulation.copies import Things


class PhoneDied(Exception):  # noqa: N818 - a phone dies; the program does not err
    """The phone crashed before a write."""


@dataclass(frozen=True)
class Entry:
    """One command in the outbox; `written` never changes.

    Attributes:
        undone: for a command that takes an earlier one back, that one, for the screen.
        was: epoch and position where it stood in a journal that was lost.
        answer: what this epoch answered, None while it is not known.
        position: where it stands in this epoch's journal.
    """

    id: str
    n: int
    written: str
    undone: str | None = None
    was: tuple[str, int] | None = None
    answer: str | None = None
    position: int | None = None

    @property
    def command(self) -> dict:
        return json.loads(self.written)

    @property
    def outcome(self) -> str | None:
        return json.loads(self.answer)["outcome"] if self.answer else None


@dataclass(frozen=True)
class State:
    """Everything the phone has.

    Attributes:
        entries: the outbox, in order of number.
        made: the highest number made.
        epoch: of the server that the copy and the answers are from.
        cursor: the last change the copy contains, None before there is a copy of this epoch.
        contained: the highest own number whose effect the copy contains.
        things: the copy.
        gathered: ids that a restored server has taken in to be replayed.
    """

    entries: tuple[Entry, ...] = ()
    made: int = 0
    epoch: str = "0000"
    cursor: int | None = None
    contained: int = 0
    things: Things = field(default_factory=dict)
    gathered: frozenset[str] = frozenset()


@dataclass
class Storage:
    """What the program sees, and what is on the disk."""

    memory: State = field(default_factory=State)
    disk: State = field(default_factory=State)
    dies_at: int | None = None

    def write(self, **to: object) -> None:
        """One strict transaction.

        Raises:
            PhoneDied: before it ended.
        """
        if self.dies_at == 0:
            raise PhoneDied
        if self.dies_at is not None:
            self.dies_at -= 1
        self.memory = self.disk = replace(self.memory, **to)

    def write_later(self, **to: object) -> None:
        """A relaxed transaction: on the disk with the next strict one, if the phone lives on."""
        self.memory = replace(self.memory, **to)

    def crash(self) -> None:
        """What was not on the disk is gone."""
        self.memory = self.disk
        self.dies_at = None
