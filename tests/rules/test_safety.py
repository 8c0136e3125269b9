"""SL5: receiving by food, holding, time out of control, thaw times."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.policies import POLICIES, Number, Policy, Stricter, policy
from pantry.refusals import MissingFact, NotThere
from pantry.rules.safety import (
    Reading,
    Verdict,
    beyond,
    holding,
    off_control_until,
    receiving,
    thaw_time,
)

UK, US = policy("uk"), policy("us")
START = datetime(2027, 3, 10, 7, tzinfo=UTC)
ACCEPT, ASK, REFUSE = Verdict.ACCEPT, Verdict.ASK, Verdict.REFUSE
ORDER = [ACCEPT, ASK, REFUSE]


def after(minutes: int) -> datetime:
    return START + timedelta(minutes=minutes)


def readings(*taken: tuple[int, int]) -> list[Reading]:
    """Readings as (minutes after the start, tenths of a degree)."""
    return [Reading(after(minutes), temperature) for minutes, temperature in taken]


def test_SL5_a_judgement_says_why_and_by_what_number():
    judged = receiving(UK, "poultry", 61)
    assert judged.verdict is ASK
    assert judged.reason == "6.1 °C is past 4 °C, though not past 8 °C."
    assert "853/2004" in judged.limit.source
    assert receiving(UK, "poultry", 81).reason == "8.1 °C is past the limit of 8 °C."


def test_SL5_a_food_without_limits_is_refused_by_naming_those_that_have():
    with pytest.raises(NotThere) as refused:
        receiving(UK, "porcelain", 50)
    assert "poultry" in refused.value.todo


FOODS = st.sampled_from([(each, food) for each in (UK, US) for food in each.names("receiving")])


@given(FOODS, st.integers(-400, 1000), st.integers(-400, 1000))
def test_SL5_a_safer_temperature_never_gets_a_worse_verdict(known: tuple[Policy, str], one, other):
    chosen, food = known
    safer, less_safe = sorted((one, other), reverse=food == "hot")
    assert ORDER.index(receiving(chosen, food, safer).verdict) <= ORDER.index(
        receiving(chosen, food, less_safe).verdict
    )


@pytest.mark.parametrize("name", POLICIES)
def test_SL5_no_food_is_accepted_that_would_have_to_be_refused(name):
    for food in policy(name).names("receiving"):
        accept = policy(name).number(f"receiving.{food}.accept")
        refuse = policy(name).number(f"receiving.{food}.refuse")
        assert accept.stricter is refuse.stricter
        assert not beyond(accept.amount, refuse)


def test_SL5_what_stayed_cold_is_kept():
    judged = holding(UK, "chilled", readings((0, 40), (60, 80)), after(60))
    assert (judged.verdict, judged.until) == (ACCEPT, None)


def test_SL5_one_short_period_is_tolerated_and_runs_out():
    out = readings((0, 50), (10, 85), (60, 90))
    running = holding(UK, "chilled", out, after(60))
    assert (running.verdict, running.until) == (ASK, after(240))
    over = holding(UK, "chilled", [*out, *readings((120, 50))], after(600))
    assert (over.verdict, over.until) == (ACCEPT, None)


def test_SL5_time_passing_alone_ends_a_tolerated_period():
    out = readings((0, 50), (10, 85))
    assert holding(UK, "chilled", out, after(239)).verdict is ASK
    assert holding(UK, "chilled", out, after(250)).verdict is REFUSE


def test_SL5_the_period_is_tolerated_once_only():
    twice = readings((0, 50), (10, 85), (20, 50), (30, 85), (40, 50))
    assert holding(UK, "chilled", twice, after(40)).verdict is REFUSE


def test_SL5_where_nobody_looked_the_chef_is_asked():
    night = readings((0, 50), (720, 90), (725, 50))
    judged = holding(UK, "chilled", night, after(725))
    assert (judged.verdict, judged.until) == (ASK, None)
    still_out = holding(UK, "chilled", night[:2], after(720))
    assert (still_out.verdict, still_out.until) == (ASK, after(720 + 240))


def test_SL5_without_a_reading_before_it_a_period_begins_with_its_first_reading():
    out = readings((0, 90), (200, 90), (239, 50))
    assert holding(UK, "chilled", out, after(600)).verdict is ACCEPT
    longer = readings((0, 90), (200, 90), (240, 50))
    assert holding(UK, "chilled", longer, after(600)).verdict is ASK
    running = holding(UK, "chilled", out[:2], after(210))
    assert (running.verdict, running.until) == (ASK, after(240))


def test_SL5_a_reading_from_a_clock_that_runs_ahead_counts_as_now():
    out = readings((0, 90), (240, 90))
    assert holding(UK, "chilled", out, after(100)).verdict is REFUSE


def test_SL5_without_a_tolerance_what_passed_the_limit_is_refused():
    assert holding(US, "chilled", readings((0, 51)), after(0)).verdict is REFUSE
    assert holding(US, "chilled", readings((0, 50)), after(0)).verdict is ACCEPT


@pytest.mark.parametrize(
    ("temperature", "verdict"), [(-180, ACCEPT), (-179, ASK), (-150, ASK), (-149, REFUSE)]
)
def test_SL5_a_freezer_between_its_limit_and_its_worst_asks(temperature, verdict):
    taken = readings((0, -200), (5, temperature), (9, -200))
    assert holding(UK, "frozen", taken, after(9)).verdict is verdict


def test_SL5_readings_are_judged_by_their_time_and_not_by_their_order():
    taken = readings((60, 90), (0, 50), (10, 85), (120, 50))
    assert holding(UK, "chilled", taken, after(600)).verdict is ACCEPT


def test_SL5_nothing_is_judged_without_a_reading():
    with pytest.raises(MissingFact) as refused:
        holding(UK, "chilled", [], START)
    assert refused.value.code == "no_readings"


def test_SL5_hot_food_may_stand_for_service_so_long():
    assert off_control_until(UK, "hot", START) == after(120)
    assert off_control_until(UK, "chilled", START, highest=100) == after(240)


@pytest.mark.parametrize(
    ("grams", "uk_hours", "us_hours"), [(1, 12, 24), (1000, 12, 24), (1001, 24, 24), (6500, 84, 96)]
)
def test_SL3_a_piece_thaws_by_its_weight(grams, uk_hours, us_hours):
    assert thaw_time(UK, grams * 1000) == timedelta(hours=uk_hours)
    assert thaw_time(US, grams * 1000) == timedelta(hours=us_hours)


@given(st.integers(-500, 1500), st.integers(-500, 1500))
def test_SL5_beyond_is_the_side_that_is_not_safe(temperature, limit):
    cold = UK.number("holding.chilled.limit")
    number = Number(limit, cold.unit, "", "", "", cold.known)
    hot = Number(limit, cold.unit, "", "", "", cold.known, Stricter.HIGHER)
    assert beyond(temperature, number) == (temperature > limit)
    assert beyond(temperature, hot) == (temperature < limit)
