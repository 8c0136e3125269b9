"""An occupied, a light and an empty house: how much of what is kept in it needs (PL6)."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pantry.rules.house_time import days_of, local_date
from pantry.rules.occupancy import Fullness, Occupancy, Spell
from tests.rules.any_house import as_order
from tests.rules.planned_house import (
    HORIZON,
    LONDON,
    NOW,
    at,
    batch,
    delivers,
    item,
    need,
    pack,
    planned,
)

FEW = settings(max_examples=60, deadline=None)
DAY = timedelta(days=1)
MONDAY, THURSDAY = 0, 3
WEEK = days_of(date(2027, 3, 8), date(2027, 3, 14))


def march(*days):
    return [date(2027, 3, day) for day in days]


def gone(first, last, heads=0):
    """So many in the house on these days of March, through the last."""
    return dict.fromkeys(march(*range(first, last + 1)), heads)


# What is said of a day


@pytest.mark.parametrize(
    ("heads", "fullness"),
    [
        (0, Fullness.EMPTY),
        (1, Fullness.LIGHT),
        (5, Fullness.LIGHT),
        (6, Fullness.OCCUPIED),
        (25, Fullness.OCCUPIED),
    ],
)
def test_PL6_a_day_is_empty_with_nobody_and_light_with_half_of_the_usual_number(heads, fullness):
    assert Occupancy(10, known=gone(8, 8, heads)).fullness(date(2027, 3, 8)) is fullness


def test_PL6_where_nobody_has_said_how_many_there_are_no_day_is_empty():
    assert Occupancy(0).fullness(date(2027, 3, 8)) is Fullness.OCCUPIED


def test_PL6_days_alike_are_told_together():
    full = Occupancy(10, known=gone(9, 10) | gone(11, 12, 3) | gone(12, 12, 4) | gone(14, 14))
    assert full.spells(WEEK) == [
        Spell(Fullness.EMPTY, *march(9, 10), 0),
        Spell(Fullness.LIGHT, *march(11, 12), 4),
        Spell(Fullness.EMPTY, *march(14, 14), 0),
    ]


# The levels for some days


def levels(full, days, floor=1000, order_up_to=8000):
    found = full.levels(floor, order_up_to, days)
    return found.floor, found.order_up_to


def test_PL6_an_occupied_house_has_the_levels_that_are_set():
    found = Occupancy(10, known=gone(8, 9, 6) | gone(10, 10, 40)).levels(1000, 8000, WEEK)
    assert (found.floor, found.order_up_to, found.reckoned) == (1000, 8000, None)


def test_PL6_an_empty_house_needs_nothing():
    assert levels(Occupancy(10, known=gone(8, 14)), WEEK) == (0, 0)


def test_PL6_few_use_per_head_what_as_many_use_and_may_all_eat_one_dish():
    """4 of 10 for a week: of the 7000 above the floor 2800; of the floor 4 of the 8 at a table."""
    assert levels(Occupancy(10, 8, gone(8, 14, 4)), WEEK) == (500, 3300)
    assert levels(Occupancy(10, 3, gone(8, 14, 4)), WEEK) == (1000, 3800)


def test_PL6_whoever_comes_back_on_the_last_day_finds_the_floor_and_what_a_day_uses():
    assert levels(Occupancy(10, known=gone(8, 13)), WEEK) == (1000, 2000)


def test_PL6_what_is_not_whole_is_rounded_up():
    assert levels(Occupancy(3, known=gone(8, 14, 1)), WEEK, 100, 200) == (34, 68)


heads_of_days = st.dictionaries(st.sampled_from(WEEK), st.integers(0, 20))


@given(st.integers(0, 12), st.integers(0, 12), heads_of_days, st.integers(0, 900))
@FEW
def test_PL6_levels_are_never_above_those_set_and_never_below_what_people_use(
    usual, table, known, rate
):
    """Where a floor lasts one ordinary day and the level a week beside, so it does for fewer."""
    full = Occupancy(usual, table, known)
    floor, upto = levels(full, WEEK, rate * usual, 8 * rate * usual)
    assert 0 <= floor <= rate * usual
    assert floor <= upto <= 8 * rate * usual
    heads = [min(full.heads(day), usual) for day in WEEK]
    assert floor >= rate * max(heads)
    assert upto - floor >= rate * sum(heads)
    assert (upto == 0) == (rate * sum(heads) == 0)


@given(heads_of_days, st.sampled_from(WEEK), st.integers(0, 9))
@FEW
def test_PL6_one_more_in_the_house_never_makes_the_level_lower(known, day, heads):
    fewer, more = ({**known, day: number} for number in (heads, heads + 1))
    assert levels(Occupancy(10, 6, fewer), WEEK) <= levels(Occupancy(10, 6, more), WEEK)


# The plan


OATS = item("oats", floor=1000, order_up_to=5000)
MILL = delivers("mill", [MONDAY, THURSDAY])
BAG = pack("mill", "oats", 500)


def brought(known, stock=(), *, needs=(), supplier=MILL, bag=BAG, people=10, **more):
    """(day it comes, packs), of ten people's oats: a kilogram at least, ordered up to five."""
    found = planned([OATS], [supplier], [bag], needs, stock, people=people, known=known, **more)
    return [(row.delivery.at.day, row.packs) for row in found.rows if row.packs]


def test_PL6_an_occupied_house_is_filled_up_at_the_first_delivery():
    assert brought({}) == brought(gone(8, 25, 6)) == [(11, 10)]


def test_PL6_for_an_empty_house_nothing_is_ordered_up_to_par():
    assert brought(gone(8, 23)) == []


def test_PL6_on_the_day_everybody_leaves_nothing_comes_for_par():
    assert brought(gone(12, 23)) == []


def test_PL6_the_delivery_before_they_come_back_brings_the_floor_and_what_they_will_use():
    """They are back on Wednesday 17 March; Monday's delivery lasts Tuesday, Wednesday, Thursday."""
    assert brought(gone(8, 16)) == [(15, 8)]  # 1 kg, and two of three days of 4 kg


def test_PL6_whoever_is_back_on_a_day_of_delivery_had_it_brought_the_time_before():
    """Breakfast on Thursday the 18th is before the lorry."""
    assert brought(gone(8, 17))[0] == (15, 5)  # 1 kg, and one of three days of 4 kg


def test_PL6_what_dies_before_they_are_back_is_not_brought():
    """Sunday 21 March, and milk of Monday the 15th is dead on the 18th: Thursday's has to do."""
    assert brought(gone(8, 20), bag=pack("mill", "oats", 500, life=4))[0][0] == 18


def test_PL6_what_stands_there_and_dies_before_they_are_back_counts_for_nothing():
    there = [batch("oats", 5000, dies=16)]
    assert brought(gone(8, 16), there) == brought(gone(8, 16)) == [(15, 8)]


def test_PL6_where_a_boat_may_fail_the_one_before_brings_it_too():
    boat = delivers("mill", [MONDAY, THURSDAY], may_fail=True)
    assert brought(gone(8, 17), supplier=boat)[0][0] == 11


def test_PL6_what_others_bring_later_is_no_reason_to_pass_over_the_delivery_before_the_return():
    """Back on Thursday the 11th: the dairy's Wednesday, and not the barn's dearer Friday."""
    dairy, barn = delivers("dairy"), delivers("barn", [4])
    packs = [pack("dairy", "oats", 500, 100), pack("barn", "oats", 500, 300)]
    known = gone(8, 10)
    found = planned([OATS], [dairy, barn], packs, (), [batch("oats", 100)], people=10, known=known)
    assert next((row.supplier, row.delivery.at.day) for row in found.rows) == ("dairy", 10)


def test_PL6_few_have_what_few_use():
    """Three of ten all the time: 300 g of the floor, 1200 g of the 4 kg beside it."""
    assert brought(gone(8, 23, 3)) == [(11, 3)]


def test_PL6_a_menu_in_an_empty_house_is_bought_for_all_the_same():
    """Whoever looks after the house has a guest: that is ordered, and nothing beside it."""
    assert brought(gone(8, 23), needs=[need("oats", 400, 13)]) == [(11, 1)]


def test_PL7_a_lower_level_says_from_what_it_follows():
    found = planned([OATS], [MILL], [BAG], people=10, known=gone(8, 16))
    par = found.rows[0].derivation.par
    assert (par.floor, par.order_up_to) == (1_000_000, 3_666_667)
    assert par.reckoned.days == tuple(zip(march(16, 17, 18), (0, 10, 10), strict=True))
    assert (par.reckoned.usual, par.reckoned.floor) == (10, 1_000_000)
    assert "PL6" in found.rows[0].derivation.rules


def test_PL7_an_ordinary_week_has_nothing_to_say_of_who_is_there():
    found = planned([OATS], [MILL], [BAG], people=10, known=gone(20, 21))
    assert found.rows[0].derivation.par.reckoned is None
    assert "PL6" not in found.rows[0].derivation.rules


weekdays = st.sets(st.integers(0, 6), min_size=1, max_size=4)
days_away = st.dictionaries(
    st.dates(local_date(NOW, LONDON), local_date(HORIZON, LONDON) + DAY), st.integers(0, 5)
)


@st.composite
def times_of_absence(draw):
    """Nobody there but on some days."""
    there = draw(days_away)
    return {day: there.get(day, 0) for day in days_of(*march(8, 23))}


@given(weekdays, days_away | times_of_absence(), st.integers(0, 3000))
@FEW
def test_PL6_whoever_is_there_finds_the_floor_that_a_delivery_could_have_brought(
    weekdays, known, there
):
    """Nothing is used meanwhile: then, from the day after the first delivery, it stands there."""
    found = planned(
        [OATS],
        [delivers("mill", weekdays)],
        [pack("mill", "oats", 1)],
        stock=[batch("oats", there)],
        people=5,
        known=known,
    )
    lots = [(row.delivery.at, row.packs) for row in found.rows if row.packs]
    comes = [day for day in days_of(*march(9, 22)) if day.weekday() in weekdays]
    for day in days_of(comes[0] + DAY, comes[-1]) if comes else ():
        heads = known.get(day, 5)
        floor = 1000 if 2 * heads > 5 else -(-1000 * heads // 5)
        stands = there + sum(packs for when, packs in lots if local_date(when, LONDON) < day)
        assert stands >= floor, day


@given(weekdays, times_of_absence())
@FEW
def test_PL6_no_delivery_brings_par_that_nobody_is_there_for_before_the_next(weekdays, known):
    found = planned(
        [OATS], [delivers("mill", weekdays)], [BAG], people=5, known=known, horizon=at(22, 6)
    )
    comes = [day for day in days_of(*march(9, 22)) if day.weekday() in weekdays]
    for row in found.rows:
        assert row.because == ("par",)
        day = local_date(row.delivery.at, LONDON) if row.delivery else date(2027, 3, 8)
        following = min((each for each in comes if each > day), default=date(2027, 3, 22))
        assert any(known[each] for each in days_of(day + DAY, max(day + DAY, following))), row


sellers_of_two = st.tuples(weekdays, weekdays)


def of_two(weekdays, prices, **more):
    """The plan of oats that two sell, by the gram."""
    names = ("mill", "barn")
    return planned(
        [OATS],
        [delivers(name, days) for name, days in zip(names, weekdays, strict=True)],
        [pack(name, "oats", 1, price) for name, price in zip(names, prices, strict=True)],
        people=5,
        **more,
    )


@given(
    sellers_of_two,
    st.tuples(st.integers(1, 3), st.integers(1, 3)),
    days_away | times_of_absence(),
    st.integers(0, 1500),
)
@FEW
def test_PL6_of_several_sellers_too_nobody_comes_back_to_nothing(weekdays, prices, known, there):
    """A later delivery that costs less may be waited for, as long as there is something."""
    found = of_two(weekdays, prices, known=known, stock=[batch("oats", there)])
    lots = [(row.delivery.at, row.packs) for row in found.rows if row.packs]
    comes = [day for day in days_of(*march(9, 22)) if day.weekday() in weekdays[0] | weekdays[1]]
    for day in days_of(comes[0] + DAY, comes[-1]) if comes else ():
        came = sum(packs for when, packs in lots if local_date(when, LONDON) < day)
        assert there + came > 0 or known.get(day) == 0, day


@given(weekdays, days_away | times_of_absence(), st.integers(0, 1500))
@FEW
def test_PL6_once_it_is_ordered_nothing_more_is_ordered_up_to_par(weekdays, known, there):
    def told(*orders):
        stock = [batch("oats", there), *orders]
        sold = [pack("mill", "oats", 1)]
        mill = delivers("mill", weekdays)
        return planned([OATS], [mill], sold, (), stock, people=5, known=known).rows

    orders = [as_order(row) for row in told() if row.packs]
    assert [row for row in told(*orders) if row.packs] == []


@given(
    sellers_of_two,
    st.tuples(st.integers(1, 3), st.integers(1, 3)),
    days_away | times_of_absence(),
    st.integers(0, 1500),
)
@FEW
def test_PL1_what_is_waited_for_of_a_cheaper_seller_is_not_ordered_of_another_as_well(
    weekdays, prices, known, there
):
    def told(*orders):
        stock = [batch("oats", there), *orders]
        return of_two(weekdays, prices, known=known, stock=stock).rows

    orders = [as_order(row) for row in told() if row.packs]
    assert [row for row in told(*orders) if row.packs] == []


def test_PL1_a_gram_lasts_until_the_cheaper_mill_has_come():
    """The mill comes on Tuesday, the barn on the Monday after it, and costs less."""

    def told(*orders):
        stock = [batch("oats", 1), *orders]
        return of_two(({0, 1}, {0}), (2, 1), known={}, stock=stock).rows

    orders = [as_order(row) for row in told() if row.packs]
    assert [row for row in told(*orders) if row.packs] == []
