"""Gull Cottage, a small complete house book of our own, and how tests change and import it."""

import copy
from datetime import UTC, datetime
from pathlib import Path

from pantry.commands.book.check import check_book
from pantry.commands.book.files import read_book
from pantry.commands.book.known import NOTHING
from pantry.commands.book.sheets import as_body, from_body

FOLDER = Path(__file__).parent / "books" / "gull-cottage"
NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)
"""A Wednesday morning; in March the cottage's clock (Europe/Dublin) shows UTC."""

_BODY = as_body(read_book(FOLDER))


def body():
    """The sheets as a command carries them, for a test to change."""
    return copy.deepcopy(_BODY)


def changed(sheet, row, column, value):
    """The sheets with one cell changed; row 1 is the heading."""
    sheets = body()
    sheets[sheet][row - 2][column] = value
    return sheets


def with_row(sheet, **cells):
    """The sheets with one row more, its other cells empty."""
    sheets = body()
    sheets[sheet].append(dict.fromkeys(sheets[sheet][0], "") | cells)
    return sheets


def row_of(sheet, column, value):
    """The number of the first row with this value in this column."""
    return next(n for n, row in enumerate(_BODY[sheet], start=2) if row[column] == value)


def faults(sheets, known=NOTHING):
    """What is wrong with these sheets."""
    return check_book(from_body(sheets), known, at=NOW)


def places(sheets, known=NOTHING):
    """File, row, column and code of everything that is wrong with these sheets."""
    return [(each.file, each.row, each.column, each.code) for each in faults(sheets, known)]
