"""What came first: a device's own order, else time, and whether the clocks leave it open (SY8)."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.moments import Moment

NOON = datetime(2027, 3, 8, 12, tzinfo=UTC)
SECOND = timedelta(seconds=1)

seconds = st.integers(-5_000, 5_000).map(lambda number: number * SECOND)
bounds = st.integers(0, 4_000).map(lambda number: number * SECOND)
thousandths = st.integers(-1_000, 1_000)
moments = st.builds(
    Moment,
    at=seconds.map(lambda off: NOON + off),
    bound=bounds,
    device=st.sampled_from([None, "phone", "tablet"]),
    position=st.integers(1, 9),
)


def moment(second, bound=0, device=None, position=1):
    return Moment(NOON + second * SECOND, bound * SECOND, device, position)


def test_SY8_time_decides_between_devices():
    assert moment(0, device="phone", position=2).is_before(moment(1, device="tablet"))
    assert not moment(1, device="tablet").is_before(moment(0, device="phone", position=2))


def test_SY8_in_the_same_second_what_was_written_down_first_came_first():
    assert moment(0, position=1).is_before(moment(0, position=2))
    assert not moment(0, position=2).is_before(moment(0, position=1))


def test_SY8_a_device_whose_clock_was_set_back_knows_its_own_order():
    counted, used = moment(20, 900, "phone", 1), moment(15, 900, "phone", 2)
    assert counted.is_before(used)
    assert not used.is_before(counted)
    assert not counted.may_be_either_side_of(used)


def test_SY8_a_desk_has_no_order_of_its_own_and_the_servers_time():
    assert moment(15, position=2).is_before(moment(20, position=1))
    assert not moment(15).may_be_either_side_of(moment(15))


def test_SY8_the_bounds_of_both_clocks_leave_the_order_open_to_their_last_second():
    counted = moment(0, 3, "phone")
    assert counted.may_be_either_side_of(moment(5, 2, "tablet"))
    assert not counted.may_be_either_side_of(moment(6, 2, "tablet"))
    assert counted.may_be_either_side_of(moment(3))


@given(moments, moments)
def test_SY8_of_two_moments_one_came_first_unless_nothing_tells_them_apart(one, other):
    alike = one.position == other.position and (
        one.at == other.at or (one.device is not None and one.device == other.device)
    )
    assert one.is_before(other) + other.is_before(one) == (not alike)
    assert one.may_be_either_side_of(other) == other.may_be_either_side_of(one)


@given(moments, moments, thousandths, thousandths)
def test_SY8_clocks_that_keep_their_bounds_never_give_a_wrong_order_as_sure(
    one, other, wrong, also_wrong
):
    """What really was is off from `at` by up to the bound."""
    other = replace(other, device="another")
    truly, other_truly = (
        one.at + one.bound * wrong / 1000,
        other.at + other.bound * also_wrong / 1000,
    )
    if one.may_be_either_side_of(other) or truly == other_truly or one.at == other.at:
        return
    assert one.is_before(other) == (truly < other_truly)
