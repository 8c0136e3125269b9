"""SL5: cooling in stages."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.policies import policy
from pantry.refusals import MissingFact, NotThere
from pantry.rules.cooling import Outcome, cooling
from pantry.rules.safety import Reading

UK, US = policy("uk"), policy("us")
START = datetime(2027, 3, 10, 20, tzinfo=UTC)
PASSED, FAILED, RUNNING = Outcome.PASSED, Outcome.FAILED, Outcome.RUNNING


def after(minutes: int) -> datetime:
    return START + timedelta(minutes=minutes)


def readings(*taken: tuple[int, int]) -> list[Reading]:
    return [Reading(after(minutes), temperature) for minutes, temperature in taken]


def test_SL5_a_cooling_that_runs_says_what_must_be_reached_by_when():
    running = cooling(UK, readings((0, 630), (30, 450)), after(30))
    assert (running.outcome, running.stage, running.by) == (RUNNING, 1, after(90))
    second = cooling(UK, readings((0, 630), (80, 200)), after(80))
    assert (second.outcome, second.stage, second.by) == (RUNNING, 2, after(360))
    assert second.limit.written == "8 °C"


def test_SL5_time_passing_alone_fails_a_cooling():
    taken = readings((0, 630), (80, 200))
    assert cooling(UK, taken, after(360)).outcome is RUNNING
    failed = cooling(UK, taken, after(361))
    assert (failed.outcome, failed.stage) == (FAILED, 2)


def test_SL5_what_nobody_measured_in_time_was_not_reached_in_time():
    failed = cooling(UK, readings((0, 630), (200, 50)), after(200))
    assert (failed.outcome, failed.stage) == (FAILED, 1)


def test_SL5_the_clock_begins_with_the_last_reading_that_was_hot():
    taken = readings((0, 950), (40, 800), (60, 500), (130, 210), (400, 80))
    assert cooling(UK, taken, after(400)).outcome is PASSED
    assert cooling(UK, taken, after(400)).by == after(400)


def test_SL5_while_it_is_hot_the_clock_has_not_begun():
    hot = cooling(UK, readings((0, 950), (300, 700)), after(300))
    assert (hot.outcome, hot.by) == (RUNNING, None)


def test_SL5_the_clock_begins_at_the_hot_limit_itself():
    begun = cooling(UK, readings((0, 900), (30, 630)), after(30))
    assert (begun.outcome, begun.stage, begun.by) == (RUNNING, 1, after(120))


def test_SL5_without_a_hot_reading_the_clock_begins_with_the_first():
    taken = readings((0, 400), (89, 200))
    assert cooling(UK, taken, after(89)).by == after(360)


def test_SL5_what_is_made_cold_has_a_clock_of_its_own():
    assert cooling(US, readings((0, 200), (239, 50)), after(239), start="ambient").outcome is PASSED
    assert cooling(US, readings((0, 200), (241, 50)), after(241), start="ambient").outcome is FAILED
    with pytest.raises(NotThere):
        cooling(UK, readings((0, 200)), START, start="ambient")


def test_SL5_no_reading_is_no_cooling():
    with pytest.raises(MissingFact) as refused:
        cooling(UK, [], START)
    assert refused.value.code == "no_readings"


COOLINGS = st.lists(st.tuples(st.integers(0, 600), st.integers(-20, 900)), min_size=1, max_size=8)


@given(COOLINGS, st.integers(600, 700), st.sampled_from([UK, US]))
def test_SL5_a_cooling_passes_exactly_if_every_stage_has_its_reading_in_time(taken, now, rules):
    taken = list({minute: (minute, degrees) for minute, degrees in taken}.values())
    outcome = cooling(rules, readings(*taken), after(now)).outcome
    hot = rules.number("cooling.cooked.from").amount
    in_order = sorted(taken)
    below = [minute for minute, degrees in in_order if degrees < hot]
    if not below:
        begun = in_order[-1][0] if in_order[-1][1] == hot else None
    else:
        before = [minute for minute, _ in in_order if minute < below[0]]
        begun = before[-1] if before else below[0]
    expected = begun is not None and all(
        any(
            begun <= minute <= begun + rules.number(f"cooling.cooked.{stage}.within").amount
            and degrees <= rules.number(f"cooling.cooked.{stage}.to").amount
            for minute, degrees in in_order
        )
        for stage in ("stage_1", "stage_2")
    )
    assert (outcome is PASSED) == expected


@given(COOLINGS, st.integers(0, 700), st.integers(0, 700))
def test_SL5_a_failed_cooling_never_passes_later(taken, one, other):
    sooner, later = sorted((one, other))
    if cooling(UK, readings(*taken), after(sooner)).outcome is FAILED:
        assert cooling(UK, readings(*taken), after(later)).outcome is FAILED
