"""SL1-SL4: the two answers for a batch, and what opening, freezing and making make of them."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pantry.refusals import MissingFact, UnreadableInput, UnsafeFood
from pantry.rules.house_time import Span, zone
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import (
    Life,
    flagged_at,
    frozen,
    made,
    of_mark,
    opened,
    thawed,
    usable_at,
    vacuum_packed,
)
from pantry.rules.stock import DateKind, DateMark

LONDON = zone("Europe/London")
SECOND = timedelta(seconds=1)


def at(day: str, clock: str = "12:00") -> datetime:
    """A wall time in London."""
    return datetime.combine(date.fromisoformat(day), time.fromisoformat(clock), LONDON).astimezone(
        UTC
    )


def end(day: str) -> datetime:
    """The last second of a day in London, reckoned from the midnight after it."""
    after = date.fromisoformat(day) + timedelta(days=1)
    return datetime.combine(after, time(), LONDON).astimezone(UTC) - SECOND


def use_by(day: str) -> Life:
    return of_mark(DateMark(DateKind.USE_BY, date.fromisoformat(day)), LONDON)


def best_before(day: str) -> Life:
    return of_mark(DateMark(DateKind.BEST_BEFORE, date.fromisoformat(day)), LONDON)


NOTHING_KNOWN = Life()


def test_SL2_a_use_by_is_safety_and_a_best_before_is_quality():
    assert use_by("2027-03-10") == Life(usable_until=end("2027-03-10"))
    assert best_before("2027-03-10") == Life(good_until=end("2027-03-10"))
    assert of_mark(DateMark(DateKind.NONE), LONDON) == NOTHING_KNOWN


def test_SL2_past_usable_until_nothing_uses_it():
    life = use_by("2027-03-10")
    assert usable_at(life, at("2027-03-10", "23:59:59"))
    assert not usable_at(life, at("2027-03-11", "00:00"))
    assert not flagged_at(life, at("2027-03-11", "00:00"))


def test_SL2_past_good_until_it_is_flagged_and_still_usable():
    life = best_before("2027-03-10")
    assert not flagged_at(life, at("2027-03-10", "23:59:59"))
    assert flagged_at(life, at("2027-03-11", "00:00"))
    assert usable_at(life, at("2030-01-01"))


def test_SL2_what_is_past_use_is_refused_rather_than_flagged():
    life = Life(usable_until=end("2027-03-12"), good_until=end("2027-03-10"))
    assert flagged_at(life, at("2027-03-11"))
    assert not flagged_at(life, at("2027-03-13"))


@pytest.mark.parametrize(
    ("days", "last"), [(1, "2027-03-08"), (3, "2027-03-10"), (30, "2027-03-20")]
)
def test_SL3_opened_lives_the_earlier_of_its_parent_and_its_own(days, last):
    assert opened(use_by("2027-03-20"), at("2027-03-08"), days, LONDON).usable_until == end(last)


def test_SL3_opening_changes_nothing_where_no_opened_life_is_known():
    assert opened(use_by("2027-03-20"), at("2027-03-08"), None, LONDON) == use_by("2027-03-20")


def test_SL3_an_opened_life_in_hours_counts_from_the_opening():
    life = opened(use_by("2027-03-20"), at("2027-03-08", "09:30"), None, LONDON, life_hours=48)
    assert life.usable_until == at("2027-03-10", "09:30")


def test_SL3_hours_are_exact_over_a_clock_change_and_days_are_not():
    opening = at("2027-03-27", "18:00")
    by_hours = opened(NOTHING_KNOWN, opening, None, LONDON, life_hours=48)
    by_days = opened(NOTHING_KNOWN, opening, 3, LONDON)
    assert by_hours.usable_until == at("2027-03-29", "19:00")
    assert by_days.usable_until == end("2027-03-29")


def test_SL3_opening_keeps_the_quality_of_the_pack():
    life = opened(best_before("2027-12-31"), at("2027-03-08"), 5, LONDON)
    assert life == Life(usable_until=end("2027-03-12"), good_until=end("2027-12-31"))


@pytest.mark.parametrize("days", [0, -1])
def test_SL4_a_life_of_no_days_is_refused(days):
    with pytest.raises(UnreadableInput) as refused:
        opened(NOTHING_KNOWN, at("2027-03-08"), days, LONDON)
    assert refused.value.code == "life_too_short"


def test_SL4_a_life_of_no_hours_is_refused():
    with pytest.raises(UnreadableInput) as refused:
        thawed(NOTHING_KNOWN, at("2027-03-08"), 0, LONDON)
    assert refused.value.code == "life_too_short_in_hours"


def test_SL3_freezing_replaces_the_date_mark_and_keeps_what_was_left():
    life = frozen(use_by("2027-03-20"), at("2027-03-18"), 90, LONDON)
    assert life.usable_until is None
    assert life.frozen
    assert life.left == Span(days=3)  # the 18th, 19th, 20th
    assert life.good_until == end("2027-06-15")  # 18 March is day 1 of 90


def test_SL3_food_is_frozen_up_to_its_last_instant_and_not_a_second_later():
    life = use_by("2027-03-20")
    assert frozen(life, at("2027-03-20", "23:59:59"), None, LONDON).left == Span(days=1)
    with pytest.raises(UnsafeFood) as refused:
        frozen(life, at("2027-03-21", "00:00"), None, LONDON)
    assert refused.value.code == "frozen_too_late"


def test_SL3_what_was_past_its_best_stays_so_in_the_freezer():
    life = frozen(best_before("2027-03-10"), at("2027-03-11"), 90, LONDON)
    assert flagged_at(life, at("2027-03-12"))
    fresh = frozen(best_before("2027-03-10"), at("2027-03-09"), 90, LONDON)
    assert not flagged_at(fresh, at("2027-03-12"))


def test_SL3_freezing_what_is_frozen_winds_no_clock_back():
    once = frozen(use_by("2027-03-20"), at("2027-03-18"), 90, LONDON)
    assert frozen(once, at("2027-04-18"), 90, LONDON) == once


def test_SL3_thawed_has_the_lesser_of_what_was_left_and_the_thawed_life():
    short = frozen(use_by("2027-03-20"), at("2027-03-20"), None, LONDON)
    long = frozen(use_by("2027-03-20"), at("2027-03-10"), None, LONDON)
    out = at("2027-05-01", "08:00")
    assert thawed(short, out, 24, LONDON).usable_until == end("2027-05-01")
    assert thawed(long, out, 24, LONDON).usable_until == at("2027-05-02", "08:00")
    assert thawed(long, out, None, LONDON).usable_until == end("2027-05-11")


def test_SL3_the_thawed_life_begins_when_the_joint_is_thawed_through():
    joint = frozen(use_by("2027-03-20"), at("2027-03-20"), None, LONDON)
    out = at("2027-05-01", "08:00")
    through = thawed(joint, out, 24, LONDON, timedelta(hours=48))
    assert through.usable_until == end("2027-05-03")
    counted = thawed(joint, out, 24, LONDON, timedelta(hours=48), thawing_counts=True)
    assert counted.usable_until == end("2027-05-01")


def test_SL3_opening_on_the_day_of_thawing_adds_no_day():
    left_two_days = frozen(
        opened(use_by("2027-03-20"), at("2027-03-08"), 3, LONDON), at("2027-03-09"), None, LONDON
    )
    out = at("2027-05-01", "08:00")
    only_thawed = thawed(left_two_days, out, None, LONDON)
    assert only_thawed.usable_until == end("2027-05-02")
    assert opened(only_thawed, out, 3, LONDON) == only_thawed


def test_SL3_what_is_opened_in_the_freezer_has_at_most_its_opened_life_left():
    peas = of_mark(DateMark(DateKind.BEST_BEFORE, date(2027, 12, 31)), LONDON, frozen=True)
    open_peas = opened(peas, at("2027-03-08"), 3, LONDON)
    assert usable_at(open_peas, at("2027-09-01"))
    assert thawed(open_peas, at("2027-09-01"), None, LONDON).usable_until == end("2027-09-03")


def test_SL3_what_was_bought_frozen_keeps_its_mark_until_it_is_thawed():
    bought = of_mark(DateMark(DateKind.USE_BY, date(2027, 3, 10)), LONDON, frozen=True)
    assert bought.usable_until == end("2027-03-10")
    out = at("2027-03-10", "08:00")
    assert thawed(bought, out, 24, LONDON).usable_until == end("2027-03-10")


def test_SL3_a_thawed_life_that_nobody_knows_is_refused_and_not_guessed():
    bought = of_mark(DateMark(DateKind.BEST_BEFORE, date(2027, 3, 10)), LONDON, frozen=True)
    with pytest.raises(MissingFact) as refused:
        thawed(bought, at("2027-03-01"), None, LONDON)
    assert refused.value.code == "life_unknown"


def test_SL3_a_clock_in_hours_stops_and_goes_on_to_the_second():
    rice = made(at("2027-03-08", "12:00"), None, Dating.COOKED, (), LONDON, life_hours=24)
    stopped = frozen(rice, at("2027-03-08", "18:00"), None, LONDON)
    assert stopped.left == Span(exact=timedelta(hours=18))
    out = at("2027-04-01", "10:00")
    assert thawed(stopped, out, None, LONDON).usable_until == at("2027-04-02", "04:00")


def test_SL3_vacuum_packed_has_its_own_life_from_packing():
    packed = vacuum_packed(NOTHING_KNOWN, at("2027-03-08"), 10, LONDON)
    assert packed.usable_until == end("2027-03-17")


def test_SL3_taking_the_air_out_never_lengthens_a_use_by():
    packed = vacuum_packed(use_by("2027-03-10"), at("2027-03-08"), 10, LONDON)
    assert packed.usable_until == end("2027-03-10")
    with pytest.raises(MissingFact):
        vacuum_packed(use_by("2027-03-10"), at("2027-03-08"), None, LONDON)


@pytest.mark.parametrize("dating", [Dating.COOKED, Dating.PRESERVED])
def test_SL4_cooked_or_preserved_gets_its_own_life(dating):
    life = made(at("2027-03-05"), 4, dating, [use_by("2027-03-05")], LONDON)
    assert life == Life(usable_until=end("2027-03-08"))


def test_SL4_assembled_takes_the_earliest_of_its_ingredients_and_its_own():
    parts = [use_by("2027-03-09"), use_by("2027-03-07"), best_before("2027-03-06")]
    life = made(at("2027-03-05"), 30, Dating.ASSEMBLED, parts, LONDON)
    assert life == Life(usable_until=end("2027-03-07"), good_until=end("2027-03-06"))
    short = made(at("2027-03-05"), 1, Dating.ASSEMBLED, parts, LONDON)
    assert short.usable_until == end("2027-03-05")


def test_SL4_assembled_of_frozen_berries_takes_what_they_have_left_once_out():
    berries = frozen(use_by("2027-03-20"), at("2027-03-19"), 200, LONDON)
    life = made(at("2027-05-01"), 5, Dating.ASSEMBLED, [berries], LONDON)
    assert life.usable_until == end("2027-05-02")


def test_SL4_assembled_without_a_life_of_its_own_has_that_of_its_ingredients():
    assert made(at("2027-03-05"), None, Dating.ASSEMBLED, [use_by("2027-03-09")], LONDON) == Life(
        usable_until=end("2027-03-09")
    )


@pytest.mark.parametrize("dating", list(Dating))
def test_SL4_nothing_is_made_of_what_is_past_use(dating):
    with pytest.raises(UnsafeFood) as refused:
        made(at("2027-03-11"), 4, dating, [use_by("2027-03-20"), use_by("2027-03-10")], LONDON)
    assert refused.value.code == "made_of_past_food"


def test_SL4_what_is_past_its_best_may_be_cooked():
    life = made(at("2027-03-11"), 4, Dating.COOKED, [best_before("2027-03-10")], LONDON)
    assert life.usable_until == end("2027-03-14")


@pytest.mark.parametrize("dating", [Dating.COOKED, Dating.PRESERVED])
def test_SL4_a_life_that_nobody_gave_is_refused_and_not_guessed(dating):
    with pytest.raises(MissingFact) as refused:
        made(at("2027-03-11"), None, dating, [], LONDON)
    assert refused.value.code == "life_unknown"


def test_SL4_left_overs_keep_the_day_of_first_cooking_however_often_they_are_cooked():
    roast = made(at("2027-03-05"), 3, Dating.COOKED, [use_by("2027-03-06")], LONDON)
    pie = made(
        at("2027-03-06"), 3, Dating.COOKED, [use_by("2027-03-20")], LONDON, left_overs=[roast]
    )
    assert pie.usable_until == roast.usable_until == end("2027-03-07")
    with pytest.raises(UnsafeFood):
        made(at("2027-03-08"), 3, Dating.COOKED, [], LONDON, left_overs=[pie])


# --- properties ------------------------------------------------------------------------------

ZONES = st.sampled_from(
    [zone("Europe/London"), zone("America/New_York"), zone("Australia/Lord_Howe")]
)
INSTANTS = st.integers(0, 2 * 365 * 24 * 3600).map(
    lambda seconds: datetime(2026, 1, 1, tzinfo=UTC) + timedelta(seconds=seconds)
)
DAYS = st.integers(1, 40)
HOURS = st.integers(1, 200)
LIVES = st.builds(Life, st.none() | INSTANTS, st.none() | INSTANTS)


def no_later(child: datetime | None, parent: datetime | None) -> bool:
    return parent is None or (child is not None and child <= parent)


@given(LIVES, INSTANTS, st.none() | DAYS, st.none() | HOURS, ZONES)
def test_SL3_no_child_outlives_the_safety_of_its_parent(life, instant, days, hours, house):
    children = [opened(life, instant, days, house, life_hours=hours)]
    if days or hours:
        children.append(vacuum_packed(life, instant, days, house, life_hours=hours))
    if usable_at(life, instant):
        parts = [Life(), life]
        children.append(made(instant, days, Dating.ASSEMBLED, parts, house, life_hours=hours))
        if days or hours:
            children.append(
                made(instant, days, Dating.COOKED, (), house, life_hours=hours, left_overs=parts)
            )
    if hours:
        children.append(thawed(life, instant, hours, house))
    assert all(no_later(child.usable_until, life.usable_until) for child in children)


@given(LIVES, INSTANTS, INSTANTS, DAYS, ZONES)
def test_SL3_opening_earlier_never_keeps_longer(life, one, other, days, house):
    early, late = sorted((one, other))
    sooner = opened(life, early, days, house).usable_until
    assert no_later(sooner, opened(life, late, days, house).usable_until)


@given(LIVES, INSTANTS, st.tuples(DAYS, DAYS), ZONES)
def test_SL3_a_shorter_opened_life_never_keeps_longer(life, instant, lives, house):
    short, long = sorted(lives)
    shorter = opened(life, instant, short, house).usable_until
    assert no_later(shorter, opened(life, instant, long, house).usable_until)


@given(st.dates(date(2026, 1, 1), date(2027, 6, 1)), DAYS, st.lists(st.integers(0, 6)), ZONES)
def test_SL3_freezing_stops_the_clock_and_never_winds_it_back(first, days, stays, house):
    """Days out of the freezer, before and after, never come to more than the life had (SL3)."""
    noon = datetime.combine(first, time(12), house)
    life = made(noon, days, Dating.COOKED, (), house)
    day, spent, in_freezer = first, 0, False
    for stay in stays:
        day += timedelta(days=stay)
        instant = datetime.combine(day, time(12), house)
        if in_freezer:
            life = thawed(life, instant, None, house)
        else:
            spent += stay
            if not usable_at(life, instant):
                break
            life = frozen(life, instant, 30, house)
        in_freezer = not in_freezer
    assume(not in_freezer and life.usable_until)
    last = life.usable_until.astimezone(house).date()
    thawed_on = day if len(stays) else first
    if usable_at(life, datetime.combine(day, time(12), house)):
        assert spent + (last - thawed_on).days + 1 == days
    else:
        assert spent >= days


@given(INSTANTS, HOURS, st.lists(st.integers(0, 30 * 3600)), ZONES)
def test_SL3_a_clock_in_hours_runs_only_outside_the_freezer(start, hours, stays, house):
    life = made(start, None, Dating.COOKED, (), house, life_hours=hours)
    assume(life.usable_until.astimezone(house).time() != time(23, 59, 59))
    now, spent, in_freezer = start, timedelta(0), False
    for stay in stays:
        now += timedelta(seconds=stay)
        if in_freezer:
            life = thawed(life, now, None, house)
            if life.usable_until.astimezone(house).time() == time(23, 59, 59):
                return  # by chance a clock in hours looks like one in days
        elif usable_at(life, now):
            spent += timedelta(seconds=stay)
            life = frozen(life, now, None, house)
        else:
            return
        in_freezer = not in_freezer
    remaining = life.left.exact if in_freezer else life.usable_until - now
    assert spent + remaining == timedelta(hours=hours)


@given(LIVES, INSTANTS, INSTANTS, HOURS, st.integers(0, 100), ZONES)
def test_SL3_counting_the_thaw_never_keeps_longer(life, one, other, hours, thawing, house):
    put_in, out = sorted((one, other))
    assume(usable_at(life, put_in))
    stopped = frozen(life, put_in, None, house)
    slow = timedelta(hours=thawing)
    counted = thawed(stopped, out, hours, house, slow, thawing_counts=True).usable_until
    assert counted <= thawed(stopped, out, hours, house, slow).usable_until
    assert thawed(stopped, out, hours, house, slow).usable_until <= out + slow + timedelta(
        hours=hours
    )


@given(LIVES, INSTANTS)
def test_SL2_nothing_is_flagged_that_may_not_be_used(life, instant):
    assert usable_at(life, instant) or not flagged_at(life, instant)
