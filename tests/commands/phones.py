"""A phone as the house sees it, and a disk that is lost: for what is replayed after a restore."""

from itertools import count

from msgspec import convert

from pantry.commands import gathered
from pantry.commands.gathered import Held, Holding
from pantry.records.backup import back_up, restore
from pantry.records.database import open_database, reading, writing
from pantry.records.rows import one
from pantry.records.tables import HouseRow
from tests.commands.house import House, written
from tests.commands.larkfield import CHEF, ID, MANAGER

_numbers = count(1)


class Phone:
    """An outbox: what it has made, what it was answered, what it still holds (SY7)."""

    def __init__(self, house, name, person=CHEF):
        self.name, self.person, self.made = name, person, 0
        self.held = []
        house.do("enrol_device", {"device": name, "name": f"{name} phone"}, person=MANAGER)

    def save(self, house, kind, body=None, **rest):
        """A command that waits in the outbox."""
        self.made += 1
        rest.setdefault("person", self.person)
        command = house.command(kind, body, device=self.name, n=self.made, **rest)
        self.held.append({"command": command})
        return command["id"]

    def send(self, house):
        """Hand in what has no answer; answers what was said."""
        waiting = [entry for entry in self.held if "answer" not in entry]
        answers = house.hand_in(*(entry["command"] for entry in waiting))
        for entry, answer in zip(waiting, answers, strict=False):
            if answer.position is not None:
                entry |= {"answer": answer, "epoch": epoch(house)}
                entry["answered_at"] = written(house.now)
        return answers

    def give(self, house, kind, body=None, **rest):
        """Save a command and hand it in at once; answers what was said to it."""
        self.save(house, kind, body, **rest)
        return self.send(house)[-1]

    def do(self, house, kind, body=None, **rest):
        answer = self.give(house, kind, body, **rest)
        assert answer.outcome == "applied", answer.problem
        return answer.id

    def forget(self, position):
        """Prune what a verified backup has passed."""
        self.held = [
            entry
            for entry in self.held
            if "answer" not in entry or entry["answer"].position > position
        ]

    def holding(self, commands=None, *, complete=True):
        """All that it holds up to the last answered one, or the part that is named."""
        answered = [number for number, entry in enumerate(self.held) if "answer" in entry]
        held = self.held[: answered[-1] + 1] if answered else []
        first = self.held[0]["command"]["n"] if self.held else self.made + 1
        part = held if commands is None else held[commands]
        return Holding(first, [convert(entry, Held) for entry in part], complete)

    def hand_in(self, house, commands=None, *, complete=True):
        """Meet the restored house: hand in, and forget what the lost one answered."""
        with writing(house.engine) as connection:
            holding = self.holding(commands, complete=complete)
            gathered.hand_in(connection, ID, self.name, holding, house.now)

    def comes_again(self, house):
        """Hand in, then send all of it again: each gets its first answer."""
        self.hand_in(house)
        return self.asks_again(house)

    def asks_again(self, house):
        """What is said to everything it holds, by id, once the house has replayed."""
        for entry in self.held:
            entry.pop("answer", None)
        return {answer.id: answer for answer in self.send(house)}


def epoch(house):
    with house.books() as connection:
        return one(connection, HouseRow, id=ID).epoch


def loses_its_disk(house, file, engine=None):
    """Another house, restored from a backup; a later epoch sorts behind an earlier one."""
    engine = engine or open_database(f"sqlite:///{file}.{next(_numbers)}.db")
    restore(engine, file, lambda: f"epoch {next(_numbers):04}", house.now)
    other = House(engine)
    other.now, other._ids = house.now, house._ids
    return other


def is_backed_up(house, file, *phones):
    """A verified backup, of which the phones have heard."""
    position = back_up(house.engine, file).positions[ID]
    for phone in phones:
        phone.forget(position)
    return file


def stands(house, device=None):
    with reading(house.engine) as connection:
        return gathered.stands(connection, ID, device)


def goes_on(house, device=None):
    with writing(house.engine) as connection:
        return gathered.go_on(connection, ID, MANAGER, house.now, device)
