"""By when something has to be ordered or chosen (PL5)."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.deadlines import Alert, alert_at, choose_by
from pantry.rules.house_time import Span
from tests.rules.planned_house import HOUSE, LONDON, at

HOUR = timedelta(hours=1)
SECOND = timedelta(seconds=1)
DINNER = at(20, 19)
THREE_DAYS = Span(exact=72 * HOUR)


@pytest.mark.parametrize(
    ("before", "alert"),
    [
        (24 * HOUR + SECOND, Alert.NONE),
        (24 * HOUR, Alert.OPEN),
        (2 * HOUR + SECOND, Alert.OPEN),
        (2 * HOUR, Alert.LAST_CALL),
        (timedelta(0), Alert.LAST_CALL),
        (-SECOND, Alert.MISSED),
    ],
)
def test_PL5_the_alert_by_how_long_it_still_is(before, alert):
    assert alert_at(at(20) - before, at(20), HOUSE, LONDON) is alert


def test_PL5_a_warning_of_whole_days_keeps_the_wall_time_over_the_clock_change():
    """A day before 2027-03-28 22:00 BST is the 27th at 22:00 GMT, 23 hours earlier."""
    house = replace(HOUSE, warning=Span(days=1))
    order_by = datetime(2027, 3, 28, 21, tzinfo=UTC)
    assert alert_at(datetime(2027, 3, 27, 22, tzinfo=UTC), order_by, house, LONDON) is Alert.OPEN
    before = datetime(2027, 3, 27, 21, 59, 59, tzinfo=UTC)
    assert alert_at(before, order_by, house, LONDON) is Alert.NONE


def test_PL5_choose_by_is_the_lead_time_where_nothing_is_lacking():
    found = choose_by(DINNER, Span(exact=24 * HOUR), [], THREE_DAYS, LONDON)
    assert (found.at, found.earlier_than_notice) == (at(19, 19), False)


def test_PL5_choose_by_is_the_earliest_last_order_by_of_what_is_lacking():
    found = choose_by(DINNER, Span(), [at(18, 22), at(17, 12), at(19, 22)], THREE_DAYS, LONDON)
    assert found.at == at(17, 12)
    assert found.earlier_than_notice


def test_PL5_choose_by_just_at_the_notice_is_not_earlier_than_it():
    for order_by, earlier in ((at(17, 19), False), (at(17, 19) - SECOND, True)):
        found = choose_by(DINNER, Span(), [order_by], THREE_DAYS, LONDON)
        assert found.earlier_than_notice is earlier


def test_PL5_what_cannot_be_bought_at_all_leaves_no_time_to_choose():
    found = choose_by(DINNER, Span(), [at(18, 22), None], THREE_DAYS, LONDON)
    assert (found.at, found.earlier_than_notice) == (None, True)


@given(st.lists(st.integers(-200, 200)), st.integers(0, 100))
def test_PL5_choosing_by_then_is_in_time_for_everything(hours, lead):
    lacking = [DINNER - n * HOUR for n in hours]
    found = choose_by(DINNER, Span(exact=lead * HOUR), lacking, THREE_DAYS, LONDON)
    every = [DINNER - lead * HOUR, *lacking]
    assert all(found.at <= instant for instant in every)
    assert found.at in every
