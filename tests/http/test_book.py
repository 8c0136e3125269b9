"""A house book over the wire: every fault is named, and it is taken in whole or not at all."""

from io import BytesIO

import openpyxl
import pytest

from pantry.records.tables import ItemRow, JournalRow
from tests.commands.larkfield import CHEF, ID, MANAGER
from tests.http.site import code

ITEMS = "item,base_unit,area\nDamson jam,g,Pantry\nQuince paste,g,Pantry\n"
AREAS = "area,kind\nPantry,ambient\nCellar,ambient\n"


def sheets(**texts):
    """A form with a CSV file for each sheet."""
    return [("book", (f"{name}.csv", text.encode(), "text/csv")) for name, text in texts.items()]


def workbook(**texts):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, text in texts.items():
        sheet = book.create_sheet(name)
        for line in text.strip().split("\n"):
            sheet.append(line.split(","))
    file = BytesIO()
    book.save(file)
    return [("book", ("house.xlsx", file.getvalue(), "application/octet-stream"))]


def names(site):
    return {row.name for row in site.rows(ItemRow, house=ID)}


@pytest.mark.parametrize("form", [sheets, workbook])
def test_a_book_without_a_fault_is_taken_in(site, form):
    mara = site.as_(MANAGER)
    given = form(items=ITEMS, areas=AREAS)
    told = mara.post("/api/book?check=true", files=given).json()
    assert told == {"schema": 1, "applied": False, "faults": []}
    assert "Damson jam" not in names(site)
    told = mara.post("/api/book", files=given).json()
    assert told == {"schema": 1, "applied": True, "faults": []}
    assert names(site) >= {"Damson jam", "Quince paste", "Whole milk"}
    (entry,) = site.rows(JournalRow)
    assert (entry.kind, entry.person, entry.outcome) == ("import_book", "mara", "applied")


@pytest.mark.parametrize("check", ["true", "false"])
def test_every_fault_of_a_book_is_named_and_nothing_of_it_is_taken(site, check):
    wrong = "item,base_unit,area,colour\nDamson jam,g,Attic,red\n,stone,Pantry,\n"
    given = sheets(items=wrong, pantries="x\n1\n")
    told = site.as_(MANAGER).post(f"/api/book?check={check}", files=given).json()
    assert told["applied"] is False
    found = {(each["file"], each["row"], each["column"]) for each in told["faults"]}
    assert found >= {
        ("items.csv", 1, "colour"),
        ("items.csv", 2, "area"),
        ("items.csv", 3, "item"),
        ("items.csv", 3, "base_unit"),
        ("pantries.csv", 1, ""),
    }
    assert all(each["problem"] and each["todo"] and each["code"] for each in told["faults"])
    assert "Damson jam" not in names(site)
    assert site.rows(JournalRow) == []


def test_the_book_of_another_house_is_refused(site):
    house = "name,time_zone,currency,unit_system,notice,policy,allergen_list\n"
    house += "Corrie House,Europe/London,GBP,metric,72 h,uk,eu14\n"
    told = site.as_(MANAGER).post("/api/book", files=sheets(house=house)).json()
    assert [each["code"] for each in told["faults"]] == ["another_house"]


@pytest.mark.parametrize(
    "files",
    [
        [],
        [("book", ("notes.txt", b"x", "text/plain"))],
        [("book", ("items.csv", b"x", "text/csv")), ("book", ("house.xlsx", b"x", "x/y"))],
        [("book", ("items.csv", b"x", "text/csv")), ("book", ("a/items.csv", b"x", "text/csv"))],
        [("book", ("a.xlsx", b"x", "x/y")), ("book", ("b.xlsx", b"x", "x/y"))],
    ],
)
def test_what_is_no_house_book_is_refused(quiet_site, files):
    answer = quiet_site.as_(MANAGER).post("/api/book", files=files, data={"note": "x"})
    assert code(answer) == (400, "request_unreadable")


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04 and no workbook", b"\x00" * 1000])
def test_a_workbook_that_cannot_be_read_is_a_fault_of_the_book(quiet_site, content):
    files = [("book", ("house.xlsx", content, "application/octet-stream"))]
    told = quiet_site.as_(MANAGER).post("/api/book", files=files).json()
    assert [each["code"] for each in told["faults"]] == ["book_unreadable"]


@pytest.mark.parametrize(
    "name", ["../../items.csv", "/etc/items.csv", "..\\items.csv", "C:\\x\\items.csv"]
)
def test_a_files_name_leads_nowhere(site, name):
    files = [("book", (name, ITEMS.encode(), "text/csv"))]
    told = site.as_(MANAGER).post("/api/book", files=files).json()
    assert told["applied"] is True


def test_a_book_is_a_managers(quiet_site):
    answer = quiet_site.as_(CHEF).post("/api/book", files=sheets(items=ITEMS))
    assert code(answer) == (403, "not_a_manager")


def test_what_is_neither_checked_nor_taken_is_refused(quiet_site):
    answer = quiet_site.as_(MANAGER).post("/api/book?check=maybe", files=sheets(items=ITEMS))
    assert code(answer) == (400, "request_unreadable")


def test_a_form_that_is_none_is_refused(quiet_site):
    mara = quiet_site.as_(MANAGER)
    for kind in ("application/json", "multipart/form-data", "multipart/form-data; boundary=x"):
        answer = mara.post("/api/book", content=b"nothing", headers={"content-type": kind})
        assert code(answer) == (400, "request_unreadable"), kind


def test_a_book_that_is_too_large_is_refused(quiet_site):
    files = sheets(items=ITEMS + "x" * 21_000_000)
    assert code(quiet_site.as_(MANAGER).post("/api/book", files=files)) == (413, "too_large")
