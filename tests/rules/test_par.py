"""Floor and order-up-to level of what is kept in (PL6)."""

from datetime import UTC, datetime, time, timedelta
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.demand import deviation_of_use, rare_rate, rate_of_use, reorder_point
from pantry.rules.notice import regular_deliveries
from pantry.rules.par import Levels, Replenishment, proposed_levels, replenishment
from pantry.rules.supply import DeliveryRule, Pack, Supplier

DAY = timedelta(days=1)
HOUR = timedelta(hours=1)
WEEKLY = Replenishment(review=7 * DAY, lead=8 * DAY, life_days=None)


def supplier(id_, *weekdays, cutoff=(1, time(22, 0)), **terms):
    rules = tuple(DeliveryRule(weekday, time(8, 0), *cutoff) for weekday in weekdays)
    return Supplier(id_, id_.title(), rules, **terms)


def pack(who, life=None):
    return Pack(f"{who}-1", who, "cream", "1 l", 1_000_000, 1_000_000, 320, life)


def rhythm(*suppliers, life=None):
    return replenishment("cream", [pack(one.id, life) for one in suppliers], suppliers)


def test_PL6_one_delivery_a_week_is_reviewed_weekly_and_awaited_longer():
    """Whoever has just missed Monday's 22:00 has it on Tuesday of next week at 8:00."""
    assert rhythm(supplier("dairy", 1)) == Replenishment(7 * DAY, 7 * DAY + 10 * HOUR, None)


def test_PL6_the_longest_gap_of_the_week_counts():
    """Tuesday and Friday: four days without a delivery from Friday to Tuesday."""
    assert rhythm(supplier("dairy", 1, 4)) == Replenishment(4 * DAY, 4 * DAY + 10 * HOUR, None)


def test_PL6_a_cut_off_days_ahead_and_the_time_to_send_belong_to_the_wait():
    ferry = supplier("ferry", 2, cutoff=(6, time(22, 0)), send=2 * HOUR)

    assert rhythm(ferry) == Replenishment(7 * DAY, 12 * DAY + 12 * HOUR, None)


def test_PL6_where_the_supplier_may_fail_the_wait_is_one_delivery_longer():
    sure, ferry = supplier("ferry", 1, 4), supplier("ferry", 1, 4, may_fail=True)

    assert rhythm(ferry).lead == rhythm(sure).lead + 3 * DAY


def test_PL6_whoever_misses_the_lorry_still_has_the_van():
    """Monday's lorry loads on Saturday of the week before last, the van for the next day."""
    lorry = DeliveryRule(0, time(8, 0), 9, time(20, 0))
    van = DeliveryRule(6, time(8, 0), 1, time(21, 0))

    assert rhythm(Supplier("moffat", "Moffat", (lorry, van))) == Replenishment(
        6 * DAY, 7 * DAY + 11 * HOUR, None
    )


def test_PL6_the_quickest_supplier_keeps_it_in_and_on_a_tie_the_longest_life():
    weekly, daily = supplier("wholesale", 1), supplier("dairy", *range(6))
    packs = [pack("wholesale"), pack("dairy", 5), pack("dairy", 9)]

    assert replenishment("cream", packs, [weekly, daily]) == Replenishment(
        2 * DAY, 2 * DAY + 10 * HOUR, 9
    )


@pytest.mark.parametrize("packs", [[], [pack("never")]])
def test_PL6_what_nobody_sells_is_not_replenished(packs):
    assert replenishment("cream", packs, [Supplier("never", "Never", ())]) is None


def test_PL6_steady_use_is_covered_to_the_day():
    assert proposed_levels([500] * 60, WEEKLY, 0) == Levels(8 * 500, 15 * 500)


def test_PL6_steady_use_gets_no_thousandth_more_from_the_dust_of_floats():
    """15 a day over 200 hours is 125; as floats multiply, a trace more."""
    awaited = Replenishment(review=16 * HOUR, lead=200 * HOUR, life_days=None)

    assert 15 * (200 * HOUR / DAY) > 125
    assert proposed_levels([15] * 60, awaited, 0) == Levels(125, 135)


def test_PL6_levels_are_rounded_up_to_whole_thousandths():
    """A third of a thousandth a day over 8 and 15 days: 2 2/3 and 5."""
    series = [1, 1, 1, 1, 0, 0] * 20
    floor, level = (
        reorder_point(rare_rate(series), deviation_of_use(series), days, 0.95) for days in (8, 15)
    )

    found = proposed_levels(series, WEEKLY, 0)

    assert floor < found.floor < floor + 1
    assert level < found.order_up_to < level + 1


def test_PL6_without_use_the_largest_need_of_the_approved_dishes_is_kept():
    assert proposed_levels([0] * 60, WEEKLY, 1_200_000) == Levels(1_200_000, 1_200_000)
    assert proposed_levels([], WEEKLY, 1_200_000) == Levels(1_200_000, 1_200_000)
    assert proposed_levels([500] * 60, None, 1_200_000) == Levels(1_200_000, 1_200_000)


def test_PL6_the_floor_always_suffices_for_the_largest_single_need():
    assert proposed_levels([500] * 60, WEEKLY, 5_000) == Levels(5_000, 15 * 500)


@pytest.mark.parametrize(
    ("life", "floor_days", "level_days"),
    [(5, 5, 5), (8, 8, 8), (10, 8, 10), (15, 8, 15), (40, 8, 15)],
)
def test_PL6_no_stock_is_proposed_that_would_die_before_it_is_used(life, floor_days, level_days):
    short = Replenishment(7 * DAY, 8 * DAY, life)

    assert proposed_levels([500] * 60, short, 0) == Levels(floor_days * 500, level_days * 500)


@given(
    st.lists(st.integers(0, 5_000_000), max_size=60),
    st.integers(1, 21),
    st.integers(1, 30),
    st.none() | st.integers(1, 60),
    st.integers(0, 5_000_000),
)
def test_PL6_an_order_never_brings_it_below_the_floor(series, review, lead, life, need):
    found = proposed_levels(series, Replenishment(review * DAY, lead * DAY, life), need)

    assert isinstance(found.floor, int)
    assert isinstance(found.order_up_to, int)
    assert need <= found.floor <= found.order_up_to


CALENDARS = {
    "weekly": supplier("wholesale", 1),
    "weekly, three days ahead": supplier("farm", 1, cutoff=(3, time(12, 0))),
    "weekly, six days ahead": supplier("ferry", 2, cutoff=(6, time(22, 0))),
    "twice a week": supplier("dairy", 1, 4),
    "every weekday": supplier("grocer", *range(6)),
}


def days_short(one, floor, order_up_to, series):
    """The share of days on which the day's use was not there, with these levels.

    At every order-by what is there and on order is brought back to the level where it is under the
    floor; deliveries come at 8:00; the day's use is taken at 19:00.
    """
    start = datetime(2001, 1, 1, tzinfo=UTC)
    deliveries = regular_deliveries(one, 0, len(series) // 7 - 1)
    happenings = [(start + n * DAY + 19 * HOUR, "use", use) for n, use in enumerate(series)]
    happenings += [(delivery.order_by, "order", delivery.id) for delivery in deliveries]
    happenings += [(delivery.at, "arrive", delivery.id) for delivery in deliveries]
    there, ordered, short = order_up_to, {}, 0
    for _, kind, what in sorted(happenings, key=lambda happening: happening[:2]):
        if kind == "use":
            short += there < what
            there = max(0, there - what)
        elif kind == "arrive":
            there += ordered.pop(what, 0)
        elif there + sum(ordered.values()) < floor:
            ordered[what] = order_up_to - there - sum(ordered.values())
    return short / len(series)


def uneven(days, seed):
    return [max(0, round(use)) for use in NormalDist(1000, 400).samples(days, seed=seed)]


def rare(days, seed):
    draws = NormalDist().samples(2 * days, seed=seed)
    amounts = zip(draws[:days], draws[days:], strict=True)
    return [round(1500 * (1 + abs(size))) if draw > 0.8 else 0 for draw, size in amounts]


@pytest.mark.parametrize("calendar", CALENDARS)
@pytest.mark.parametrize("use", [uneven, rare])
def test_PL6_the_levels_last_at_the_chosen_service_level(calendar, use):
    """Learned on half a year and lived with for eleven: short on no more than one day in twenty."""
    one = CALENDARS[calendar]
    levels = proposed_levels(use(182, seed=5), rhythm(one), 0)

    assert days_short(one, levels.floor, levels.order_up_to, use(4004, seed=6)) <= 0.05


@pytest.mark.parametrize("calendar", CALENDARS)
def test_PL6_a_floor_without_the_wait_for_the_next_order_by_would_not_last(calendar):
    """Why `lead` counts it: a floor for the way from cut-off to door alone fails one day in ten."""
    one = CALENDARS[calendar]
    series, (first, *_) = uneven(182, seed=5), regular_deliveries(one, 0, 1)
    on_the_way = (first.at - first.cutoff) / DAY
    levels = proposed_levels(series, rhythm(one), 0)
    floor = reorder_point(rate_of_use(series), deviation_of_use(series), on_the_way, 0.95)
    review = rhythm(one).review / DAY
    level = reorder_point(rate_of_use(series), deviation_of_use(series), review + on_the_way, 0.95)

    assert floor < levels.floor
    assert days_short(one, floor, level, uneven(4004, seed=6)) > 0.1
