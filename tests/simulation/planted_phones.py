"""Phones and desks with one method written wrongly, as somebody could really write it."""

import json
from dataclasses import replace
from datetime import datetime
from typing import Any

from tests.simulation.desk import Desk
from tests.simulation.phone import Phone
from tests.simulation.storage import Entry


class PrunesAtAnswer(Phone):
    def _kept(self, entries: tuple[Entry, ...], _backed_up: int) -> tuple[Entry, ...]:
        return tuple(entry for entry in entries if entry.answer is None)


class PrunesByOldPlaces(Phone):
    def _unanswered(self, entry: Entry) -> Entry:
        return replace(super()._unanswered(entry), position=entry.position)


class WipesAtNewEpoch(Phone):
    def _meet_epoch(self, epoch: str) -> None:
        self.storage.write(epoch=epoch, cursor=None, entries=(), gathered=frozenset())


class WipesAtFreshCopy(Phone):
    def _store(self, reply: dict) -> None:
        super()._store(reply)
        if reply["whole"]:
            self.storage.write(entries=())


class ForgetsToHandInAgain(Phone):
    def _unanswered(self, entry: Entry) -> Entry:
        return entry


class NewIdOnRetry(Phone):
    def __init__(self, *args: Any) -> None:
        super().__init__(*args)
        self._tries: dict[str, int] = {}

    def _written(self, entry: Entry) -> dict:
        tries = self._tries[entry.id] = self._tries.get(entry.id, 0) + 1
        return entry.command if tries == 1 else entry.command | {"id": other_id(entry.id, tries)}


class DeskNewIdOnRetry(Desk):
    def __init__(self) -> None:
        super().__init__()
        self._sent: set[str] = set()

    def request(self) -> dict:
        for number, written in enumerate(self.waiting):
            command = json.loads(written)
            if command["id"] in self._sent:
                command["id"] = other_id(command["id"], 7)
                self.waiting[number] = json.dumps(command)
            self._sent.add(command["id"])
        return super().request()


def other_id(identity: str, number: int) -> str:
    return identity[:-4] + f"{int(identity[-4:], 16) + number & 0xFFFF:04x}"


class ShowsTwice(Phone):
    def own(self) -> tuple[Entry, ...]:
        return tuple(
            entry
            for entry in self.state.entries
            if entry.answer is None or entry.n > self.state.contained
        )


class AnswersBeforeCopy(Phone):
    def _store(self, reply: dict) -> None:
        self.storage.write(entries=self._kept(self._answered(reply), reply["backed_up"]))
        self.storage.write(**self._copied(reply), gathered=frozenset())

    def own(self) -> tuple[Entry, ...]:
        return self.waiting


class CursorBeforeCopy(Phone):
    def _store(self, reply: dict) -> None:
        self.storage.write(cursor=reply["cursor"])
        super()._store(reply)


class SavedBeforeWritten(Phone):
    def _write_entry(self, **to: object) -> None:
        self.storage.write_later(**to)


class SendsOnlyNew(Phone):
    """Sends what was never sent, as if every request arrived."""

    def __init__(self, *args: Any) -> None:
        super().__init__(*args)
        self._sent = 0

    def _page(self) -> tuple[tuple[Entry, ...], bool]:
        page = tuple(entry for entry in self.waiting if entry.n > self._sent)[:5]
        self._sent = max([self._sent, *(entry.n for entry in page)])
        return page, True


class RawClock(Phone):
    def stamped(self, true: datetime) -> dict:
        return {"at": super().stamped(true)["at"]}
