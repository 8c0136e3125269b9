"""Whatever stands in a cell, a house book is checked to its end and says where the fault is."""

from hypothesis import given, settings
from hypothesis import strategies as st

from pantry.commands.book.sheets import SHEETS
from pantry.refusals import CODES
from tests.commands.cottage import body, faults

_PLACES = [
    (sheet, number, column)
    for sheet in SHEETS
    for number, row in enumerate(body()[sheet])
    for column in row
]
_TELLING = [
    "0",
    "-1",
    "1e400",
    "99999999999999999999",
    "1/0",
    "0/1",
    "9999-12-31",
    "0001-01-01",
    "2027-03-28T01:30",  # skipped by the clock in Dublin
    "9999-12-31T23:59:59Z",
    "00:00",
    "24:00",
    "1000000000000 kg",
    "0.0000001 g",
    "6 x",
    "x 6",
    "none",
    ";",
    "Whole milk",
    "Pancake batter",
    "Pancakes",
    "Fridge",
    "999999 weeks",
    "²",
    "½",
    "%",
    "-",
    "\x00",
]
_CELL = st.one_of(st.sampled_from(_TELLING), st.text(max_size=12), st.just(""))


@settings(deadline=None, max_examples=150)
@given(st.lists(st.tuples(st.sampled_from(_PLACES), _CELL), min_size=1, max_size=4))
def test_no_text_in_any_cell_stops_the_check(changes):
    sheets = body()
    for (sheet, number, column), text in changes:
        sheets[sheet][number][column] = text
    for fault in faults(sheets):
        assert fault.file in SHEETS
        assert fault.code in CODES
        assert fault.row >= 2
        assert (
            fault.value == ""
            or fault.value == sheets[fault.file][fault.row - 2][fault.column].strip()
            or not fault.column
        )


def test_the_ends_of_time_are_faults_wherever_a_time_is_meant():
    words = {"date", "from", "to", "instead", "lead", "notice", "warning", "call", "margin"}
    for sheet, number, column in _PLACES:
        if number == 0 and column.split("_")[-1] in words:
            for text in ("9999-12-31", "0001-01-01", "999999 weeks", "PT999999H"):
                sheets = body()
                sheets[sheet][0][column] = text
                assert faults(sheets), (sheet, column, text)
