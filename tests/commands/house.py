"""A small house of our own, and how the tests give it commands.

Larkfield Lodge, on Monday 8 March 2027 at seven in the morning: a cold room, a pantry, a freezer,
a dairy that comes every weekday, a butcher on Tuesdays and Fridays. Nothing is in stock: every test
receives what it needs.
"""

from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from itertools import count
from uuid import UUID

from pantry.commands import door
from pantry.records.database import reading, writing
from pantry.records.read import stock
from pantry.records.rows import change, every, find, one
from pantry.records.tables import (
    BalanceRow,
    BatchRow,
    HouseRow,
    ItemRow,
    JournalRow,
    MovementRow,
    NeedRow,
    PromisedRow,
    QuestionRow,
    RecipeRow,
)
from pantry.records.verify import disagreements
from tests.commands.larkfield import CHEF, ID

NOW = datetime(2027, 3, 8, 7, tzinfo=UTC)
DAY = timedelta(days=1)
HOUR = timedelta(hours=1)


def at(day, hour=7, minute=0):
    """An instant of March 2027; in the house the same wall time until the clocks change."""
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


def end_of(day):
    return datetime(2027, 3, day, 23, 59, 59, tzinfo=UTC)


def use_by(day):
    return {"kind": "use_by", "date": f"2027-03-{day:02d}"}


def best_before(day):
    return {"kind": "best_before", "date": f"2027-03-{day:02d}"}


NO_MARK = {"kind": "none"}


def written(instant):
    return instant.isoformat().replace("+00:00", "Z")


class House:
    """The house as a test sees it: its clock, its door, and what stands on its books."""

    def __init__(self, engine):
        self.engine = engine
        self.now = NOW
        self._ids = count(1)

    # Giving commands

    def new_id(self):
        return str(UUID(int=(0x7 << 76) | (0x2 << 62) | next(self._ids)))

    def command(self, kind, body=None, *, person=CHEF, at=None, **rest):
        envelope = {"id": self.new_id(), "kind": kind, "at": written(at or self.now)}
        return envelope | {"person": person, "body": body or {}} | rest

    def hand_in(self, *commands):
        """The answers to a list of commands, in one durable transaction."""
        with writing(self.engine) as connection:
            return door.apply(connection, ID, commands, self.now)

    def give(self, kind, body=None, **rest):
        """The answer to one command, whatever it is."""
        (answer,) = self.hand_in(self.command(kind, body, **rest))
        return answer

    def do(self, kind, body=None, **rest):
        """Give a command that must be applied, and answer its id."""
        answer = self.give(kind, body, **rest)
        assert answer.outcome == "applied", answer.problem
        return answer.id

    def refuses(self, kind, body=None, **rest):
        """Give a decision that must be refused, and answer the problem."""
        answer = self.give(kind, body, **rest)
        assert answer.outcome == "refused", answer
        return answer.problem

    def keeps(self, kind, body=None, **rest):
        """Give a fact that must be kept without effect, and answer the problem."""
        answer = self.give(kind, body, **rest)
        assert answer.outcome == "kept", answer
        return answer.problem

    def receive(self, batch, item, quantity, mark=NO_MARK, **more):
        """Take in a batch, into its item's own area, as the chef."""
        rest = {key: more.pop(key) for key in ("person", "at") if key in more}
        body = {"batch": batch, "item": item, "quantity": quantity, "date_mark": mark}
        body |= {"area": more.pop("area", None) or self.area_of(item), "verdict": "accept"}
        return self.do("receive", body | more, **rest)

    def menu(self, service, *dishes, covers=4, time="19:30", **rest):
        """Propose and confirm a service, `DATE/MEAL/TABLE`."""
        self.propose(service, *dishes, covers=covers, time=time)
        return self.do("confirm", {"service": service, "dishes": chosen(*dishes)}, **rest)

    def propose(self, service, *dishes, covers=4, time="19:30"):
        date, meal, table = service.split("/")
        part = {"date": date, "meal": meal, "table": table, "time": time, "covers": covers}
        courses = [{"course": "main", "dishes": [{"dish": dish} for dish in dishes]}]
        return self.do("propose", {"service": part, "courses": courses})

    def set_decimal_mark(self, mark):
        """As its house book would say it."""
        with writing(self.engine) as connection:
            change(connection, HouseRow, {"id": ID}, decimal_mark=mark)

    def set_item(self, item, **columns):
        """What the house says of an item, as its house book would."""
        with writing(self.engine) as connection:
            change(connection, ItemRow, {"house": ID, "id": item}, **columns)

    def set_recipe(self, recipe, **columns):
        """What the house says of a recipe, as its house book would."""
        with writing(self.engine) as connection:
            change(connection, RecipeRow, {"house": ID, "id": recipe}, **columns)

    # Looking at the books

    @contextmanager
    def books(self):
        with reading(self.engine) as connection:
            yield connection

    def rows(self, model, **equal):
        with self.books() as connection:
            return every(connection, model, house=ID, **equal)

    def row(self, model, **equal):
        (found,) = self.rows(model, **equal)
        return found

    def area_of(self, item):
        with self.books() as connection:
            return one(connection, ItemRow, house=ID, id=item).area

    def batch(self, name):
        with self.books() as connection:
            found = find(connection, BatchRow, house=ID, id=name)
            return found or one(connection, BatchRow, house=ID, label=name)

    def balances(self, batch):
        """What each account holds of a batch that is not nothing, in thousandths."""
        return {row.account: row.quantity for row in self.balance_rows(batch) if row.quantity}

    def balance_rows(self, batch):
        return self.rows(BalanceRow, batch=batch)

    def promised(self, batch):
        """What each service holds of a batch, in thousandths."""
        found = {}
        for row in self.rows(PromisedRow, batch=batch):
            found[row.service] = found.get(row.service, 0) + row.quantity
        return found

    def available(self, batch):
        """What of a batch is promised to nobody and may be used, in thousandths."""
        row = self.batch(batch)
        dead = row.usable_until is not None and row.usable_until < self.now
        if row.recalled or dead:
            return 0
        with self.books() as connection:
            stands = stock.standing(connection, ID, [batch]).get(batch)
        return (stands.usable if stands else 0) - sum(self.promised(batch).values())

    def questions(self, kind=None):
        """The open questions, of one kind or all."""
        rows = self.rows(QuestionRow)
        return [row for row in rows if row.settled_at is None and kind in (None, row.kind)]

    def question(self, kind):
        (found,) = self.questions(kind)
        return found

    def needs(self, **equal):
        return self.rows(NeedRow, **equal)

    def heads(self):
        """The last position, the last change and the chain of the house's one sequence."""
        with self.books() as connection:
            row = one(connection, HouseRow, id=ID)
        return row.position, row.change, row.chain

    def new_batches(self, known):
        """The batches there are beside those that are known."""
        return [row for row in self.rows(BatchRow) if row.id not in known]

    def journal(self):
        return self.rows(JournalRow)

    def movements(self, command=None):
        return self.rows(MovementRow, **({} if command is None else {"command": command}))

    def disagreements(self):
        with self.books() as connection:
            return disagreements(connection, ID)


def chosen(*dishes):
    return [{"dish": dish} for dish in dishes]
