"""Bought in or kept in (PL6)."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.house_time import Span
from pantry.rules.menu import Service, ServiceState
from pantry.rules.notice import (
    Notice,
    ServedMeal,
    TooLate,
    Verdict,
    longest,
    notice,
    served_meals,
    who_would_do,
)
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, House, Pack, Supplier

MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY = range(7)
HOUR = timedelta(hours=1)
DAY = timedelta(days=1)


def hours(number):
    return Span(exact=number * HOUR)


def house(**settings):
    settings = {"notice": hours(72), "receiving_margin": Span(), **settings}
    return House(
        id="larkrise",
        name="Larkrise",
        zone="Europe/London",
        currency="GBP",
        unit_system="metric",
        warning=hours(24),
        last_call=hours(2),
        policy="plain",
        allergen_list="eu",
        **settings,
    )


def supplier(id_, *weekdays, at=time(7, 0), cutoff=(1, time(22, 0)), **terms):
    rules = tuple(DeliveryRule(weekday, at, *cutoff) for weekday in weekdays)
    return Supplier(id_, id_.title(), rules, **terms)


def pack(who, item, life=None, id_="pack"):
    return Pack(id_, who, item, "1 kg", 1_000_000, 1_000_000, 500, life_on_arrival_days=life)


def every_day(meal, at):
    return [ServedMeal(weekday, meal, at) for weekday in range(7)]


DINNERS = every_day("dinner", time(19, 30))
GREENGROCER = supplier("moffat", *range(MONDAY, SUNDAY))
FISHMONGER = supplier(
    "quayside", *range(TUESDAY, SUNDAY), at=time(7, 30), cutoff=(1, time(11, 0)), may_fail=False
)
DEER_FARM = supplier("glen", THURSDAY, at=time(10, 0), cutoff=(8, time(12, 0)))


NOW = datetime(2027, 3, 8, 7, tzinfo=UTC)


def answer(item, packs, suppliers, served=DINNERS, lead=Span(), in_house=None):
    return notice(item, packs, suppliers, served, lead=lead, house=in_house or house(), now=NOW)


def test_PL6_what_comes_every_weekday_is_bought_in():
    found = answer("leeks", [pack("moffat", "leeks")], [GREENGROCER])

    friday_evening_to_sunday_dinner = 2 * HOUR + DAY + 19.5 * HOUR
    assert found == Notice("leeks", friday_evening_to_sunday_dinner, Verdict.BOUGHT_IN, ())


def test_PL6_what_is_ordered_nine_days_ahead_is_kept_in_and_every_meal_says_by_how_much():
    found = answer("venison", [pack("glen", "venison", life=8)], [DEER_FARM])

    thursday = 8 * DAY + 7.5 * HOUR
    assert found.verdict is Verdict.KEPT_IN
    assert found.needed == thursday + 6 * DAY
    assert [too_late.weekday for too_late in found.fails] == list(range(7))
    assert found.fails[THURSDAY] == TooLate(THURSDAY, "dinner", thursday - 3 * DAY)
    assert found.fails[WEDNESDAY] == TooLate(WEDNESDAY, "dinner", thursday + 3 * DAY)


def test_PL6_only_the_meals_that_fail_are_named():
    """No boat on Sunday and Monday: Monday's fish was ordered on Friday."""
    found = answer("sole", [pack("quayside", "sole", life=3)], [FISHMONGER])

    needed = 3 * DAY + 8.5 * HOUR
    assert found.verdict is Verdict.KEPT_IN
    assert found.needed == needed
    assert found.fails == (TooLate(MONDAY, "dinner", needed - 3 * DAY),)


def test_PL6_a_life_on_arrival_that_ends_before_the_meal_is_no_way_to_have_it():
    """Saturday's fish with two days of life is dead on Monday, and no notice changes that."""
    found = answer("sole", [pack("quayside", "sole", life=2)], [FISHMONGER])

    assert found.verdict is Verdict.KEPT_IN
    assert found.fails == (TooLate(MONDAY, "dinner", None),)
    assert found.needed == 2 * DAY + 8.5 * HOUR  # Sunday's, from Friday at 11:00


def test_PL6_the_day_of_arrival_is_the_first_day_of_life():
    fishmonger = supplier("quayside", TUESDAY)
    packs = [pack("quayside", "sole", life=1)]

    found = answer("sole", packs, [fishmonger], [ServedMeal(TUESDAY, "dinner", time(23, 59))])

    assert found.verdict is Verdict.BOUGHT_IN


def test_PL6_where_the_supplier_may_fail_one_delivery_earlier_is_needed():
    sure = supplier("quayside", TUESDAY, THURSDAY)
    boat = replace(sure, may_fail=True)
    packs = [pack("quayside", "sole", life=4)]
    friday = [ServedMeal(FRIDAY, "dinner", time(19, 0))]

    assert answer("sole", packs, [sure], friday).needed == DAY + 21 * HOUR
    assert answer("sole", packs, [boat], friday).needed == 3 * DAY + 21 * HOUR


def test_PL6_where_the_supplier_may_fail_the_earlier_delivery_has_to_live_as_long():
    boat = supplier("quayside", TUESDAY, THURSDAY, may_fail=True)

    found = answer(
        "sole",
        [pack("quayside", "sole", life=3)],
        [boat],
        [ServedMeal(FRIDAY, "dinner", time(19, 0))],
    )

    assert found.fails == (TooLate(FRIDAY, "dinner", None),)


@pytest.mark.parametrize("days", range(22))
def test_PL6_the_delivery_before_is_found_however_long_the_lead(days):
    """Ordered on Monday at 22:00, in on Tuesday at 7:00; wanted so many days before Sunday."""
    ferry = supplier("ferry", TUESDAY, may_fail=True)

    found = answer(
        "flour",
        [pack("ferry", "flour")],
        [ferry],
        [ServedMeal(SUNDAY, "dinner", time(19, 30))],
        Span(days=days),
    )

    weeks_before = (days + 1) // 7 + 1
    assert found.needed == 5 * DAY + 21.5 * HOUR + weeks_before * 7 * DAY


def test_PL6_of_several_suppliers_the_one_who_needs_the_least_notice_counts():
    slow = supplier("moor", MONDAY, cutoff=(6, time(12, 0)))
    packs = [pack("moor", "leeks"), pack("moffat", "leeks")]

    both = answer("leeks", packs, [slow, GREENGROCER])

    assert both == answer("leeks", packs[1:], [GREENGROCER])
    assert answer("leeks", packs[:1], [slow, GREENGROCER]).verdict is Verdict.KEPT_IN


def test_PL6_the_latest_cut_off_counts_even_where_an_earlier_delivery_has_it():
    """Wednesday's lorry loads for a week; Tuesday's van takes orders until the evening before."""
    van = DeliveryRule(TUESDAY, time(8, 0), 1, time(20, 0))
    lorry = DeliveryRule(WEDNESDAY, time(8, 0), 7, time(20, 0))
    both = Supplier("moffat", "Moffat", (lorry, van))

    found = answer(
        "leeks", [pack("moffat", "leeks")], [both], [ServedMeal(WEDNESDAY, "dinner", time(20, 0))]
    )

    assert found.needed == 2 * DAY


@pytest.mark.parametrize(
    ("lead", "margin", "needed"),
    [
        (Span(), Span(), 21.5 * HOUR),
        (hours(12), Span(), 21.5 * HOUR),
        (hours(12.5), Span(), 21.5 * HOUR),
        (hours(13), Span(), 45.5 * HOUR),
        (hours(12), hours(0.5), 21.5 * HOUR),
        (hours(12), hours(1), 45.5 * HOUR),
        (Span(days=1), hours(12), 45.5 * HOUR),
        (Span(days=2), Span(), 69.5 * HOUR),
    ],
)
def test_PL6_lead_time_and_receiving_margin_both_bring_the_delivery_forward(lead, margin, needed):
    found = answer(
        "leeks",
        [pack("moffat", "leeks")],
        [GREENGROCER],
        [ServedMeal(FRIDAY, "dinner", time(19, 30))],
        lead,
        house(receiving_margin=margin),
    )

    assert found.needed == needed


@pytest.mark.parametrize("lead", [Span(days=70), Span(days=400)])
def test_PL6_a_pudding_made_months_before_needs_a_notice_of_months(lead):
    found = answer(
        "suet",
        [pack("moffat", "suet")],
        [GREENGROCER],
        [ServedMeal(FRIDAY, "dinner", time(19, 30))],
        lead,
    )

    assert lead.days * DAY <= found.needed <= (lead.days + 3) * DAY


def test_PL6_what_nobody_sells_is_kept_in_and_fails_on_every_meal():
    found = answer("quinces", [pack("moffat", "leeks")], [GREENGROCER])

    assert found == Notice(
        "quinces",
        None,
        Verdict.KEPT_IN,
        tuple(TooLate(weekday, "dinner", None) for weekday in range(7)),
    )


def test_PL6_a_supplier_without_delivery_days_sells_nothing():
    never = Supplier("moffat", "Moffat", ())

    assert answer("leeks", [pack("moffat", "leeks")], [never]).needed is None


def test_PL6_a_meal_served_at_two_times_fails_by_the_worse():
    breakfasts = [ServedMeal(MONDAY, "breakfast", at) for at in (time(8, 0), time(6, 30))]
    packs = [pack("quayside", "kippers")]

    found = answer("kippers", packs, [FISHMONGER], breakfasts, in_house=house(notice=hours(24)))

    assert found.needed == 2 * DAY + 21 * HOUR
    assert found.fails == (TooLate(MONDAY, "breakfast", DAY + 21 * HOUR),)


@pytest.mark.parametrize("order", [slice(None), slice(None, None, -1)])
def test_PL6_a_meal_for_which_no_notice_would_do_at_one_time_fails_outright(order):
    """Monday's only bread comes at 7:00: too late for 6:30, ordered on Thursday for 8:00."""
    baker = supplier("baker", MONDAY, cutoff=(4, time(12, 0)))
    breakfasts = [ServedMeal(MONDAY, "breakfast", at) for at in (time(6, 30), time(8, 0))]

    found = answer("bread", [pack("baker", "bread", life=1)], [baker], breakfasts[order])

    assert found.needed == 3 * DAY + 20 * HOUR
    assert found.fails == (TooLate(MONDAY, "breakfast", None),)


def test_PL6_a_house_that_serves_nothing_yet_fails_on_nothing():
    sold = answer("leeks", [pack("moffat", "leeks")], [GREENGROCER], served=[])
    unsold = answer("quinces", [], [GREENGROCER], served=[])

    assert sold == Notice("leeks", None, Verdict.BOUGHT_IN, ())
    assert unsold == Notice("quinces", None, Verdict.KEPT_IN, ())


def test_PL6_notice_just_as_long_as_is_needed_is_long_enough():
    packs = [pack("quayside", "sole", life=3)]
    needed = answer("sole", packs, [FISHMONGER]).needed
    enough = house(notice=Span(exact=needed))
    too_short = house(notice=Span(exact=needed - timedelta(seconds=1)))

    assert answer("sole", packs, [FISHMONGER], in_house=enough).verdict is Verdict.BOUGHT_IN
    assert answer("sole", packs, [FISHMONGER], in_house=too_short).fails == (
        TooLate(MONDAY, "dinner", timedelta(seconds=1)),
    )


def test_PL6_days_of_notice_are_days_on_the_clock_of_the_regular_week():
    packs = [pack("quayside", "sole", life=3)]
    three_days, hours_72 = house(notice=Span(days=3)), house(notice=hours(72))

    assert answer("sole", packs, [FISHMONGER], in_house=three_days) == answer(
        "sole", packs, [FISHMONGER], in_house=hours_72
    )


def test_PL6_closures_are_exceptions_and_change_no_regular_week():
    shut = tuple(
        Closure(date(2001, 1, 1) + n * DAY, ClosureKind.NO_DELIVERY) for n in range(-30, 30)
    )
    packs = [pack("moffat", "leeks")]

    assert answer("leeks", packs, [replace(GREENGROCER, closures=shut)]) == answer(
        "leeks", packs, [GREENGROCER]
    )


def test_PL6_the_longest_notice_needed_is_what_the_menu_really_needs():
    leeks = answer("leeks", [pack("moffat", "leeks")], [GREENGROCER])
    venison = answer("venison", [pack("glen", "venison")], [DEER_FARM])
    quinces = answer("quinces", [], [])

    assert longest(each.needed for each in (leeks, quinces, venison)) == venison.needed
    assert longest([quinces.needed]) is None


def test_PL6_served_meals_are_wall_times_of_the_house():
    """The same dinner in winter and in summer is one meal; another hour is another."""
    london = ZoneInfo("Europe/London")

    def service(day, wall, meal="dinner"):
        at = datetime.combine(day, wall, london).astimezone(UTC)
        return Service(f"{day}/{meal}/family", day, meal, "family", at, 6, ServiceState.CONFIRMED)

    services = [
        service(date(2027, 1, 11), time(19, 30)),
        service(date(2027, 7, 12), time(19, 30)),
        service(date(2027, 7, 19), time(20, 0)),
        service(date(2027, 7, 18), time(13, 0), "lunch"),
        service(date(2027, 7, 19), time(13, 0), "lunch"),
    ]

    assert served_meals(services, london) == (
        ServedMeal(MONDAY, "lunch", time(13, 0)),
        ServedMeal(MONDAY, "dinner", time(19, 30)),
        ServedMeal(MONDAY, "dinner", time(20, 0)),
        ServedMeal(SUNDAY, "lunch", time(13, 0)),
    )


wall_times = st.builds(time, st.integers(0, 23), st.sampled_from([0, 15, 30]))
delivery_rules = st.builds(
    DeliveryRule, st.integers(0, 6), wall_times, st.integers(1, 9), wall_times
)
sold = st.lists(
    st.tuples(
        st.lists(delivery_rules, min_size=1, max_size=4, unique_by=lambda r: (r.weekday, r.at)),
        st.booleans(),
        st.none() | st.integers(1, 12),
    ),
    min_size=1,
    max_size=3,
)
meals = st.builds(ServedMeal, st.integers(0, 6), st.sampled_from(["lunch", "dinner"]), wall_times)
leads = st.builds(Span, st.integers(0, 9), st.integers(0, 30).map(lambda n: n * HOUR))


def by_minutes(meal, sellers, lead, margin):
    """The notice in minutes, from a week of 10,080 minutes and nothing of the project."""
    week, day = 7 * 1440, 1440
    service = meal.weekday * day + meal.at.hour * 60 + meal.at.minute
    wanted = service - lead.days * day - (lead.exact + margin) // timedelta(minutes=1)
    best = None
    for rules, may_fail, life in sellers:
        runs = []
        for back in range(-1, 8):
            for rule in rules:
                on = rule.weekday * day - back * week
                arrival = on + rule.at.hour * 60 + rule.at.minute
                cutoff = on - rule.cutoff_days_before * day
                cutoff += rule.cutoff_at.hour * 60 + rule.cutoff_at.minute
                runs.append((arrival, cutoff))
        runs = sorted(run for run in runs if run[0] <= wanted)
        if may_fail:
            runs.pop()
        for arrival, cutoff in runs:
            alive = life is None or arrival // day + life - 1 >= service // day
            if alive and (best is None or service - cutoff < best):
                best = service - cutoff
    return best


@given(st.lists(meals, min_size=1, max_size=5), sold, leads, st.integers(0, 6))
def test_PL6_agrees_with_counting_minutes(served, sellers, lead, margin_hours):
    suppliers = [
        Supplier(f"s{n}", "S", tuple(rules), may_fail=may_fail)
        for n, (rules, may_fail, _) in enumerate(sellers)
    ]
    packs = [pack(f"s{n}", "x", life, f"p{n}") for n, (_, _, life) in enumerate(sellers)]
    margin = margin_hours * HOUR

    found = answer("x", packs, suppliers, served, lead, house(receiving_margin=Span(exact=margin)))

    minutes = [by_minutes(meal, sellers, lead, margin) for meal in served]
    possible = [timedelta(minutes=needed) for needed in minutes if needed is not None]
    late = {
        (meal.weekday, meal.meal)
        for meal, needed in zip(served, minutes, strict=True)
        if needed is None or needed > 72 * 60
    }
    assert found.needed == max(possible, default=None)
    assert {(too_late.weekday, too_late.meal) for too_late in found.fails} == late
    assert (found.verdict is Verdict.BOUGHT_IN) == (not late)


@given(st.lists(meals, min_size=1, max_size=5), sold, leads)
def test_PL6_with_the_notice_needed_all_is_bought_in_that_any_notice_can_buy(served, sellers, lead):
    suppliers = [Supplier(f"s{n}", "S", tuple(rules)) for n, (rules, _, _) in enumerate(sellers)]
    packs = [pack(f"s{n}", "x", life, f"p{n}") for n, (_, _, life) in enumerate(sellers)]
    needed = answer("x", packs, suppliers, served, lead).needed

    given_it = answer(
        "x", packs, suppliers, served, lead, house(notice=Span(exact=needed or timedelta(0)))
    )

    assert all(too_late.by is None for too_late in given_it.fails)


@given(st.lists(meals, min_size=1, max_size=5), sold, leads)
def test_PL6_with_just_enough_notice_it_is_bought_in_and_with_less_it_is_not(served, sellers, lead):
    suppliers = [Supplier(f"s{n}", "S", tuple(rules)) for n, (rules, _, _) in enumerate(sellers)]
    packs = [pack(f"s{n}", "x", life, f"p{n}") for n, (_, _, life) in enumerate(sellers)]

    def verdict(length):
        in_house = house(notice=Span(exact=length))
        return answer("x", packs, suppliers, served, lead, in_house).verdict

    enough = answer("x", packs, suppliers, served, lead).enough
    if enough is None:
        assert verdict(400 * DAY) is Verdict.KEPT_IN
    else:
        assert verdict(enough) is Verdict.BOUGHT_IN
        assert verdict(enough - timedelta(minutes=1)) is Verdict.KEPT_IN


@given(st.lists(meals, min_size=1, max_size=5), sold, sold, leads)
def test_PL6_who_would_do_is_who_makes_it_bought_in_once_they_sell_it(served, sellers, more, lead):
    others = [Supplier(f"o{n}", "O", tuple(rules)) for n, (rules, _, _) in enumerate(more)]
    suppliers = [Supplier(f"s{n}", "S", tuple(rules)) for n, (rules, _, _) in enumerate(sellers)]
    packs = [pack(f"s{n}", "x", life, f"p{n}") for n, (_, _, life) in enumerate(sellers)]
    lives = [one.life_on_arrival_days for one in packs]
    life = None if None in lives else max(lives, default=None)

    found = who_would_do(
        "x", packs, [*suppliers, *others], served, lead=lead, house=house(), now=NOW
    )

    if answer("x", packs, suppliers, served, lead).verdict is Verdict.BOUGHT_IN:
        assert found == ()
        return
    for other in others:
        both = answer("x", [*packs, pack(other.id, "x", life)], [*suppliers, other], served, lead)
        assert (both.verdict is Verdict.BOUGHT_IN) == (other.id in found)


def test_PL6_a_supplier_in_another_zone_is_reckoned_by_its_own_clock():
    """Oslo's clock is an hour ahead of London's all year: its 22:00 is the house's 21:00."""
    packs = [pack("moffat", "leeks")]
    here = answer("leeks", packs, [GREENGROCER]).needed
    abroad = replace(GREENGROCER, zone=ZoneInfo("Europe/Oslo"))
    assert answer("leeks", packs, [abroad]).needed == here + HOUR
    assert answer("leeks", packs, [replace(abroad, zone=ZoneInfo("Europe/London"))]).needed == here


def test_PL6_where_the_clocks_do_not_always_differ_alike_the_notice_is_enough_all_year():
    """Reykjavik's clock never changes: like London's in winter, an hour behind in summer.

    A cut-off at its 22:00 is then the house's 23:00, and a delivery at 18:45 comes at 19:45, after
    the dinner.
    """
    packs = [pack("moffat", "leeks")]
    here = answer("leeks", packs, [GREENGROCER]).needed
    abroad = replace(GREENGROCER, zone=ZoneInfo("Atlantic/Reykjavik"))
    assert answer("leeks", packs, [abroad]).needed == here
    late = supplier("moffat", *range(7), at=time(18, 45), zone=ZoneInfo("Atlantic/Reykjavik"))
    same_day = supplier("moffat", *range(7), at=time(18, 45))
    with_it, without = (answer("leeks", packs, [each]).needed for each in (late, same_day))
    assert with_it == without + 23 * HOUR
