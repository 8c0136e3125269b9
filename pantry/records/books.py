"""The books of one house, open for writing: the heads of its one sequence, and what is noted.

Opening them holds the house's row until the transaction ends, whoever opens them: the writer has
held it already, a house book that is imported or a list from the command line has not. Numbers can
so be given by one transaction at a time, and a visible one never precedes an invisible lower one.
"""

from datetime import datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, bindparam, insert, select, text, update

from pantry.records.read import menu, stock
from pantry.records.read.lives import house_lives
from pantry.records.rows import every, one, table
from pantry.records.tables import ChangeRow, HouseRow, PersonRow
from pantry.rules.house_lives import HouseLives
from pantry.rules.house_time import Span, read_span
from pantry.rules.menu import Recipe
from pantry.rules.moments import Moment
from pantry.rules.stock import Item

_NOTE = insert(table(ChangeRow))
_HEADS = update(table(HouseRow)).where(table(HouseRow).c.id == bindparam("of_house"))
_HOLD = select(table(HouseRow)).where(table(HouseRow).c.id == bindparam("house")).with_for_update()

_HOLD_ALL = text("SELECT pg_advisory_xact_lock(7_426_267_294)")
"""Any number that every server of ours agrees on; there may be no row to lock."""


def hold_house(connection: Connection, house: str) -> HouseRow | None:
    """Hold the house's row until the transaction ends, and answer it as it then stands (SY6).

    On SQLite nothing is locked in addition: a writing transaction holds the whole file.
    """
    row = connection.execute(_HOLD, {"house": house}).mappings().first()
    return None if row is None else HouseRow.model_construct(**row)


def hold_every_house(connection: Connection) -> None:
    """Hold what concerns all houses, or one that is not there yet, until the transaction ends.

    On SQLite a writing transaction does already.
    """
    if connection.dialect.name == "postgresql":
        connection.execute(_HOLD_ALL)


class Books:
    """The books while a list of commands is kept; `close` writes the heads back.

    What is read of the house's settings is read once, until `settings_changed`.

    Attributes:
        connection: the writer's, inside its transaction.
        house: the settings as they stand.
        now: the server's instant, `recorded_at` of everything noted.
        command: the id of the command that is being kept.
        device: whose outbox that came from, if any.
        bound: how far its clock may have been off (SY8).
        touched: items whose stock or needs have moved, to be planned anew.
        taken: services, each with an item of which something was taken out or put back.
        promises: what the command has changed of each promise so far, by service, need and batch.
    """

    def __init__(self, connection: Connection, house: str, now: datetime) -> None:
        """Open the books.

        Raises:
            LookupError: there is no such house.
        """
        held = hold_house(connection, house)
        if held is None:
            raise LookupError(f"no house {house!r}")
        self.connection = connection
        self.house = held
        self.id = house
        self.now = now
        self.position = self.house.position
        self.change = self.house.change
        self.chain = self.house.chain
        self.command = ""
        self.device: str | None = None
        self.bound = timedelta(0)
        self.touched: set[str] = set()
        self.taken: set[tuple[str, str]] = set()
        self.promises: dict[tuple[str, str, str], int] = {}
        self._noted: list[dict[str, object]] = []

    @cached_property
    def zone(self) -> ZoneInfo:
        """The house's zone."""
        return ZoneInfo(self.house.zone)

    @property
    def receiving_margin(self) -> Span:
        """How long before it is wanted a delivery has to be in the house."""
        return read_span(self.house.receiving_margin)

    @cached_property
    def people(self) -> list[PersonRow]:
        """Who works in the house now."""
        return [row for row in every(self.connection, PersonRow, house=self.id) if row.active]

    @cached_property
    def lives(self) -> HouseLives:
        """The lives that the house's food-safety policy gives."""
        return house_lives(self.connection, self.house)

    @cached_property
    def recipes(self) -> dict[str, Recipe]:
        """Every recipe by its id."""
        return menu.recipes(self.connection, self.id)

    @cached_property
    def items(self) -> dict[str, Item]:
        """Every item by its id."""
        return stock.items(self.connection, self.id)

    def settings_changed(self) -> None:
        """Read settings, people, policy, recipes and items anew when they are next asked for."""
        self.house = one(self.connection, HouseRow, id=self.id)
        for read in ("zone", "people", "lives", "recipes", "items"):
            self.__dict__.pop(read, None)

    def moment(self, at: datetime) -> Moment:
        """The moment of what the command that is being kept says happened at an instant (SY8)."""
        return Moment(at, self.bound, self.device, self.position)

    def promise(self, service: str, need: str, batch: str, quantity: int) -> None:
        """So much more, or less, of a batch is promised to a need; written when the command is."""
        key = (service, need, batch)
        self.promises[key] = self.promises.get(key, 0) + quantity

    def note(self, what: str, key: str) -> int:
        """Give a committed change the next number of the house's one sequence (SY6)."""
        self.change += 1
        noted = {"house": self.id, "number": self.change, "position": self.position}
        self._noted.append(noted | {"what": what, "key": key})
        return self.change

    def write_notes(self) -> None:
        """Write what was noted since the last time, in one statement."""
        if self._noted:
            self.connection.execute(_NOTE, self._noted)
            self._noted.clear()

    def undo_notes(self) -> None:
        """Forget what was noted since it was last written; its numbers are free again."""
        self.change -= len(self._noted)
        self._noted.clear()
        self.touched.clear()
        self.taken.clear()
        self.promises.clear()

    def close(self) -> None:
        """Write the heads back; they become visible with the commit, never before."""
        self.write_notes()
        self.connection.execute(
            _HEADS,
            {
                "of_house": self.id,
                "position": self.position,
                "change": self.change,
                "chain": self.chain,
            },
        )
