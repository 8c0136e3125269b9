"""Dates in codes, against the GS1 General Specifications and the GS1 syntax engine.

`syntax engine` is github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0; `syntax
dictionary` is github.com/gs1/gs1-syntax-dictionary, commit ff2eb4b, Apache License 2.0.
"""

from datetime import date, time

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code
from pantry.rules.codes.dates import full_year, read_date

TODAY = date(2026, 11, 25)
PRODUCT = "]d20109521234543213"


@pytest.mark.parametrize(
    ("digits", "day"),
    [  # day 00 is the last of the month: GS1 General Specifications, 3.4, from memory; computed
        ("270200", date(2027, 2, 28)),
        ("280200", date(2028, 2, 29)),
        ("270300", date(2027, 3, 31)),
    ],
)
@pytest.mark.parametrize("ai", ["11", "13", "15", "16", "17"])
def test_day_00_is_the_last_day_of_its_month(ai, digits, day):
    scan = read_code(f"{PRODUCT}{ai}{digits}", TODAY)
    read = {
        "11": scan.produced,
        "13": scan.packed,
        "15": scan.best_before,
        "16": scan.sell_by,
        "17": scan.date_mark and scan.date_mark.date,
    }
    assert read[ai] == day


@pytest.mark.parametrize(
    "element",
    [
        # day 00 is not allowed there: syntax dictionary, `yymmdd` instead of `yymmd0`
        *("7006270300", "7007270300", "70032703001430", "800827030014"),
        # real calendar only, computed
        *("17270229", "17271301", "17270001", "17270431", "15270229"),
        # hours and minutes: syntax engine, lint_hhmi.c
        *("70032704012400", "70032704012360"),
        # syntax engine, ai.c
        *("11131313", "4326201300", "4326201200", "800820122523006" + "0"),
        # a harvest cannot end before it begins, computed
        "7007270616270615",
    ],
)
def test_a_date_that_no_calendar_has_is_refused(element):
    with pytest.raises(Refusal) as refused:
        read_code(PRODUCT + element, TODAY)
    assert refused.value.code == "no_such_date"


@pytest.mark.parametrize(
    ("this_year", "two_digits", "year"),
    [  # GS1 General Specifications, 7.12, from memory; the same window as lint_yymmd0.c codes it
        (2026, 77, 1977),
        (2026, 76, 2076),
        (2026, 51, 2051),
        (2026, 0, 2000),
        (2051, 1, 2101),
        (2051, 2, 2002),
        (2099, 49, 2149),
        (2099, 50, 2050),
    ],
)
def test_two_digits_of_a_year_mean_the_nearest_century(this_year, two_digits, year):
    assert full_year(two_digits, date(this_year, 6, 1)) == year
    assert full_year(two_digits, date(this_year, 1, 1)) == year


@pytest.mark.parametrize(
    ("digits", "valid"),
    [  # syntax engine, lint_yymmd0.c, whose present is 2021
        *(("200229", True), ("200230", False), ("210228", True), ("210229", False)),
        *(("240229", True), ("000229", True), ("960229", True), ("960230", False)),
        *(("200600", True), ("200010", False), ("201310", False), ("200431", False)),
    ],
)
def test_leap_years_and_months_agree_with_the_syntax_engine(digits, valid):
    if valid:
        read_date(digits, date(2021, 1, 1), whole_month=True)
    else:
        with pytest.raises(Refusal):
            read_date(digits, date(2021, 1, 1), whole_month=True)


def test_an_expiry_with_a_time_keeps_its_wall_time():
    # GS1 General Specifications, 3.8 (AI 7003), computed: YYMMDDhhmm, local to the label
    scan = read_code(PRODUCT + "70032704011430", TODAY)
    assert scan.date_mark.date == date(2027, 4, 1)
    assert scan.use_by_time == time(14, 30)


@pytest.mark.parametrize(
    ("digits", "first", "last"),
    [
        ("270615270616", date(2027, 6, 15), date(2027, 6, 16)),  # computed
        ("211225211231", date(2021, 12, 25), date(2021, 12, 31)),  # syntax engine, ai.c
        ("211225", date(2021, 12, 25), date(2021, 12, 25)),  # syntax engine, ai.c
    ],
)
def test_a_harvest_is_a_day_or_a_range(digits, first, last):
    harvested = read_code(PRODUCT + "7007" + digits, TODAY).harvested
    assert (harvested.first, harvested.last) == (first, last)


@pytest.mark.parametrize("length", [7, 8, 9, 10, 11, 14])
def test_a_harvest_of_another_length_is_refused(length):
    # syntax engine, ai.c: 7 to 11 and more than 12 digits
    with pytest.raises(Refusal) as refused:
        read_code(PRODUCT + "7007" + "21122521123111"[:length], TODAY)
    assert refused.value.code == "value_does_not_fit"
