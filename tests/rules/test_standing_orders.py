"""What comes of itself, and when it would come to an empty house."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.standing_orders import EmptyHouse, brought, comes_to_nobody
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Supplier

LONDON = ZoneInfo("Europe/London")
MONDAY = date(2027, 3, 8)
DAY = timedelta(days=1)


def day(number):
    return MONDAY + number * DAY


def house(pattern):
    """How many are in the house, a figure a day from Monday on; after it, two."""
    known = {day(number): int(figure) for number, figure in enumerate(pattern)}
    return lambda on: known.get(on, 2)


def test_nobody_from_one_delivery_to_the_next_is_told_with_all_the_days_without_anybody():
    found = comes_to_nobody(day(3), day(5), house("2200000022"), MONDAY)
    assert found == EmptyHouse(day(2), day(7))


def test_somebody_on_the_last_day_before_the_next_delivery_wants_the_milk():
    assert comes_to_nobody(day(3), day(7), house("2200001222"), MONDAY) is None


def test_who_comes_on_the_day_of_the_next_delivery_has_that():
    found = comes_to_nobody(day(3), day(7), house("2220000222"), MONDAY)
    assert found == EmptyHouse(day(3), day(6))


def test_days_past_are_not_told():
    found = comes_to_nobody(day(3), day(4), house("0000222"), day(2))
    assert found == EmptyHouse(day(2), day(3))


def test_two_on_one_day_are_looked_at_for_that_day():
    assert comes_to_nobody(day(3), day(3), house("2220222"), MONDAY) == EmptyHouse(day(3), day(3))


@given(st.text("0123", min_size=1, max_size=30), st.integers(0, 20), st.integers(0, 10))
def test_told_days_hold_the_delivery_and_nobody(pattern, on, more):
    people_on = house(pattern)
    found = comes_to_nobody(day(on), day(on + more), people_on, MONDAY)
    somebody = [each for each in range(on, max(on + more, on + 1)) if people_on(day(each))]
    assert (found is None) == bool(somebody)
    if found is not None:
        assert found.first <= day(on) <= found.last
        days = (found.last - found.first).days + 1
        assert not any(people_on(found.first + each * DAY) for each in range(days))


def dairy(*closures):
    rules = tuple(DeliveryRule(weekday, time(6, 45), 1, time(17)) for weekday in (0, 2))
    return Supplier("dairy", "Dairy", rules=rules, closures=closures)


def days_brought(supplier, weekdays=frozenset({0, 2})):
    first = datetime(2027, 3, 8, tzinfo=UTC)
    found = brought(supplier, weekdays, first, first + timedelta(days=14), LONDON)
    return [(each.on, each.delivery.at.date()) for each in found]


def test_PL2_it_comes_on_its_weekdays_as_the_calendar_has_them():
    assert days_brought(dairy()) == [(day(n), day(n)) for n in (0, 2, 7, 9)]
    assert days_brought(dairy(), frozenset({2})) == [(day(n), day(n)) for n in (2, 9)]


def test_PL2_what_falls_away_brings_nothing_and_what_moves_stands_for_its_own_day():
    off = Closure(day(2), ClosureKind.NO_DELIVERY, None)
    moved = Closure(day(7), ClosureKind.NO_DELIVERY, day(8))
    assert days_brought(dairy(off, moved)) == [(day(0), day(0)), (day(7), day(8)), (day(9), day(9))]
