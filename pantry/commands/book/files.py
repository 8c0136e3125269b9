"""Reading a house book from a folder of CSV files or from one workbook."""

import csv
from collections.abc import Iterable, Iterator
from io import StringIO
from pathlib import Path

from pantry.commands.book.sheets import HouseBook, Sheet
from pantry.commands.book.tables import as_sheet
from pantry.commands.book.workbook import UnreadableWorkbookError, worksheets
from pantry.refusals import Fault, declare

BOOK_UNREADABLE = declare("book_unreadable", "The house book, or a file of it, cannot be read.")
SHEET_TWICE = declare("sheet_twice", "Two files or worksheets are the same sheet.")

_WORKBOOKS = frozenset({".xlsx", ".xlsm"})


def read_book(path: Path) -> HouseBook:
    """The sheets of a folder of CSV files (UTF-8, heading row), or of one XLSX workbook.

    Nothing is raised: what cannot be read is a fault of the book. Files of a folder that are no CSV
    are not part of the book.
    """
    if path.is_dir():
        return _folder(path)
    if path.suffix.casefold() in _WORKBOOKS and path.is_file():
        return _workbook(path)
    return HouseBook(
        {},
        (_unreadable(path.name, 1, "it is no folder and no XLSX workbook", str(path)),),
    )


def _folder(path: Path) -> HouseBook:
    files = sorted(file for file in path.iterdir() if file.suffix.casefold() == ".csv")
    if not files:
        return HouseBook(
            {}, (_unreadable(path.name, 1, "there is no CSV file in the folder", str(path)),)
        )
    sheets: dict[str, Sheet] = {}
    faults: list[Fault] = []
    for file in files:
        name = file.stem.casefold()
        if name in sheets:
            faults.append(_twice(file.name, name))
            continue
        rows, unreadable = _rows(file)
        faults.extend(unreadable)
        if not unreadable:
            sheets[name], found = as_sheet(file.name, rows)
            faults.extend(found)
    return HouseBook(sheets, tuple(faults))


def _rows(file: Path) -> tuple[list[list[str]], list[Fault]]:
    """The records of a CSV file; one that cannot be read whole has none."""
    name = file.name
    try:
        content = file.read_bytes()
        text = content.decode("utf-8-sig")
    except OSError as error:
        return [], [_unreadable(name, 1, error.strerror or "it cannot be opened", str(file))]
    except UnicodeDecodeError as error:
        row = content.count(b"\n", 0, error.start) + 1
        return [], [_unreadable(name, row, "it is not UTF-8", repr(content[error.start :][:1]))]
    rows: list[list[str]] = []
    try:
        rows.extend(csv.reader(StringIO(text, newline=""), strict=True))
    except csv.Error as error:
        return [], [_unreadable(name, len(rows) + 1, str(error), "")]
    return rows, []


def _workbook(path: Path) -> HouseBook:
    try:
        found = worksheets(path)
    except UnreadableWorkbookError as error:
        return HouseBook({}, (_unreadable(path.name, 1, str(error), str(path)),))
    return _sheets(path, found)


def _sheets(
    path: Path, found: Iterable[tuple[str, list[list[str]], tuple[Fault, ...]]]
) -> HouseBook:
    sheets: dict[str, Sheet] = {}
    faults: list[Fault] = []
    for name, rows, uncertain in _with_content(found):
        if name in sheets:
            faults.append(_twice(path.name, name))
            continue
        sheets[name], wrong = as_sheet(name, rows)
        faults.extend((*uncertain, *wrong))
    return HouseBook(sheets, tuple(faults))


def _with_content(
    found: Iterable[tuple[str, list[list[str]], tuple[Fault, ...]]],
) -> Iterator[tuple[str, list[list[str]], tuple[Fault, ...]]]:
    """The worksheets that say anything; an empty one that a program left behind is none."""
    return (each for each in found if any(cell for row in each[1] for cell in row))


def _twice(file: str, name: str) -> Fault:
    return Fault(
        file,
        1,
        "",
        name,
        SHEET_TWICE,
        f"The sheet {name!r} is there twice.",
        "Keep one of the two.",
    )


def _unreadable(file: str, row: int, why: str, value: str) -> Fault:
    return Fault(
        file,
        row,
        "",
        value,
        BOOK_UNREADABLE,
        f"{file} cannot be read: {why}.",
        "Bring a folder of CSV files in UTF-8 or one XLSX workbook.",
    )
