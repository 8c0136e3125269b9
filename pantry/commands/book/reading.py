"""A house book while it is read: what is named in it, what it says, what is wrong with it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime
from fractions import Fraction
from typing import Generic, TypeVar
from zoneinfo import ZoneInfo

from sqlmodel import SQLModel

from pantry.commands import naming
from pantry.commands.book.cells import yes_no
from pantry.commands.book.known import Known, RecipeFacts
from pantry.commands.book.sheets import SHEETS, Cells, HouseBook
from pantry.handbook.policies import Policy
from pantry.records.slugs import slug
from pantry.refusals import Fault, Refusal, declare
from pantry.rules.measure import UnitSystem
from pantry.rules.stock import AreaKind, Item
from pantry.rules.supply import House, Pack, Supplier

CELL_MISSING = declare("cell_missing", "A cell that must be filled is empty.")
NAME_TWICE = declare("name_twice", "Two rows of a sheet have one name, or names alike.")
NAME_WITHOUT_LETTERS = declare("name_without_letters", "A name has no letter and no digit.")
ALREADY_THERE = declare("already_there", "The house has what the book brings as new.")

T = TypeVar("T")


@dataclass(slots=True)
class Names(Generic[T]):
    """What can be named: of the house and of the book, by id.

    Attributes:
        sheet: where it is defined; a reference to what nobody defines is no fault where that sheet
            could not be read.
        code: of the refusal of an unknown name.
        what: what it is called in a sentence.
        things: by id.
        rows: the row of the book in which each id stands.
    """

    sheet: str
    code: str
    what: str
    things: dict[str, T]
    rows: dict[str, int] = field(default_factory=dict)


class Reading:
    """The book, what the house knows, and what has been read so far.

    Attributes:
        at: when the book is imported.
        faults: everything that is wrong, in the order it was found.
        house: the settings, those of the book before those that stand.
        policy: the food-safety policy in force.
        decimal_mark: the house's, where somebody has said it; None: what only it could decide is
            refused (MS2).
        has_currency: the currency can be relied on.
        doubtful: items with a fault of their own, and no item at all: what they lack is no other.
        numbers: which item has which product number.
        words: how many base units of an item one tin, bunch or bag of it is.
        rows: what is to be written, but for what other fields hold.
    """

    def __init__(
        self, book: HouseBook, known: Known, house: House, policy: Policy, at: datetime
    ) -> None:
        self.book = book
        self.known = known
        self.house = house
        self.policy = policy
        self.at = at
        self.decimal_mark: str | None = None
        self.has_currency = True
        self.zone = ZoneInfo(house.zone)
        self.faults: list[Fault] = []
        self.areas: Names[AreaKind] = Names(
            "areas", naming.AREA_UNKNOWN, "storage area", dict(known.areas)
        )
        self.items: Names[Item] = Names("items", naming.ITEM_UNKNOWN, "item", dict(known.items))
        self.suppliers: Names[Supplier] = Names(
            "suppliers", naming.SUPPLIER_UNKNOWN, "supplier", dict(known.suppliers)
        )
        self.recipes: Names[RecipeFacts] = Names(
            "recipes", naming.RECIPE_UNKNOWN, "recipe", dict(known.recipes)
        )
        self.tables: Names[str] = Names("tables", naming.TABLE_UNKNOWN, "table", dict(known.tables))
        self.packs: dict[str, Pack] = dict(known.packs)
        self.numbers: dict[str, str] = {}
        self.words: dict[str, dict[str, Fraction]] = {}
        self.doubtful: set[str] = {""}
        self.rows: list[SQLModel] = []

    @property
    def unit_system(self) -> UnitSystem:
        """The house's own."""
        return UnitSystem(self.house.unit_system)

    def lines(self, sheet: str) -> "Iterator[Line]":
        """The rows of a sheet that say anything, none where it is not there."""
        found = self.book.sheets.get(sheet)
        if found is None:
            return
        needed = [
            column
            for column in SHEETS[sheet].every
            if column in SHEETS[sheet].required and column in found.heading
        ]
        for number, cells in found.rows:
            line = Line(self, found.file, number, cells)
            for column in needed:
                if not line.text(column):
                    line.missing(column)
            yield line

    def is_whole(self, sheet: str, column: str) -> bool:
        """Whether all that a sheet defines is known: it can be read, and has this column."""
        found = self.book.sheets.get(sheet)
        return found is None or column in found.heading


@dataclass(slots=True)
class Line:
    """One row while it is read; `faulty` are the columns of it that have a fault.

    What a faulty or empty cell is read as never gets written: a fault anywhere keeps everything
    out. So every reader goes on with something, and finds the row's other faults too.
    """

    reading: Reading
    file: str
    number: int
    cells: Cells
    faulty: set[str] = field(default_factory=set)

    def text(self, column: str) -> str:
        """What stands in the cell, without spaces around it."""
        return self.cells.get(column, "").strip()

    def read(self, column: str, reader: Callable[[str], T], otherwise: T) -> T:
        """What the cell says; `otherwise` where it is empty or a fault."""
        text = self.text(column)
        if not text:
            return otherwise
        try:
            return reader(text)
        except Refusal as refusal:
            self.refused(column, refusal)
            return otherwise

    def says(self, column: str, *, otherwise: bool = False) -> bool:
        """Whether the cell says yes; `otherwise` where it says nothing."""
        return self.read(column, yes_no, otherwise)

    def refused(self, column: str, refusal: Refusal) -> None:
        """Note the refusal of a cell as a fault of it."""
        self.fault(column, refusal.code, refusal.problem, refusal.todo)

    def fault(self, column: str, code: str, problem: str, todo: str) -> None:
        """Note a fault of a cell; of the row, where the column is empty."""
        self.faulty.add(column)
        value = self.text(column)
        self.reading.faults.append(
            Fault(self.file, self.number, column, value, code, problem, todo)
        )

    def missing(self, column: str, why: str = "Every row needs it.") -> None:
        """Note that a cell is empty that must not be."""
        self.fault(column, CELL_MISSING, f"The cell {column} is empty. {why}", "Fill it in.")

    def name(self, column: str, names: Names[T]) -> str:
        """The id of what this row defines, its name being the first that says so in the book."""
        identity = self.identity(column)
        before = names.rows.setdefault(identity, self.number) if identity else self.number
        if before != self.number:
            self.fault(
                column,
                NAME_TWICE,
                f"Row {before} has the {names.what} {self.text(column)!r} already, in the same or "
                "nearly the same words.",
                "Keep one of the two rows, or give them names that differ in more than case, "
                "accents and punctuation.",
            )
        return identity

    def identity(self, column: str) -> str:
        """The id that the name in a cell makes; empty where it makes none."""
        text = self.text(column)
        identity = slug(text)
        if text and not identity:
            self.fault(
                column,
                NAME_WITHOUT_LETTERS,
                f"{text!r} has neither a letter nor a digit.",
                "Write its name.",
            )
        return identity

    def refer(self, column: str, names: Names[T]) -> str:
        """The id of what a cell names; a fault where nothing of the book or house has that name."""
        text = self.text(column)
        identity = slug(text)
        known = identity in names.things or identity in names.rows
        if text and not known and self.reading.is_whole(names.sheet, _NAMED_BY[names.sheet]):
            self.fault(
                column,
                names.code,
                f"No {names.what} is called {text!r} in this book or house.",
                f"Write its name as the sheet {names.sheet} has it, or add it there.",
            )
        return identity

    def optional(self, column: str, names: Names[T]) -> str | None:
        """As `refer`; None where the cell is empty."""
        return self.refer(column, names) or None

    def once(self, seen: "dict[tuple[str, ...], int]", *key: str, column: str = "") -> None:
        """Refuse a row that says again what an earlier row of its sheet says."""
        before = seen.setdefault(key, self.number)
        if before != self.number and all(key):
            self.fault(
                column,
                NAME_TWICE,
                f"Row {before} is about the same already.",
                "Keep one of the two rows.",
            )


_NAMED_BY = {
    "areas": "area",
    "items": "item",
    "suppliers": "supplier",
    "recipes": "recipe",
    "tables": "table",
}
"""The column in which a sheet names what it defines."""
