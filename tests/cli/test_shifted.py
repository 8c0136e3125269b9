"""A house book moved by whole weeks: weekdays stay, and what had ended has ended."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.commands.book.files import read_book
from pantry.commands.book.sheets import HouseBook, Sheet
from pantry.terminal.demo import BOOK_DAY, demo_book
from pantry.terminal.shifted import DATES, days_moved, shifted, weeks_between

weeks = st.integers(-300, 300)


def moved(sheet, column, text, by):
    book = HouseBook({sheet: Sheet(sheet, (column,), ((2, {column: text}),))})
    return shifted(book, by, BOOK_DAY).sheets[sheet].rows[0][1][column]


@pytest.mark.parametrize(
    ("today", "by"),
    [
        ("2027-03-10", 0),
        ("2027-03-12", 0),
        ("2027-03-13", 0),  # Saturday: its Wednesday is three days ago
        ("2027-03-14", 1),  # Sunday: the nearest Wednesday is three days ahead
        ("2027-03-16", 1),
        ("2026-11-25", -15),
    ],
)
def test_the_book_is_moved_to_the_nearest_day_of_the_same_weekday(today, by):
    assert weeks_between(BOOK_DAY, date.fromisoformat(today)) == by


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)))
def test_the_book_s_day_lands_within_half_a_week(today):
    landed = BOOK_DAY + timedelta(weeks=weeks_between(BOOK_DAY, today))
    assert landed.weekday() == BOOK_DAY.weekday()
    assert abs((landed - today).days) <= 3


@given(st.dates(date(2020, 1, 1), date(2040, 1, 1)), weeks)
def test_a_date_moves_by_whole_weeks_and_keeps_its_weekday(day, by):
    text = moved("services", "date", day.isoformat(), by)
    assert date.fromisoformat(text) == day + timedelta(weeks=by)


@given(st.dates(date(2026, 1, 1), date(2029, 1, 1)), weeks, st.sampled_from(["%Y-%m", "%Y"]))
def test_SL1_a_mark_without_its_day_has_ended_on_the_new_day_if_it_had_on_the_old(day, by, form):
    new_day = BOOK_DAY + timedelta(weeks=by)
    before, after = day.strftime(form), moved("batches", "date", day.strftime(form), by)
    assert (_end(before) < BOOK_DAY) == (_end(after) < new_day)
    slack = 31 if form == "%Y-%m" else 366
    assert abs(_end(after) - _end(before) - timedelta(weeks=by)) < timedelta(days=slack)


@given(st.dates(date(2026, 1, 1), date(2029, 1, 1)), st.sampled_from(["%Y-%m-%d", "%Y-%m", "%Y"]))
def test_by_no_week_nothing_changes(day, form):
    assert moved("batches", "date", day.strftime(form), 0) == day.strftime(form)


def _end(mark):
    """The last day of a mark that names a month or a year."""
    year, month = (int(part) for part in [*mark.split("-"), "12"][:2])
    return date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1)


def test_seasons_have_no_year_and_stay():
    recipes = Sheet("recipes", ("season_from",), ((2, {"season_from": "04-23"}),))
    book = HouseBook({"recipes": recipes})
    assert shifted(book, 5, BOOK_DAY) == book


def test_what_is_no_date_is_left_to_the_import():
    assert moved("batches", "date", "next Friday", 3) == "next Friday"
    assert moved("batches", "date", "", 3) == ""


def test_every_date_of_the_demo_book_is_in_a_column_that_is_moved():
    seed = read_book(Path(__file__).parents[2] / "seed")
    for name, sheet in seed.sheets.items():
        for _, cells in sheet.rows:
            for column, text in cells.items():
                if text[:4].isdigit() and text[4:5] == "-" and len(text) in (7, 10):
                    assert column in DATES.get(name, ()), (name, column, text)


def test_the_demo_book_is_there():
    assert demo_book().sheets["house"].rows[0][1]["name"] == "Ardlinnet House"


def test_every_day_in_a_text_is_moved_and_nothing_else():
    text = '{"at": "2027-03-10T06:35:00Z", "id": "0196f000-0000-7000-8000-00000000da04"}'
    assert days_moved(text, -1) == text.replace("2027-03-10", "2027-03-03")


def test_a_moment_keeps_its_hour():
    assert moved("stays", "said_at", "2027-03-09 21:15", 1) == "2027-03-16 21:15"
