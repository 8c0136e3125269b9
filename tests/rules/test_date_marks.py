"""SL1: date marks as people read them off a pack."""

from contextlib import suppress
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import Refusal, UnreadableInput
from pantry.rules.date_marks import read_date_mark
from pantry.rules.stock import DateKind, DateMark

USE_BY, BEST_BEFORE, NONE = DateKind.USE_BY, DateKind.BEST_BEFORE, DateKind.NONE
READ_ON = date(2027, 1, 10)


@pytest.mark.parametrize(
    ("text", "last"),
    [
        ("2027-03-20", "2027-03-20"),
        (" 20 Mar 2027 ", "2027-03-20"),
        ("20 march 2027", "2027-03-20"),
        ("20 SEPT 2027", "2027-09-20"),
        ("20 sep. 2027", "2027-09-20"),
        ("28 Feb", "2027-02-28"),
        ("10 January", "2027-01-10"),  # the day of reading is included
    ],
)
@pytest.mark.parametrize("kind", [USE_BY, BEST_BEFORE])
def test_SL1_a_date_with_its_day_is_that_day(text, last, kind):
    assert read_date_mark(text, kind, read_on=READ_ON) == DateMark(kind, date.fromisoformat(last))


@pytest.mark.parametrize(
    ("text", "last"),
    [
        ("2027-02", "2027-02-28"),
        ("2028-02", "2028-02-29"),
        ("02/2028", "2028-02-29"),
        ("4/2027", "2027-04-30"),
        ("Dec 2027", "2027-12-31"),
        ("2027", "2027-12-31"),
        ("9 Jan", "2028-01-09"),
        ("29 Feb", "2028-02-29"),
    ],
)
def test_SL1_a_best_before_may_name_less_and_ends_with_it(text, last):
    mark = read_date_mark(text, BEST_BEFORE, read_on=READ_ON)
    assert mark == DateMark(BEST_BEFORE, date.fromisoformat(last))


@pytest.mark.parametrize("text", ["2027-03", "03/2027", "March 2027", "2027"])
def test_SL1_a_use_by_names_its_day(text):
    with pytest.raises(UnreadableInput) as refused:
        read_date_mark(text, USE_BY, read_on=READ_ON)
    assert refused.value.code == "day_needed"


@pytest.mark.parametrize("text", ["9 Jan", "10 Nov", "29 Feb"])
def test_SL1_a_use_by_without_its_year_is_never_read_as_next_years(text):
    with pytest.raises(UnreadableInput) as refused:
        read_date_mark(text, USE_BY, read_on=READ_ON)
    assert refused.value.code == "year_needed"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "March",
        "31 Sap 2027",
        "2027-02-29",
        "2027-13",
        "13/2027",
        "00/2027",
        "31 Feb",
        "0 Mar",
        "31.03.27",
        "03/04/27",
        "03/04/2027",
        "2027-3-1",
        "20270320",
        "0000",
        "2027-03-20T00:00",
    ],
)
@pytest.mark.parametrize("kind", [USE_BY, BEST_BEFORE])
def test_SL1_what_is_no_date_or_could_be_two_is_refused(text, kind):
    with pytest.raises(UnreadableInput) as refused:
        read_date_mark(text, kind, read_on=READ_ON)
    assert refused.value.code in ("date_mark_unreadable", "day_needed")
    assert refused.value.value == text


def test_SL1_no_date_mark_is_empty():
    assert read_date_mark(" ", NONE, read_on=READ_ON) == DateMark(NONE)
    with pytest.raises(UnreadableInput):
        read_date_mark("2027-03-20", NONE, read_on=READ_ON)


def test_SL1_a_leap_day_is_found_over_the_century_that_has_none():
    mark = read_date_mark("29 Feb", BEST_BEFORE, read_on=date(2096, 3, 1))
    assert mark.date == date(2104, 2, 29)


def test_SL1_a_use_by_without_its_year_is_read_three_months_ahead_and_no_further():
    assert read_date_mark("12 Apr", USE_BY, read_on=READ_ON).date == READ_ON + timedelta(days=92)
    with pytest.raises(UnreadableInput):
        read_date_mark("13 Apr", USE_BY, read_on=READ_ON)


@given(st.dates(date(2020, 1, 1), date(2090, 1, 1)), st.integers(0, 92))
def test_SL1_a_day_and_month_mean_the_next_such_date(read_on, ahead):
    wanted = read_on + timedelta(days=ahead)
    for kind in (USE_BY, BEST_BEFORE):
        text = f"{wanted.day} {wanted:%b}"
        assert read_date_mark(text, kind, read_on=read_on).date == wanted


@given(st.text(max_size=12), st.sampled_from(DateKind))
def test_SL1_no_text_does_more_than_be_refused(text, kind):
    with suppress(Refusal):
        assert read_date_mark(text, kind, read_on=READ_ON).kind is kind
