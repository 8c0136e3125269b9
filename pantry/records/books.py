"""The books of one house, open for writing: the heads of its one sequence, and what is noted."""

from datetime import datetime
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, bindparam, insert, update

from pantry.records.rows import one, table
from pantry.records.tables import ChangeRow, HouseRow

_NOTE = insert(table(ChangeRow))
_HEADS = update(table(HouseRow)).where(table(HouseRow).c.id == bindparam("of_house"))


class Books:
    """The books while a list of commands is kept; `close` writes the heads back.

    Attributes:
        connection: the writer's, inside its transaction.
        house: the settings as they stood when the books were opened.
        now: the server's instant, `recorded_at` of everything noted.
        command: the id of the command that is being kept.
        touched: items whose stock or needs have moved, to be planned anew.
    """

    def __init__(self, connection: Connection, house: str, now: datetime) -> None:
        self.connection = connection
        self.house = one(connection, HouseRow, id=house)
        self.id = house
        self.now = now
        self.zone = ZoneInfo(self.house.zone)
        self.position = self.house.position
        self.change = self.house.change
        self.chain = self.house.chain
        self.command = ""
        self.touched: set[str] = set()

    def note(self, what: str, key: str) -> int:
        """Give a committed change the next number of the house's one sequence (SY6)."""
        self.change += 1
        self.connection.execute(
            _NOTE,
            {
                "house": self.id,
                "number": self.change,
                "position": self.position,
                "what": what,
                "key": key,
            },
        )
        return self.change

    def close(self) -> None:
        """Write the heads back; they become visible with the commit, never before."""
        self.connection.execute(
            _HEADS,
            {
                "of_house": self.id,
                "position": self.position,
                "change": self.change,
                "chain": self.chain,
            },
        )
