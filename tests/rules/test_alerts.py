"""Alerts that rise with their deadline (PL5)."""

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.alerts import (
    STAGES,
    Close,
    Deadline,
    Rise,
    Standing,
    Why,
    begins,
    closed,
    next_moment,
    risen,
)
from pantry.rules.deadlines import Alert, alert_at
from tests.rules.planned_house import HOUSE, LONDON, at

HOUR = timedelta(hours=1)
SECOND = timedelta(seconds=1)
ORDER_BY = at(20, 17)
DELIVERY = Deadline("dairy/2027-03-21T07:00:00Z", "dairy", at(21, 7), ORDER_BY, Alert.NONE)


def deadline_at(now):
    return replace(DELIVERY, stage=alert_at(now, ORDER_BY, HOUSE, LONDON))


def kept(stage, *, turn=1, is_closed=False, order_by=ORDER_BY):
    return {DELIVERY.id: Standing(turn, stage, order_by, is_closed)}


def test_PL5_nothing_is_told_before_the_warning_time():
    assert risen([deadline_at(ORDER_BY - 24 * HOUR - SECOND)], {}) == []


def test_PL5_it_opens_rises_and_is_missed_each_told_once():
    open_ = deadline_at(ORDER_BY - 24 * HOUR)
    assert risen([open_], {}) == [Rise(open_, 1, Alert.OPEN, ())]
    assert risen([open_], kept(Alert.OPEN)) == []
    last = deadline_at(ORDER_BY - 2 * HOUR)
    assert risen([last], kept(Alert.OPEN)) == [Rise(last, 1, Alert.LAST_CALL, ())]
    missed = deadline_at(ORDER_BY + SECOND)
    assert risen([missed], kept(Alert.LAST_CALL)) == [Rise(missed, 1, Alert.MISSED, ())]
    assert risen([missed], kept(Alert.MISSED)) == []


def test_PL5_what_came_and_went_while_nobody_looked_is_told_along():
    missed = deadline_at(ORDER_BY + SECOND)
    (rise,) = risen([missed], {})
    assert rise.passed_over == (Alert.OPEN, Alert.LAST_CALL)
    (rise,) = risen([missed], kept(Alert.OPEN))
    assert rise.passed_over == (Alert.LAST_CALL,)


def test_PL5_what_nobody_brings_was_never_open():
    nobody = Deadline("nobody/saffron", None, None, None, Alert.MISSED)
    assert risen([nobody], {}) == [Rise(nobody, 1, Alert.MISSED, ())]


def test_PL5_a_slower_clock_tells_nothing_again():
    assert risen([deadline_at(ORDER_BY - 3 * HOUR)], kept(Alert.LAST_CALL)) == []
    assert closed([deadline_at(ORDER_BY - 48 * HOUR)], kept(Alert.OPEN), frozenset(), at(1)) == []


@pytest.mark.parametrize(
    ("placed", "now", "why"),
    [
        (frozenset({DELIVERY.id}), ORDER_BY - HOUR, Why.ORDERED),
        (frozenset(), ORDER_BY - HOUR, Why.NOT_NEEDED),
        (frozenset(), ORDER_BY + HOUR, Why.PASSED),
    ],
)
def test_PL5_it_is_quiet_once_nothing_is_to_be_done_and_says_why(placed, now, why):
    assert closed([], kept(Alert.OPEN), placed, now) == [Close(DELIVERY.id, 1, why)]
    assert closed([], kept(Alert.OPEN, is_closed=True), placed, now) == []


def test_PL5_what_is_wanted_again_after_it_was_closed_is_another_turn():
    open_ = deadline_at(ORDER_BY - 24 * HOUR)
    assert risen([open_], kept(Alert.OPEN, is_closed=True)) == [Rise(open_, 2, Alert.OPEN, ())]


def test_PL5_the_next_moment_is_the_next_at_which_a_stage_begins():
    stages = begins(ORDER_BY, HOUSE, LONDON)
    moment = next_moment([DELIVERY], HOUSE, LONDON, at(1))
    seen = []
    while moment is not None:
        before, now = (alert_at(m, ORDER_BY, HOUSE, LONDON) for m in (moment - SECOND, moment))
        assert before is not now
        seen.append(now)
        assert moment == stages[now]
        moment = next_moment([DELIVERY], HOUSE, LONDON, moment)
    assert seen == list(STAGES)
    assert next_moment([], HOUSE, LONDON, at(1)) is None


@given(
    st.lists(
        st.tuples(
            st.integers(-30 * 3600, 3 * 3600),
            st.sampled_from(["wanted", "wanted", "wanted", "ordered", "not wanted"]),
        ),
        max_size=30,
    )
)
def test_PL5_any_looks_at_any_times_tell_each_stage_of_a_turn_once_and_pass_none_over(looks):
    """Clocks that differ, servers that sleep, orders that come and go."""
    standing, told, turns = {}, [], {}
    for seconds, what in looks:
        now = ORDER_BY + timedelta(seconds=seconds)
        found = [deadline_at(now)] if what == "wanted" else []
        placed = frozenset({DELIVERY.id}) if what == "ordered" else frozenset()
        for rise in risen(found, standing):
            told += [(rise.turn, stage) for stage in (*rise.passed_over, rise.stage)]
            standing[DELIVERY.id] = Standing(rise.turn, rise.stage, ORDER_BY, is_closed=False)
        for close in closed(found, standing, placed, now):
            assert (close.why is Why.ORDERED) == bool(placed)
            standing[close.id] = replace(standing[close.id], is_closed=True)
    assert len(told) == len(set(told)), "each stage of a turn once"
    for turn, stage in told:
        turns.setdefault(turn, []).append(stage)
    assert list(turns) == list(range(1, len(turns) + 1))
    for stages in turns.values():
        assert stages == list(STAGES[: len(stages)]), "none is passed over, and they rise"
