"""Checking a house book: every row of every sheet, before anything of it is written."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from pantry.commands.book import house, orders, people, supply, variants
from pantry.commands.book.areas import read_areas
from pantry.commands.book.batches import Standing, read_batches
from pantry.commands.book.cycles import refuse_cycles
from pantry.commands.book.items import read_items
from pantry.commands.book.known import NOTHING, Known
from pantry.commands.book.orders import Ordered
from pantry.commands.book.presence import Saying, read_presence
from pantry.commands.book.reading import Reading
from pantry.commands.book.recipes import read_ingredients, read_recipes
from pantry.commands.book.services import Meal, read_services
from pantry.commands.book.sheets import SHEETS, HouseBook, Sheet
from pantry.refusals import Fault, FaultyBook, declare

SHEET_UNKNOWN = declare("sheet_unknown", "A house book has no sheet of that name.")
COLUMN_UNKNOWN = declare("column_unknown", "A sheet has no column of that name.")
COLUMN_MISSING = declare("column_missing", "A sheet lacks a column that it must have.")
BOOK_FAULTY = declare("book_faulty", "The house book has faults, and nothing of it was taken.")


@dataclass(frozen=True, slots=True)
class Checked:
    """A book as it was read: what it brings, and everything that is wrong with it."""

    reading: Reading
    standing: list[Standing]
    meals: list[Meal]
    orders: list[Ordered]
    said: list[Saying]
    faults: tuple[Fault, ...]


def check_book(book: HouseBook, known: Known = NOTHING, *, at: datetime) -> tuple[Fault, ...]:
    """Everything that is wrong with a book, by sheet, row and column; nothing is written.

    Args:
        book: as `read_book` gives it.
        known: the house it is to go into, as `known` reads it; left out for a new one.
        at: the instant of the import.
    """
    return read_all(book, known, at).faults


def read_all(book: HouseBook, known: Known, at: datetime) -> Checked:
    """Read every sheet, each after those that it names things of."""
    reading = house.open_book(book, known, at)
    reading.faults.extend(_of_headings(book))
    read_areas(reading)
    read_items(reading)
    supply.read_suppliers(reading)
    supply.read_deliveries(reading)
    supply.read_closures(reading)
    read_recipes(reading)
    supply.read_packs(reading)
    names = _read_recipe_parts(reading)
    variants.read_substitutes(reading)
    people.read_tables(reading)
    people.read_people(reading)
    people.read_constraints(reading)
    orders.read_harvest(reading)
    standing = read_batches(reading)
    meals = read_services(reading, names)
    ordered = orders.read_orders(reading)
    said = read_presence(reading, meals)
    return Checked(reading, standing, meals, ordered, said, _sorted(book, reading.faults))


def _read_recipe_parts(reading: Reading) -> dict[str, list[str]]:
    """Read ingredients and variants; answer the names of every recipe's variants."""
    parts = read_ingredients(reading)
    lines: dict[str, list[str]] = {}
    for part in parts:
        lines.setdefault(part.recipe, []).append(part.item)
    every = {**reading.known.lines, **lines}
    refuse_cycles(reading, parts, every)
    names = variants.read_variants(reading, every)
    kept = {recipe: n for recipe, n in reading.known.variants.items() if recipe not in lines}
    return {**kept, **names}


def refuse_faulty(checked: Checked) -> None:
    """Refuse a book with any fault, naming all of them.

    Raises:
        FaultyBook: `book_faulty`.
    """
    count = len(checked.faults)
    if count:
        raise FaultyBook(
            BOOK_FAULTY,
            f"The house book has {count} {'fault' if count == 1 else 'faults'}.",
            "Correct the cells that are named, and import it again; nothing of it was taken.",
            field="body.sheets",
            faults=checked.faults,
        )


def _of_headings(book: HouseBook) -> Iterable[Fault]:
    for name, sheet in book.sheets.items():
        if name not in SHEETS:
            yield Fault(
                sheet.file,
                1,
                "",
                name,
                SHEET_UNKNOWN,
                f"A house book has no sheet {name!r}.",
                f"Take it out, or call it one of: {', '.join(SHEETS)}.",
            )
        elif sheet.heading:
            yield from _of_heading(name, sheet)


def _of_heading(name: str, sheet: Sheet) -> Iterable[Fault]:
    columns = SHEETS[name]
    for column in sheet.heading:
        if column not in columns.every:
            yield Fault(
                sheet.file,
                1,
                column,
                column,
                COLUMN_UNKNOWN,
                f"The sheet {name} has no column {column!r}.",
                f"Take it out, or call it one of: {', '.join(columns.every)}.",
            )
    for column in columns.every:
        if column in columns.required and column not in sheet.heading:
            yield Fault(
                sheet.file,
                1,
                column,
                "",
                COLUMN_MISSING,
                f"The sheet {name} lacks the column {column}.",
                "Add it; every row needs it.",
            )


def _sorted(book: HouseBook, faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """By sheet, in the order in which a book is read, then by row, then by column."""
    order = {
        book.sheets[name].file: (number, SHEETS[name].every)
        for number, name in enumerate(SHEETS)
        if name in book.sheets
    }

    def place(fault: Fault) -> tuple[int, str, int, int]:
        number, columns = order.get(fault.file, (len(SHEETS), ()))
        column = columns.index(fault.column) if fault.column in columns else -1
        return number, fault.file, fault.row, column

    return tuple(sorted((*book.faults, *faults), key=place))
