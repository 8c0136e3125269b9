"""A house book is read alike from CSV files and from a workbook; what cannot be read is said."""

import csv
import shutil
from datetime import date, datetime, time, timedelta

import pytest
from openpyxl import Workbook

from pantry.commands.book.files import read_book
from pantry.commands.book.sheets import as_body, from_body
from pantry.commands.book.workbook import text_of
from tests.commands.cottage import FOLDER, body


@pytest.fixture
def folder(tmp_path):
    """A copy of the cottage's folder, for a test to spoil."""
    return shutil.copytree(FOLDER, tmp_path / "book")


def places(book):
    return [(each.file, each.row, each.column, each.code) for each in book.faults]


def write_workbook(path, sheets):
    workbook = Workbook()
    workbook.remove(workbook.active)
    for name, rows in sheets.items():
        worksheet = workbook.create_sheet(name)
        for row in rows:
            worksheet.append(row)
    workbook.save(path)


def as_rows(name):
    with (FOLDER / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def test_a_folder_gives_every_sheet_with_the_row_numbers_of_a_spreadsheet():
    book = read_book(FOLDER)
    assert book.faults == ()
    assert len(book.sheets) == 22
    milk = book.sheets["items"].rows[0]
    assert milk[0] == 2
    assert milk[1]["item"] == "Whole milk"
    assert book.sheets["items"].file == "items.csv"


def test_a_byte_order_mark_and_other_line_ends_make_no_difference(folder):
    for path in folder.glob("*.csv"):
        content = path.read_bytes().replace(b"\n", b"\r\n")
        path.write_bytes(b"\xef\xbb\xbf" + content)
    assert as_body(read_book(folder)) == body()


def test_a_workbook_of_text_is_the_same_book_as_the_folder(tmp_path):
    write_workbook(tmp_path / "book.xlsx", {path.stem: as_rows(path.stem) for path in _files()})
    book = read_book(tmp_path / "book.xlsx")
    assert book.faults == ()
    assert as_body(book) == body()
    assert book.sheets["items"].file == "items"


def test_a_workbook_of_numbers_dates_and_times_is_the_same_book_as_the_folder(tmp_path):
    sheets = {
        path.stem: [[_typed(cell) for cell in row] for row in as_rows(path.stem)]
        for path in _files()
    }
    assert isinstance(sheets["batches"][1][5], date)
    assert isinstance(sheets["deliveries"][1][2], time)
    assert isinstance(sheets["packs"][1][4], float)
    assert isinstance(sheets["items"][1][14], int)
    write_workbook(tmp_path / "Book.XLSX", sheets)
    book = read_book(tmp_path / "Book.XLSX")
    assert book.faults == ()
    assert as_body(book) == _without_trailing_zeros(body())


def _files():
    return sorted(FOLDER.glob("*.csv"))


def _typed(cell):
    """The cell as a spreadsheet would keep it once somebody has typed it."""
    for kind in (int, float, date.fromisoformat, _wall_time):
        try:
            return kind(cell)
        except ValueError:
            continue
    return cell or None


def _wall_time(cell):
    return datetime.strptime(cell, "%H:%M").time()  # noqa: DTZ007 - a wall time has no zone


def _without_trailing_zeros(sheets):
    """A number has no trailing zeros, and a time is shown with two figures for the hour."""
    for rows in sheets.values():
        for row in rows:
            for column, text in row.items():
                typed = _typed(text)
                if isinstance(typed, float | time):
                    row[column] = text_of(typed)
    return sheets


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        (" a pinch ", "a pinch"),
        (3, "3"),
        (3.0, "3"),
        (1.25, "1.25"),
        (0.1 + 0.2, "0.3"),  # a spreadsheet shows 15 digits of a double
        (1e-05, "0.00001"),
        (19521234000379.0, "19521234000379"),
        (1e16, "10000000000000000"),
        (True, "yes"),
        (False, "no"),
        (date(2027, 3, 10), "2027-03-10"),
        (datetime(2027, 3, 10), "2027-03-10"),  # noqa: DTZ001 - a spreadsheet knows no zone
        (datetime(2027, 3, 10, 8, 30), "2027-03-10T08:30:00"),  # noqa: DTZ001 - as above
        (datetime(2027, 3, 9, 23, 59, 59, 999_999), "2027-03-10"),  # noqa: DTZ001 - as above
        (time(7), "07:00"),
        (time(19, 30, 15), "19:30:15"),
        (timedelta(hours=72), "PT72H"),
    ],
)
def test_a_cell_of_a_workbook_is_the_text_a_person_sees(value, text):
    assert text_of(value) == text


def test_headings_are_read_whatever_their_case_and_spacing(folder):
    (folder / "tables.csv").write_text("Table, RANK ,Usual covers\nFamily,1,2\n", "utf-8")
    assert read_book(folder).sheets["tables"].heading == ("table", "rank", "usual_covers")


def test_empty_rows_keep_their_number(folder):
    (folder / "tables.csv").write_text("table,rank\nFamily,1\n\n,\nGuests,2\n", "utf-8")
    book = read_book(folder)
    assert [number for number, _ in book.sheets["tables"].rows] == [2, 5]
    assert [number for number, _ in from_body(as_body(book)).sheets["tables"].rows] == [2, 5]


def test_a_line_end_within_quotes_is_no_row_of_its_own(folder):
    text = 'person,table,cannot_eat\n"Nell\nof the lodge",Guests,nuts\nOona,Guests,fish\n'
    (folder / "constraints.csv").write_text(text, "utf-8")
    rows = read_book(folder).sheets["constraints"].rows
    assert [(number, cells["person"]) for number, cells in rows] == [
        (2, "Nell\nof the lodge"),
        (3, "Oona"),
    ]


def test_what_is_wrong_with_the_shape_of_a_sheet_is_a_fault_with_its_row(folder):
    (folder / "tables.csv").write_text("table,rank,rank,\nFamily,1,1,\nGuests,2,2,,x\n", "utf-8")
    assert places(read_book(folder)) == [
        ("tables.csv", 1, "rank", "column_twice"),
        ("tables.csv", 3, "", "cell_without_column"),
    ]


def test_a_file_that_is_not_utf_8_is_a_fault_of_the_row_it_shows_in(folder):
    (folder / "tables.csv").write_bytes("table,rank\nFamily,1\nGäste,2\n".encode("latin-1"))
    book = read_book(folder)
    assert places(book) == [("tables.csv", 3, "", "book_unreadable")]
    assert book.faults[0].value == repr("ä".encode("latin-1"))


def test_an_unclosed_quotation_mark_is_a_fault(folder):
    (folder / "tables.csv").write_text('table,rank\n"Family,1\n', "utf-8")
    assert places(read_book(folder)) == [("tables.csv", 2, "", "book_unreadable")]


def test_a_sheet_without_heading_is_a_fault(folder):
    (folder / "tables.csv").write_text("", "utf-8")
    assert places(read_book(folder)) == [("tables.csv", 1, "", "heading_missing")]


def test_a_sheet_that_is_there_twice_is_a_fault(folder):
    shutil.copy(folder / "tables.csv", folder / "Tables.CSV")
    assert [(row, code) for _, row, _, code in places(read_book(folder))] == [(1, "sheet_twice")]


def test_other_files_in_the_folder_are_no_part_of_the_book(folder):
    (folder / "notes.txt").write_text("call Una", "utf-8")
    assert read_book(folder).faults == ()


@pytest.mark.parametrize("name", ["nothing-there", "empty", "book.xlsx", "book.ods"])
def test_what_is_no_book_is_one_fault(tmp_path, name):
    (tmp_path / "empty").mkdir()
    (tmp_path / "book.xlsx").write_bytes(b"PK no workbook")
    (tmp_path / "book.ods").write_bytes(b"")
    book = read_book(tmp_path / name)
    assert places(book) == [(name, 1, "", "book_unreadable")]
    assert book.sheets == {}


def test_a_formula_that_nobody_has_computed_is_a_fault_with_its_heading(tmp_path):
    rows = [["table", "rank"], ["Family", "=1+1"], ["Guests", "#REF!"], ["Staff", 3]]
    write_workbook(tmp_path / "book.xlsx", {"tables": rows})
    assert places(read_book(tmp_path / "book.xlsx")) == [
        ("tables", 2, "rank", "cell_not_computed"),
        ("tables", 3, "rank", "cell_not_computed"),
    ]


def test_an_empty_worksheet_that_a_program_left_behind_is_no_sheet(tmp_path):
    write_workbook(tmp_path / "book.xlsx", {"tables": [["table", "rank"]], "Sheet1": []})
    book = read_book(tmp_path / "book.xlsx")
    assert book.faults == ()
    assert set(book.sheets) == {"tables"}
