"""Commands through the writer and the door, beside the bare loop that writes the same rows."""

import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path
from time import perf_counter

from founding import close
from given_commands import Command
from naive_writing import Write, contents, write, writes_of
from rounds import Ratio, compare
from scenario import HOUSE, NOW
from sqlalchemy import Connection, Engine

from pantry.commands.answers import Answer
from pantry.commands.door import apply
from pantry.records.database import open_database
from pantry.records.writer import Writer


@dataclass
class Door:
    """One list of commands given to copies of one house.

    Attributes:
        file: the house, never written to.
        commands: in order.
        list_of: so many commands go in as one list.
        group_of: so many lists share one commit.
        failures: what went wrong, in plain words.
    """

    file: Path
    commands: Sequence[Command]
    list_of: int
    group_of: int
    failures: list[str] = field(default_factory=list)
    _engine: Engine = field(init=False)
    _work: Path = field(init=False)
    _twins: Path = field(init=False)

    def __post_init__(self) -> None:
        """One engine for all rounds, as a server has: its statements stay compiled."""
        self._work = self.file.with_suffix(".ours.db")
        self._twins = self.file.with_suffix(".twin.db")
        self._engine = open_database(f"sqlite:///{self._work}")

    def measure(self, name: str, rounds: int) -> Ratio:
        """Seconds of ours and of the twin, who must have written the same rows."""
        groups = self._written()
        self._twin(groups)
        close(self._engine)
        if contents(self._work) != contents(self._twins):
            self.failures.append(f"{name}: the twin wrote other rows than the door")
        seconds = compare(self._ours, lambda: self._twin(groups), rounds)
        self._clear()
        rows = sum(_rows(write) for group in groups for write in group)
        facts = {
            "commands_in_a_list": self.list_of,
            "lists_in_a_commit": self.group_of,
            "rows_written_a_command": round(rows / len(self.commands), 1),
            "commits": len(groups),
        }
        twin = "the same rows written by a bare sqlite3 loop, as many to a commit"
        ours = "commands through the writer and the door"
        return Ratio(name, ours, twin, len(self.commands), seconds, facts)

    def _lists(self) -> list[Sequence[Command]]:
        commands = iter(self.commands)
        return list(iter(lambda: list(islice(commands, self.list_of)), []))

    def _groups(self) -> Iterator[list[Sequence[Command]]]:
        lists = iter(self._lists())
        return iter(lambda: list(islice(lists, self.group_of)), [])

    def _ours(self) -> float:
        self._begin(self._work)
        with Writer(self._engine) as writer:
            begun = perf_counter()
            for group in self._groups():
                self._give(writer, group)
            return perf_counter() - begun

    def _give(self, writer: Writer, group: list[Sequence[Command]]) -> None:
        """Submit every list of a group at once, and wait until all are durable."""
        waiting = [writer.submit(HOUSE.id, _given(commands)) for commands in group]
        for future in waiting:
            for answer in future.result():
                if answer.outcome != "applied":
                    self.failures.append(f"{answer.outcome}: {answer.problem}")

    def _written(self) -> list[list[Write]]:
        """What the door writes, commit by commit."""
        self._begin(self._work)
        groups = []
        with Writer(self._engine) as writer:
            for group in self._groups():
                with writes_of(self._engine) as writes:
                    self._give(writer, group)
                groups.append(list(writes))
        return groups

    def _twin(self, groups: Sequence[Sequence[Write]]) -> float:
        self._begin(self._twins)
        return write(self._twins, groups)

    def _begin(self, file: Path) -> None:
        """A fresh copy of the house."""
        self._engine.dispose()
        _remove(file)
        shutil.copyfile(self.file, file)

    def _clear(self) -> None:
        self._engine.dispose()
        _remove(self._work)
        _remove(self._twins)


def _given(commands: Sequence[Command]) -> Callable[[Connection], list[Answer]]:
    def work(connection: Connection) -> list[Answer]:
        return apply(connection, HOUSE.id, commands, NOW)

    return work


def _rows(written: Write) -> int:
    return len(written.parameters) if written.many else 1


def _remove(file: Path) -> None:
    for suffix in ("", "-wal", "-shm"):
        file.with_name(file.name + suffix).unlink(missing_ok=True)
