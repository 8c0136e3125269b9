"""Hazel Court, the smallest house that has everything the records are about.

A cold room, a pantry and a freezer, milk and flour, a bottle of the one and a bag of the other, a
family that eats, a porter with a phone. It is a house of our own invention.
"""

from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from sqlalchemy import Engine

from pantry.records import accounts, journal, ledger
from pantry.records.books import Books
from pantry.records.database import reading, writing
from pantry.records.rows import add, change, every, one
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    DeviceRow,
    DiningTableRow,
    HouseRow,
    ItemRow,
    NeedRow,
    PersonRow,
    ServiceRow,
    SupplierRow,
)
from pantry.records.verify import disagreements

ID = "hazel-court"
NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)
HOUR = timedelta(hours=1)
COLD_ROOM = accounts.area("cold-room")
PANTRY = accounts.area("pantry")
FREEZER = accounts.area("freezer")
DINNER = "2027-03-13/dinner/family"
LUNCH = "2027-03-14/lunch/family"


@dataclass(frozen=True)
class House:
    """A house in a database, and the instant it is there."""

    database: Engine
    id: str = ID
    now: datetime = NOW

    @contextmanager
    def books(self, command="command", now=None):
        """The books, open for one durable transaction."""
        with writing(self.database) as connection:
            books = Books(connection, self.id, now or self.now)
            books.command = command
            yield books
            books.close()

    def post(self, batch, quantity, source, target, *, at=None, **more):
        """One movement in a transaction of its own; answers what the source then holds."""
        movement = ledger.Movement(batch, quantity, source, target, at or self.now, **more)
        with self.books() as books:
            return ledger.post(books, movement).left

    def keep(self, number, **more):
        """One applied command in the journal, in a transaction of its own."""
        with self.books(f"command {number}") as books:
            books.position += 1
            journal.keep(books, entry(number, **more))
            phone = {"house": self.id, "id": "phone"}
            change(books.connection, DeviceRow, phone, highest=number)

    def rows(self, model, **equal):
        """Rows as another connection sees them."""
        with reading(self.database) as connection:
            return every(connection, model, house=self.id, **equal)

    def heads(self):
        """The house's own row as another connection sees it."""
        with reading(self.database) as connection:
            return one(connection, HouseRow, id=self.id)

    def disagreements(self):
        """What the books of the house have against themselves."""
        with reading(self.database) as connection:
            return disagreements(connection, self.id)


def found(connection, house=ID):
    """Write Hazel Court, or its twin, into an empty database."""
    add(connection, house_row(house))
    add(
        connection,
        AreaRow(house=house, id="cold-room", name="Cold room", kind="chilled", max_tenths=50),
        AreaRow(house=house, id="pantry", name="Pantry", kind="ambient"),
        AreaRow(house=house, id="freezer", name="Freezer", kind="frozen", max_tenths=-180),
        PersonRow(house=house, id="wilf", name="Wilf Aske", role="porter"),
        DeviceRow(house=house, id="phone", name="Wilf's phone", enrolled_at=NOW),
        DiningTableRow(house=house, id="family", name="Family", rank=1),
        SupplierRow(house=house, id="dale-dairy", name="Dale Dairy"),
        ItemRow(house=house, id="whole-milk", name="Whole milk", base_unit="ml"),
        ItemRow(house=house, id="plain-flour", name="Plain flour", base_unit="g"),
        batch_row("milk", "whole-milk", 2_000_000, 215, house=house),
        batch_row("flour", "plain-flour", 1_500_000, 100, house=house),
    )


def house_row(house=ID):
    return HouseRow(
        id=house,
        name=house.replace("-", " ").title(),
        zone="Europe/London",
        currency="GBP",
        unit_system="metric",
        notice="PT72H",
        warning="PT24H",
        last_call="PT2H",
        receiving_margin="PT0S",
        policy="uk",
        allergen_list="uk",
        people=4,
        epoch="first",
    )


def batch_row(identity, item, quantity, cost=0, *, house=ID, **more):
    return BatchRow(
        house=house,
        id=identity,
        item=item,
        label=f"label of {identity}",
        state="sealed",
        state_at=NOW,
        date_kind="none",
        quantity=quantity,
        cost=cost,
        since=NOW,
        **more,
    )


def service_row(service, state="confirmed", house=ID):
    day, meal, table = service.split("/")
    return ServiceRow(
        house=house,
        id=service,
        on=date.fromisoformat(day),
        meal=meal,
        dining_table=table,
        at=NOW + 84 * HOUR,
        covers=4,
        state=state,
    )


def need_row(identity, service, item="whole-milk", quantity=1_000_000, house=ID):
    return NeedRow(
        house=house,
        id=identity,
        service=service,
        dish="rice-pudding",
        item=item,
        quantity=quantity,
        wanted_by=NOW + 80 * HOUR,
        until=NOW + 84 * HOUR,
        rank=1,
    )


def entry(number, **more):
    values = {
        "id": f"command {number}",
        "kind": "receive",
        "at": NOW,
        "person": "wilf",
        "device": "phone",
        "n": number,
        "envelope": f'{{"n":{number}}}',
        "outcome": "applied",
        "answer": '{"outcome":"applied"}',
    }
    return journal.Entry(**values | more)
