"""A phone as it will be: an outbox of numbered commands, a copy of the house, one sender.

A command is saved in one strict transaction before the screen says so; numbers have no gaps; a
retry is the same bytes; answers, changes and cursor are stored in one transaction; an acknowledged
command is kept until a verified backup has passed it (SY1, SY4, SY5, SY7).
"""

import json
from dataclasses import replace
from datetime import datetime

from tests.simulation.clock import Clock
from tests.simulation.oracle_ledger import Shelf
from tests.simulation.shown import shown
from tests.simulation.storage import Entry, State, Storage

LIST = 5
"""At most so many commands in one request."""

PROTOCOL = 1
STOPPED = frozenset({"device_unknown", "device_cloned", "number_gap"})
"""Refusals after which the server has looked at nothing: the command still waits."""


class Phone:
    """One device, as the program on it sees the world."""

    def __init__(self, name: str, clock: Clock) -> None:
        self.name = name
        self.storage = Storage()
        self.online = True
        self.clock = clock
        self.stopped: str | None = None

    # What it has

    @property
    def state(self) -> State:
        return self.storage.memory

    @property
    def epoch(self) -> str:
        return self.state.epoch

    @property
    def things(self) -> dict:
        return self.state.things

    @property
    def waiting(self) -> tuple[Entry, ...]:
        """What has no answer of this epoch yet."""
        return tuple(entry for entry in self.state.entries if entry.answer is None)

    def own(self) -> tuple[Entry, ...]:
        """One's own commands that the copy does not contain."""
        return tuple(entry for entry in self.state.entries if entry.n > self.state.contained)

    def shown(self) -> Shelf:
        """What the screen says stands where."""
        return shown(self.state.things, self.own())

    # Saving

    def stamped(self, true: datetime) -> dict:
        """The time by the phone's own clock, and how far that is off (SY8)."""
        return {"at": _written(self.clock.reads(true)), "clock": self.clock.stamp()}

    def save(self, command: dict, undone: str | None = None) -> dict:
        """Give the next number and write the command; only then the screen says *saved*."""
        n = self.state.made + 1
        command = command | {"device": self.name, "n": n}
        entry = Entry(command["id"], n, json.dumps(command), undone)
        self._write_entry(entries=(*self.state.entries, entry), made=n)
        return command

    def _write_entry(self, **to: object) -> None:
        self.storage.write(**to)

    def crash(self) -> None:
        self.storage.crash()

    # Sending

    def request(self, *, ahead: bool = False) -> dict:
        """What the one sender sends: the first that have no answer, or the next to be gathered.

        A second tab that sends all the same may be `ahead`, with the commands after those.
        """
        page, complete = self._page()
        if ahead:
            page, complete = self.waiting[len(page) :][:LIST], False
        first = self.state.entries[0].n if self.state.entries else self.state.made + 1
        return {
            "protocol": PROTOCOL,
            "epoch": self.epoch,
            "cursor": self.state.cursor,
            "device": self.name,
            "made": self.state.made,
            "first_held": first,
            "commands": [self._written(entry) for entry in page],
            "was": [entry.was for entry in page],
            "complete": complete,
        }

    def _page(self) -> tuple[tuple[Entry, ...], bool]:
        state = self.state
        if not state.gathered:
            page = self.waiting[:LIST]
        else:
            page = tuple(
                entry for entry in self.waiting if entry.was and entry.id not in state.gathered
            )[:LIST]
        sent = state.gathered | {entry.id for entry in page}
        return page, all(entry.id in sent for entry in self.waiting if entry.was)

    def _written(self, entry: Entry) -> dict:
        return entry.command

    # Hearing

    def take(self, reply: dict, sent: datetime, heard: datetime) -> None:
        """Store what the server answered, all of it in one transaction."""
        now = datetime.fromisoformat(reply["now"])
        self.clock.measure(now, self.clock.reads(sent), self.clock.reads(heard))
        self.stopped = None
        if reply["epoch"] != self.epoch:
            self._meet_epoch(reply["epoch"])
        elif "gathered" in reply:
            self.storage.write(gathered=self.state.gathered | set(reply["gathered"]))
        elif "answers" in reply:
            self._store(reply)

    def _meet_epoch(self, epoch: str) -> None:
        """The server was restored: everything still held has to be handed in again (SY7)."""
        entries = tuple(self._unanswered(entry) for entry in self.state.entries)
        self.storage.write(epoch=epoch, cursor=None, entries=entries, gathered=frozenset())

    def _unanswered(self, entry: Entry) -> Entry:
        was = entry.was if entry.position is None else (self.epoch, entry.position)
        return replace(entry, was=was, answer=None, position=None)

    def _store(self, reply: dict) -> None:
        self.storage.write(
            entries=self._kept(self._answered(reply), reply["backed_up"]),
            **self._copied(reply),
            gathered=frozenset(),
        )

    def _answered(self, reply: dict) -> tuple[Entry, ...]:
        answers = {answer["id"]: answer for answer in reply["answers"]}
        return tuple(self._settled(entry, answers.get(entry.id)) for entry in self.state.entries)

    def _settled(self, entry: Entry, answer: dict | None) -> Entry:
        if answer is None:
            return entry
        code = answer.get("problem", {}).get("code")
        if code in STOPPED:
            self.stopped = code
            return entry
        return replace(entry, answer=json.dumps(answer), position=answer["position"])

    def _kept(self, entries: tuple[Entry, ...], backed_up: int) -> tuple[Entry, ...]:
        return tuple(
            entry for entry in entries if entry.position is None or entry.position > backed_up
        )

    def _copied(self, reply: dict) -> dict:
        things = reply["things"] if reply["whole"] else self.state.things | reply["things"]
        return {"things": things, "cursor": reply["cursor"], "contained": reply["highest"]}


def _written(instant: datetime) -> str:
    return instant.isoformat(timespec="seconds").replace("+00:00", "Z")
