"""Who eats: usual numbers, rotas, stays and absences (RQ5, AL3)."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.daily_use import daily_needs
from pantry.rules.menu import Constraint, DiningTable
from pantry.rules.presence import (
    Away,
    Meal,
    Presence,
    Rota,
    RotaLine,
    Stay,
    covers,
    people_on,
    while_they_stay,
)
from pantry.rules.stock import BaseUnit, Item

SAID = datetime(2027, 3, 8, 9, tzinfo=UTC)
FAMILY = DiningTable("family", "Family", 1, 4)
STAFF = DiningTable("staff", "Staff", 2, 7)
TIMES = {"breakfast": time(8), "lunch": time(13), "dinner": time(19, 30)}
MEALS = tuple(TIMES)
FRIDAY = date(2027, 3, 12)


def stay(
    first, last, first_at="", last_at="", *, heads=2, who="Ann Hale and Tom Hale", table=FAMILY
):
    return Stay(who, who, heads, table.id, first, first_at, last, last_at, "Helena", SAID)


def away(first, last, meal="", *, heads=1, table=FAMILY):
    return Away("a", "Orrin", heads, table.id, first, last, meal, "Helena", SAID)


def rota(*lines, table=STAFF):
    return {table.id: Rota(table.id, lines, "Isobel", SAID)}


def number(on, meal, *stays, table=FAMILY, away=(), rotas=None):
    said = Presence(stays, tuple(away), rotas or {})
    return covers(table, Meal(on, meal, TIMES[meal]), said, TIMES).number


def test_nobody_said_anything_so_it_is_as_usual():
    assert number(FRIDAY, "dinner") == 4
    unknown = DiningTable("picnic", "Picnic", 3)
    assert number(FRIDAY, "dinner", table=unknown) is None


def test_guests_from_friday_dinner_to_monday_breakfast_worked_by_hand():
    guests = stay(FRIDAY, FRIDAY + timedelta(days=3), "dinner", "breakfast")
    found = [
        [number(FRIDAY + timedelta(days=day), meal, guests) for meal in MEALS]
        for day in range(-1, 5)
    ]
    assert found == [[4, 4, 4], [4, 4, 6], [6, 6, 6], [6, 6, 6], [6, 4, 4], [4, 4, 4]]


def test_who_arrives_at_one_eats_at_one_and_who_leaves_at_one_does_not():
    assert number(FRIDAY, "lunch", stay(FRIDAY, None, "13:00")) == 6
    assert number(FRIDAY, "lunch", stay(FRIDAY, None, "13:01")) == 4
    assert number(FRIDAY, "lunch", stay(FRIDAY, FRIDAY, "", "13:00")) == 4
    assert number(FRIDAY, "lunch", stay(FRIDAY, FRIDAY, "", "13:30")) == 6


def test_a_meal_that_is_moved_keeps_the_guests_who_come_for_it():
    said = Presence((stay(FRIDAY, None, "dinner"),))
    early = covers(FAMILY, Meal(FRIDAY, "dinner", time(18)), said, TIMES)
    assert early.number == 6


def test_a_stay_is_at_its_own_table_and_one_called_off_is_at_none():
    guests = stay(FRIDAY, None)
    assert number(FRIDAY, "lunch", guests, table=STAFF) == 7
    assert number(FRIDAY, "lunch", stay(FRIDAY, None, heads=0)) == 4


def test_who_eats_elsewhere_is_not_at_that_meal_and_nobody_is_fewer_than_nobody():
    out = away(FRIDAY, FRIDAY, "dinner", heads=3)
    assert number(FRIDAY, "dinner", away=[out]) == 1
    assert number(FRIDAY, "lunch", away=[out]) == 4
    everybody = away(FRIDAY, FRIDAY, heads=9)
    assert number(FRIDAY, "lunch", away=[everybody]) == 0


def test_the_rota_line_that_says_most_exactly_counts():
    rotas = rota(
        RotaLine(5, weekday=4),
        RotaLine(3, weekday=4, meal="lunch"),
        RotaLine(2, on=FRIDAY),
        RotaLine(1, on=FRIDAY, meal="lunch"),
    )
    week = FRIDAY + timedelta(days=7)
    assert number(FRIDAY, "lunch", table=STAFF, rotas=rotas) == 1
    assert number(FRIDAY, "dinner", table=STAFF, rotas=rotas) == 2
    assert number(week, "lunch", table=STAFF, rotas=rotas) == 3
    assert number(week, "dinner", table=STAFF, rotas=rotas) == 5
    assert number(week + timedelta(days=1), "lunch", table=STAFF, rotas=rotas) == 7


def test_PL7_a_number_says_what_it_is_made_of_and_who_said_it_last():
    said = Presence((stay(FRIDAY, None),), (away(FRIDAY, FRIDAY, "dinner"),))
    found = covers(FAMILY, Meal(FRIDAY, "dinner", time(19, 30)), said, TIMES)
    assert [(part.what, part.heads) for part in found.made_of] == [
        ("usual", 4),
        ("stay", 2),
        ("away", -1),
    ]
    assert found.last_said is not None
    assert found.last_said.said_by == "Helena"


def test_RQ5_the_house_has_more_people_while_guests_stay_and_fewer_while_all_day_away():
    tables = (FAMILY, STAFF)
    said = Presence(
        (stay(FRIDAY, FRIDAY + timedelta(days=1), "dinner"),),
        (
            away(FRIDAY, FRIDAY, "dinner"),
            away(FRIDAY + timedelta(days=1), FRIDAY + timedelta(days=1)),
        ),
        rota(RotaLine(4, weekday=6)),
    )
    found = [people_on(FRIDAY + timedelta(days=day), 14, tables, said) for day in range(-1, 4)]
    assert found == [14, 16, 15, 11, 14]


def test_RQ5_milk_follows_the_people_of_each_day():
    milk = Item("milk", "Whole milk", BaseUnit.ML, daily_per_head=250_000)
    known = {FRIDAY: 16}
    found = daily_needs(
        {"milk": milk}, 14, FRIDAY, FRIDAY + timedelta(days=1), ZoneInfo("Europe/London"), known
    )
    assert [need.quantity for need in found] == [4_000_000, 3_500_000]


def cannot(person, first=None, last=None, table=FAMILY):
    return Constraint(person, table.id, frozenset({"nuts"}), first, last)


def test_AL3_a_guest_who_comes_again_cannot_eat_it_then_either():
    last = FRIDAY + timedelta(days=3)
    narrow = cannot("ann  hale", FRIDAY, FRIDAY)
    again = cannot("ann  hale", FRIDAY, last)
    assert while_they_stay([narrow], [stay(FRIDAY, last)]) == [narrow, again]
    before = cannot("Ann Hale", date(2027, 2, 1), date(2027, 2, 2))
    assert while_they_stay([before], [stay(FRIDAY, None)]) == [
        before,
        cannot("Ann Hale", FRIDAY, None),
    ]


def test_AL3_what_was_said_without_days_is_in_force_whatever_stays_are_known():
    """Somebody of the family who comes back for a week-end eats here on other days, too."""
    always = [cannot("Ann Hale")]
    assert while_they_stay(always, [stay(FRIDAY, FRIDAY)]) == always
    assert while_they_stay(always, [stay(FRIDAY, FRIDAY, heads=0)]) == always


def test_AL3_another_person_and_another_table_are_not_of_the_stay():
    kept = [
        cannot("Finlay", FRIDAY, FRIDAY),
        replace(cannot("Ann Hale", FRIDAY, FRIDAY), table=STAFF.id),
    ]
    assert while_they_stay(kept, [stay(FRIDAY, FRIDAY + timedelta(days=3))]) == kept


DAYS = st.dates(date(2027, 3, 1), date(2027, 3, 20))
MARKS = st.sampled_from(["", *MEALS, "10:15", "13:00", "22:00"])


@st.composite
def stays(draw):
    first, last = sorted((draw(DAYS), draw(DAYS)))
    return stay(first, last, draw(MARKS), draw(MARKS), heads=draw(st.integers(0, 9)))


@st.composite
def absences(draw):
    first, last = sorted((draw(DAYS), draw(DAYS)))
    return away(first, last, draw(st.sampled_from(["", *MEALS])), heads=draw(st.integers(0, 9)))


@given(
    st.lists(stays(), max_size=4), st.lists(absences(), max_size=4), DAYS, st.sampled_from(MEALS)
)
def test_PL7_a_number_is_the_sum_of_what_it_is_made_of(theirs, out, on, meal):
    said = Presence(tuple(theirs), tuple(out))
    found = covers(FAMILY, Meal(on, meal, TIMES[meal]), said, TIMES)
    assert found.number == max(0, sum(part.heads for part in found.made_of))


@given(stays(), st.sampled_from(MEALS))
def test_a_stay_changes_nothing_outside_its_days(one, meal):
    for on in (one.first - timedelta(days=1), one.last + timedelta(days=1)):
        assert number(on, meal, one) == 4


@given(stays(), DAYS)
def test_within_a_stay_nobody_goes_and_comes_back(one, on):
    """In the order of the day a guest is there from one meal on to another, without a gap."""
    there = [number(on, meal, one) != 4 for meal in MEALS]
    changes = sum(a != b for a, b in pairwise(there))
    assert changes <= (2 if one.first == one.last else 1)


@given(st.lists(stays(), max_size=4), st.tuples(DAYS, DAYS).map(sorted))
def test_AL3_nothing_that_anybody_cannot_eat_is_lost(found, days):
    said = [cannot("Ann Hale", *days), cannot("Tom Hale"), cannot("Finlay")]
    kept = while_they_stay(said, found)
    assert set(said) <= set(kept)
    for one in found:
        if one.heads:
            assert replace(said[0], first=one.first, last=one.last) in kept
