"""What was left unfinished, by the house's own days."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from pantry.rules.menu import ServiceState
from pantry.rules.unfinished import cut_off_left, day_to_do, delivery_left, service_left

LONDON = ZoneInfo("Europe/London")
NOW = datetime(2027, 3, 10, 7, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
YESTERDAY = NOW - timedelta(days=1)


def test_a_delivery_is_left_once_its_day_is_over_and_something_is_awaited():
    assert delivery_left(YESTERDAY, 1, NOW, LONDON)
    assert not delivery_left(YESTERDAY, 0, NOW, LONDON)
    assert not delivery_left(NOW - MINUTE, 1, NOW, LONDON)


def test_SL1_the_day_ends_in_the_houses_own_zone():
    """23:30 UTC in summer is half past midnight: an evening of London's next day."""
    late = datetime(2027, 6, 9, 23, 30, tzinfo=UTC)
    assert not delivery_left(late, 1, datetime(2027, 6, 10, 7, tzinfo=UTC), LONDON)
    assert delivery_left(late, 1, datetime(2027, 6, 10, 7, tzinfo=UTC), ZoneInfo("UTC"))


def test_LG5_only_a_confirmed_service_of_an_earlier_day_is_left():
    assert service_left(ServiceState.CONFIRMED, YESTERDAY, NOW, LONDON)
    for state in (ServiceState.PROPOSED, ServiceState.SERVED, ServiceState.TAKEN_OFF):
        assert not service_left(state, YESTERDAY, NOW, LONDON)
    assert not service_left(ServiceState.CONFIRMED, NOW - MINUTE, NOW, LONDON)


def test_PL5_a_cut_off_is_left_as_long_as_what_it_was_for_is_to_come():
    assert cut_off_left(NOW - MINUTE, [YESTERDAY, NOW], NOW)
    assert not cut_off_left(NOW - MINUTE, [YESTERDAY], NOW)
    assert not cut_off_left(NOW - MINUTE, [], NOW)
    assert not cut_off_left(NOW, [NOW], NOW)


def test_what_went_undone_is_to_be_done_today():
    today = NOW.date()
    assert day_to_do(YESTERDAY, NOW, LONDON) == today
    assert day_to_do(NOW + timedelta(days=1), NOW, LONDON) == today + timedelta(days=1)
