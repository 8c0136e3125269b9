"""The house's decimal mark, as its book says it: what `1,500` means there (MS2)."""

import pytest

from pantry.commands import door
from pantry.commands.book.known import known
from pantry.records.database import open_database, reading, writing
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import BatchRow, PackRow
from tests.commands.cottage import NOW, body, changed, faults, places, row_of
from tests.commands.test_book_import import ID, SECOND, Cottage

BATCH = row_of("batches", "label", "M-1")


def book(mark, quantity="1,500 l"):
    """The cottage's book with a quantity of milk that the mark alone can decide."""
    sheets = changed("batches", BATCH, "quantity", quantity)
    if mark is not None:
        sheets["house"][0]["decimal_mark"] = mark
    return sheets


@pytest.fixture
def empty(tmp_path):
    """A database without a house."""
    engine = open_database(f"sqlite:///{tmp_path}/cottage.db")
    bring_up_to_date(engine)
    yield Cottage(engine)
    engine.dispose()


def import_into(cottage, sheets):
    cottage.found(sheets)
    cottage.do(sheets)


@pytest.mark.parametrize("mark", [None, ""])
def test_MS2_what_only_the_mark_could_decide_is_refused_where_no_book_says_it(mark):
    assert places(book(mark)) == [("batches", BATCH, "quantity", "number_ambiguous")]


@pytest.mark.parametrize(
    ("mark", "written", "kept", "millilitres"),
    [
        ("point", "1,500 ml", ".", 1_500),
        ("comma", "1,500 l", ",", 1_500),
        ("Comma", "1.500 ml", ",", 1_500),
        ("point", "1.500 l", ".", 1_500),
        ("comma", "1,5 l", ",", 1_500),
        ("comma", "1.5 l", ",", 1_500),
    ],
)
def test_MS2_a_book_is_read_with_its_decimal_mark(empty, mark, written, kept, millilitres):
    import_into(empty, book(mark, written))
    assert empty.row(BatchRow, label="M-1").quantity == 1_000 * millilitres
    assert empty.house().decimal_mark == kept


def test_MS2_prices_are_read_with_the_decimal_mark():
    sheets = changed("packs", 2, "price", "1,250")
    assert [each.code for each in faults(sheets)] == ["number_ambiguous"]
    sheets["house"][0]["decimal_mark"] = "point"
    assert faults(sheets) == ()


def test_MS2_the_mark_stays_until_a_book_says_another(empty):
    import_into(empty, book("comma", "1 l"))
    pack = body()["packs"][0] | {"quantity": "1,500 l", "pack": "a jug"}
    empty.do({"packs": [pack]}, SECOND)
    assert empty.house().decimal_mark == ","
    assert 1_500_000 in {row.quantity for row in empty.rows(PackRow)}


def test_MS2_a_point_that_no_book_has_said_decides_nothing(empty):
    import_into(empty, body())
    pack = body()["packs"][0] | {"quantity": "1,500 l", "pack": "a jug"}
    with reading(empty.engine) as connection:
        (fault,) = faults({"packs": [pack]}, known(connection, ID))
    assert (fault.column, fault.code) == ("quantity", "number_ambiguous")


def test_MS2_commands_are_read_with_the_mark_of_the_book(empty):
    import_into(empty, book("comma", "2 l"))
    waste = {"batch": "M-1", "quantity": "1,500 l", "reason": "spoiled", "destination": "bin"}
    envelope = {"id": SECOND, "kind": "waste", "at": NOW.isoformat(), "person": "Una Shaw"}
    with writing(empty.engine) as connection:
        (answer,) = door.apply(connection, ID, [envelope | {"body": waste}], NOW)
    assert answer.outcome == "applied", answer.problem
    assert empty.balances()["M-1", "waste"] == 1_500_000


def test_MS2_a_mark_is_a_point_or_a_comma():
    (fault,) = faults(book("dot", "1 l"))
    assert (fault.column, fault.code) == ("decimal_mark", "word_unknown")
