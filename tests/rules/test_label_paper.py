"""Label paper named by its measures: sheets and rolls, and what does not fit."""

from decimal import Decimal

import pytest

from pantry.refusals import UnreadableInput
from pantry.rules.label_paper import ROLLS, SHEETS, check_start, read_paper


@pytest.mark.parametrize("measures", [*SHEETS, *ROLLS])
def test_every_common_paper_stays_within_its_page(measures):
    paper = read_paper(measures)
    for at in range(paper.on_page):
        left, top = paper.place(at)
        assert left >= 0
        assert top >= 0
        assert left + paper.label[0] <= paper.page[0]
        assert top + paper.label[1] <= paper.page[1]


def test_a_common_sheet_is_known_by_its_rows_columns_and_label():
    short, whole = read_paper("A4/2x7/99.1x38.1"), read_paper(SHEETS[2])
    assert (short.first, short.next) == (whole.first, whole.next)


def test_labels_are_counted_row_by_row():
    paper = read_paper("a4/3x8/70x37")
    assert paper.place(0) == (Decimal(0), Decimal("0.5"))
    assert paper.place(4) == (Decimal(70), Decimal("37.5"))
    assert paper.place(24) == paper.place(0)


def test_ones_own_measures_may_be_given_and_are_centred_otherwise():
    paper = read_paper("a4/2x5/90x50")
    assert paper.first == (Decimal(15), Decimal("23.5"))
    own = read_paper("a4/2x5/90x50/10x20/95x52.5")
    assert own.place(3) == (Decimal(105), Decimal("72.5"))


def test_a_roll_has_one_label_a_page():
    roll = read_paper("62x29")
    assert (roll.page, roll.on_page) == ((Decimal(62), Decimal(29)), 1)
    assert roll.place(7) == (Decimal(0), Decimal(0))


@pytest.mark.parametrize("measures", ["", "a5/2x2/70x37", "sheet", "62", "a4/3x8", "-62x29"])
def test_what_is_no_measure_is_refused(measures):
    with pytest.raises(UnreadableInput) as refused:
        read_paper(measures)
    assert refused.value.code == "paper_unreadable"


@pytest.mark.parametrize(
    "measures",
    ["20x10", "a4/4x8/70x37", "a4/0x8/70x37", "a4/3x8/70x37/0x10", "a4/2x2/90x50/0x0/60x60"],
)
def test_what_does_not_stand_on_its_page_or_is_too_small_is_refused(measures):
    with pytest.raises(UnreadableInput) as refused:
        read_paper(measures)
    assert refused.value.code == "paper_too_small"


@pytest.mark.parametrize("start", [0, 25])
def test_a_begun_sheet_is_used_from_one_of_its_labels_on(start):
    with pytest.raises(UnreadableInput) as refused:
        check_start(read_paper("a4/3x8/70x37"), start)
    assert refused.value.code == "start_off_sheet"
