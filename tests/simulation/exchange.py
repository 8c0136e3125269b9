"""The exchange that phones and desks have with the server (SY5, SY7), on the real door.

The door is the product's; what is modelled here: the request with epoch and
cursor and its reply; kept changes and fresh copies; after a restore the gathering of what phones
still hold, its replay by old position before anything new, and the question about numbers that
nobody holds. All of it happens inside one piece of work of the real writer.
"""

import json
from datetime import datetime
from uuid import NAMESPACE_OID, uuid5

from sqlalchemy import Connection, text

from pantry.commands import door
from pantry.commands.answers import Answer
from pantry.commands.envelope import canonical
from pantry.records import journal
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import change, find, one, remove
from pantry.records.tables import AwaitedRow, DeviceRow, HouseRow
from tests.simulation import copies
from tests.simulation.thornwick import ID

_TABLES = {
    "simulated_gathered": "id PRIMARY KEY, epoch, position, device, command",
    "simulated_heard_from": "device PRIMARY KEY, first_held, complete",
}
_GATHER = text(
    "INSERT OR IGNORE INTO simulated_gathered VALUES (:id, :epoch, :position, :device, :command)"
)
_HEAR = text("INSERT OR REPLACE INTO simulated_heard_from VALUES (:device, :first_held, :complete)")
_HEARD = text("SELECT device, first_held FROM simulated_heard_from")
_SILENT = text(
    "SELECT COUNT(*) FROM device WHERE house = :house AND id NOT IN"
    " (SELECT device FROM simulated_heard_from WHERE complete = 1)"
)
_NEXT = "SELECT id, command FROM simulated_gathered ORDER BY {} LIMIT 5"
_DONE = text("DELETE FROM simulated_gathered WHERE id = :id")


class Exchange:
    """What the server says to one request.

    Attributes:
        kept_changes: whose cursor is further behind gets a fresh copy.
        gathering: a restored server takes in what phones hold, and does nothing else yet.
        replaying: what was gathered is being replayed.
    """

    def __init__(self, kept_changes: int) -> None:
        self.kept_changes = kept_changes
        self.gathering = False
        self.replaying = False

    @property
    def is_open(self) -> bool:
        """Whether it does what it is for, and nothing is left to be replayed."""
        return not (self.gathering or self.replaying)

    def answer(self, connection: Connection, request: dict, now: datetime) -> dict:
        """The reply to a phone or a desk; it may leave the process only after the commit."""
        house = one(connection, HouseRow, id=ID)
        reply = {"epoch": house.epoch, "now": now.isoformat()}
        device = request.get("device")
        if device and self._is_of_another_epoch(request, house):
            return reply
        if not self.is_open:
            return reply | (self._gather(connection, request) if device else {})
        first_held = request.get("first_held", 1)
        missing = self._note_missing(connection, device or "", first_held, now)
        answers = door.apply(connection, ID, request["commands"], now)
        return reply | {"missing": missing} | self._what_is_new(connection, request, answers)

    def _is_of_another_epoch(self, request: dict, house: HouseRow) -> bool:
        return request["epoch"] != house.epoch

    def _what_is_new(self, connection: Connection, request: dict, answers: list[Answer]) -> dict:
        house = one(connection, HouseRow, id=ID)
        device = find(connection, DeviceRow, house=ID, id=request.get("device") or "")
        return {
            "answers": [json.loads(canonical(answer)) for answer in answers],
            "backed_up": self._backed_up(house),
            "highest": device.highest if device else 0,
            "cursor": house.change,
            **self._changes(connection, request, house),
        }

    def _backed_up(self, house: HouseRow) -> int:
        return house.backed_up

    def _changes(self, connection: Connection, request: dict, house: HouseRow) -> dict:
        cursor = request["cursor"]
        behind = cursor is None or request["epoch"] != house.epoch
        if behind or house.change - cursor > self.kept_changes:
            return {"whole": True, "things": copies.whole(connection), "numbers": []}
        numbers, things = copies.since(connection, cursor)
        return {"whole": False, "things": things, "numbers": numbers}

    # After a restore

    def begin_gathering(self, connection: Connection) -> None:
        """Hear every phone first, as it is modelled here and not as the product does."""
        remove(connection, AwaitedRow, house=ID)
        for table, columns in _TABLES.items():
            connection.exec_driver_sql(f"CREATE TABLE {table} ({columns})")
        self.gathering, self.replaying = True, False

    def _gather(self, connection: Connection, request: dict) -> dict:
        if self.replaying:
            return {"gathered": []}
        gathered = []
        for command, was in zip(request["commands"], request["was"], strict=True):
            if was:
                epoch, position = was
                row = {"id": command["id"], "epoch": epoch, "position": position}
                row |= {"device": request["device"], "command": json.dumps(command)}
                connection.execute(_GATHER, row)
                gathered.append(command["id"])
        heard = {name: request[name] for name in ("device", "first_held", "complete")}
        connection.execute(_HEAR, heard)
        return {"gathered": gathered}

    def everybody_was_heard(self, connection: Connection) -> bool:
        """Whether every enrolled phone has handed in all it holds."""
        return connection.execute(_SILENT, {"house": ID}).scalar_one() == 0

    def replay(self, connection: Connection, now: datetime) -> dict:
        """Replay the next few by old position; answers what became of each, and if it was all."""
        missing = []
        for device, first_held in connection.execute(_HEARD).all():
            missing += self._note_missing(connection, device, first_held, now)
        done = []
        rows = connection.exec_driver_sql(_NEXT.format(self._order())).all()
        for identity, written in rows:
            command = json.loads(written)
            (answer,) = door.apply(connection, ID, [command], now)
            connection.execute(_DONE, {"id": identity})
            done.append((command, json.loads(canonical(answer))))
        if not rows:
            for table in _TABLES:
                connection.exec_driver_sql(f"DROP TABLE {table}")
        return {"missing": missing, "done": done, "finished": not rows}

    def _order(self) -> str:
        """By the places in the journals that were lost; epochs are sorted by their time."""
        return "epoch, position"

    def _note_missing(
        self, connection: Connection, device: str, first_held: int, now: datetime
    ) -> list[dict]:
        """Numbers that neither the server nor the phone has are kept as missing; the phone goes on.

        Answers what stands in the journal for them.
        """
        row = find(connection, DeviceRow, house=ID, id=device)
        if row is None or first_held <= row.highest + 1:
            return []
        numbers = range(row.highest + 1, first_held)
        books = Books(connection, ID, now)
        missing = [_keep_missing(books, device, n) for n in numbers]
        self._ask_about(books, row, numbers)
        change(connection, DeviceRow, {"house": ID, "id": device}, highest=first_held - 1)
        books.close()
        return missing

    def _ask_about(self, books: Books, device: DeviceRow, numbers: range) -> None:
        written = f"{numbers[0]}-{numbers[-1]}"
        ask(
            books,
            "numbers_missing",
            "manager",
            f"{device.id}|{written}",
            recorded=f"{device.name} has handed in its numbers {written}, and was answered.",
            against="No backup and no device has them any more.",
            answers=("record it again", "it is known", "nothing is missing"),
        )


def _keep_missing(books: Books, device: str, n: int) -> dict:
    """An entry of the journal in place of the command that had the number."""
    books.position += 1
    identity = str(uuid5(NAMESPACE_OID, f"{device} {n} {books.house.epoch}"))
    missing = {"id": identity, "kind": "missing", "device": device, "n": n}
    answer = canonical(Answer(identity, "refused", books.position))
    entry = journal.Entry(
        id=identity,
        kind="missing",
        at=books.now,
        person="",
        device=device,
        n=n,
        envelope=canonical(missing),
        outcome="refused",
        answer=answer,
    )
    journal.keep(books, entry)
    return missing
