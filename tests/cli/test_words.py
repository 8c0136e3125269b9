"""What answers say to a person: local times, lengths drawn and in words, money, quantities."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.house_time import write_instant
from pantry.terminal.printing import first_of, listed, plain
from pantry.terminal.words import LONGEST, Words, elapsed, length, many

NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)
WORDS = Words(ZoneInfo("Europe/London"), NOW)


def test_SL1_a_moment_is_said_as_the_house_s_clock_shows_it():
    # British Summer Time begins on the last Sunday of March (Summer Time Order 2002)
    assert WORDS.moment("2027-03-12T22:00:00Z") == "Fri 12 Mar 22:00"
    assert WORDS.moment("2027-03-28T22:00:00Z") == "Sun 28 Mar 23:00"
    assert WORDS.moment(None) == "-"


def test_a_date_of_another_year_names_its_year():
    assert WORDS.day("2027-03-12") == "Fri 12 Mar"
    assert WORDS.day("2028-03-12") == "12 Mar 2028"


@pytest.mark.parametrize(
    ("usable", "good", "said"),
    [
        ("2027-03-10T23:59:59Z", None, "━ use by today"),
        ("2027-03-10T12:00:00Z", None, "━ use by today 12:00"),
        ("2027-03-12T23:59:59Z", None, "━━━ use by Fri 12 Mar"),
        ("2027-03-12T12:00:00Z", None, "━━━ use by Fri 12 Mar 12:00"),
        ("2027-06-01T22:59:59Z", None, "━━━━━▸ use by Tue 1 Jun"),
        (None, "2027-03-11T23:59:59Z", "━━ best until Thu 11 Mar"),
        (None, "2027-02-28T23:59:59Z", "× past its best since Sun 28 Feb"),
        ("2027-03-09T23:59:59Z", None, "× not to be used since Tue 9 Mar"),
        (
            "2027-03-11T23:59:59Z",
            "2027-02-28T23:59:59Z",
            "× past its best since Sun 28 Feb; ━━ use by Thu 11 Mar",
        ),
        (None, None, "no date"),
    ],
)
def test_SL2_how_long_is_left_says_whether_it_is_safety_or_quality(usable, good, said):
    assert WORDS.left(usable, good) == said


@given(st.integers(0, 400 * 24 * 60))
def test_a_drawn_length_has_a_stroke_for_each_day_begun(minutes):
    end = NOW + timedelta(minutes=minutes)
    drawn = WORDS.left(write_instant(end), None).partition(" ")[0]
    days = (end.astimezone(WORDS.zone).date() - WORDS.today).days
    assert drawn.count("━") == min(days + 1, LONGEST)
    assert drawn.endswith("▸") == (days >= LONGEST)


def test_a_terminal_without_the_line_gets_plain_strokes():
    ascii_words = Words(WORDS.zone, NOW, unicode=False)
    left = ascii_words.left("2027-06-01T22:59:59Z", None)
    assert left == "=====> use by Tue 1 Jun"
    assert ascii_words.left("2027-03-09T23:59:59Z", None).isascii()


def test_money_has_the_decimals_of_its_currency():
    # ISO 4217: the pound has 2 decimals, the yen none, the Kuwaiti dinar 3
    assert WORDS.money({"minor": 1240, "currency": "GBP"}) == "12.40 GBP"
    assert WORDS.money({"minor": 1240, "currency": "JPY"}) == "1240 JPY"
    assert WORDS.money({"minor": 1240, "currency": "KWD"}) == "1.240 KWD"
    comma = Words(WORDS.zone, NOW, decimal_mark=",")
    assert comma.money({"minor": 1240, "currency": "EUR"}) == "12,40 EUR"


def test_quantities_are_said_as_people_say_them():
    assert WORDS.amount({"value": "1250", "unit": "g"}) == "1.25 kg"
    assert WORDS.amount({"value": "0.5", "unit": "ml"}) == "0.5 ml"
    assert WORDS.amount({"value": "3", "unit": "each"}) == "3"


def test_a_service_is_said_by_its_day_meal_and_table():
    assert WORDS.service("2027-03-13/dinner/family") == "Sat 13 Mar dinner, family"
    assert WORDS.service("par") == "par"
    assert WORDS.service("daily use") == "daily use"


def test_lengths_of_time_are_said_in_days_hours_and_minutes():
    assert length("PT163H") == "6 days 19 h"
    assert length("P1DT12H") == "1 day 12 h"
    assert length("PT45M") == "45 min"
    assert length(None) == "no time is enough"
    assert elapsed(timedelta(0)) == "0 min"


def test_lists_and_counts():
    assert [many(0, "batch", "batches"), many(1, "batch", "batches"), many(2, "item")] == [
        "0 batches",
        "1 batch",
        "2 items",
    ]
    assert [listed([]), listed(["a"]), listed(["a", "b", "c"], "or")] == ["", "a", "a, b or c"]
    assert first_of(["a", "b", "c"], 2) == "a\nb\nand 1 more"
    assert first_of(["a", "b"], 2) == "a\nb"


def test_nothing_in_a_name_reaches_the_terminal_as_a_command():
    assert plain("Cream \x1b[31mred\x07 [bold]x[/bold]").plain == "Cream  [31mred  [bold]x[/bold]"
