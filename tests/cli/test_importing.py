"""`import`: all of a house book or nothing, every fault by file, row and column."""

import pytest
from openpyxl import Workbook

from tests.cli.lodge import SHEETS, rows_of, write_book

FAULT = {"file", "row", "column", "value", "code", "problem", "todo"}


def test_a_book_founds_its_house(empty, book):
    assert empty.json("import", book) == {"schema": 1, "applied": True, "faults": []}
    answer = empty.json("stock")
    assert (answer["house"], answer["position"]) == ("Rookhope Lodge", 1)
    assert {row["label"] for row in answer["rows"]} == {f"R-000{n}" for n in range(1, 6)}


def test_in_words_it_says_what_came(empty, book):
    said = empty.words("import", book)
    assert "5 batches" in said
    assert "All of it was taken in." in said


def test_a_check_takes_nothing_in_and_makes_no_folder(empty, book):
    assert empty.json("import", book, "--check") == {"schema": 1, "applied": False, "faults": []}
    assert "Nothing was taken in." in empty.words("import", book, "--check")
    assert not empty.data.exists()


def test_a_workbook_is_a_book_too(empty, tmp_path):
    workbook = Workbook()
    workbook.remove(workbook.active)
    for name in SHEETS:
        sheet = workbook.create_sheet(name)
        for row in rows_of(name):
            sheet.append(row)
    workbook.save(tmp_path / "lodge.xlsx")
    assert empty.json("import", tmp_path / "lodge.xlsx")["applied"]
    assert len(empty.json("stock")["rows"]) == 5


@pytest.fixture
def faulty(tmp_path):
    """A book with a fault in two of its sheets."""
    batches = [line.replace("2 x 1 l", "2 x 1 furlong") for line in SHEETS["batches"]]
    items = [line.replace("Honey,g", "Honey,barrel") for line in SHEETS["items"]]
    return write_book(tmp_path / "faulty", batches=batches, items=items)


@pytest.mark.parametrize("check", [(), ("--check",)])
def test_every_fault_is_named_by_file_row_and_column(empty, faulty, check):
    answer = empty.json("import", faulty, *check, code=1)
    assert answer["applied"] is False
    faults = {(fault["file"], fault["row"], fault["column"]): fault for fault in answer["faults"]}
    assert all(fault.keys() == FAULT for fault in answer["faults"])
    assert faults["items.csv", 5, "base_unit"]["value"] == "barrel"
    assert faults["batches.csv", 2, "quantity"]["value"] == "2 x 1 furlong"


def test_of_a_faulty_book_nothing_is_taken_in(empty, faulty):
    empty.run("import", faulty, code=1)
    assert "no_house" in empty.run("stock", code=1).stderr


def test_faults_are_said_to_people_too(empty, faulty):
    result = empty.run("import", faulty, code=1)
    assert "items.csv row 5" in result.stdout
    assert "furlong" in result.stdout
    assert "nothing of it was taken in" in result.stderr


def test_a_house_that_stands_is_checked_as_it_stands(lodge, book):
    answer = lodge.json("import", book, code=1)
    assert answer["applied"] is False
    assert {fault["file"] for fault in answer["faults"]} == {
        "batches.csv",
        "services.csv",
        "orders.csv",
    }
    assert lodge.json("stock")["position"] == 1


def test_a_part_of_a_book_goes_into_the_house_that_is_there(lodge, tmp_path):
    part = tmp_path / "part"
    part.mkdir()
    (part / "areas.csv").write_text("area,kind\nCellar,ambient\n", encoding="utf-8")
    assert lodge.json("import", part)["applied"]
    assert lodge.json("changes", "--since", 0)["position"] == 2


def test_a_part_of_a_book_founds_no_house(empty, tmp_path):
    (tmp_path / "areas.csv").write_text("area,kind\nCellar,ambient\n", encoding="utf-8")
    answer = empty.json("import", tmp_path, code=1)
    assert [fault["code"] for fault in answer["faults"]] == ["house_missing"]


@pytest.mark.parametrize("name", ["nothing-there", "text.txt"])
def test_what_is_no_book_is_a_fault(empty, tmp_path, name):
    (tmp_path / "text.txt").write_text("area,kind\n", encoding="utf-8")
    answer = empty.json("import", tmp_path / name, code=1)
    assert [fault["code"] for fault in answer["faults"]] == ["book_unreadable"]


def test_the_command_is_given_by_the_first_manager(lodge, tmp_path):
    managers = "name,role\nZed Moor,manager\nMara Tees,chef\n"
    (tmp_path / "people.csv").write_text(managers, encoding="utf-8")
    assert lodge.json("import", tmp_path)["applied"]
    (tmp_path / "people.csv").write_text("name,role\nAnn Moor,porter\n", encoding="utf-8")
    assert lodge.json("import", tmp_path)["applied"]


def test_a_second_house_makes_the_name_necessary(lodge, tmp_path):
    house = [line.replace("Rookhope Lodge", "Killhope Hall") for line in SHEETS["house"]]
    lodge.run("import", write_book(tmp_path / "hall", house=house))
    result = lodge.run("stock", code=1)
    assert "Killhope Hall, Rookhope Lodge" in result.stderr
    assert "[house_not_named]" in result.stderr
    for named in ("Killhope Hall", "killhope-hall"):
        assert lodge.json("stock", CHOOSEBY_HOUSE=named)["house"] == "Killhope Hall"
    assert "[house_unknown]" in lodge.run("stock", code=1, CHOOSEBY_HOUSE="Elsewhere").stderr
