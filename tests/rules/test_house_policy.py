"""SL5: the house may be stricter; looser needs a person and a reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.policies import policy
from pantry.refusals import NotThere, UnsafeFood
from pantry.rules.house_policy import Override, is_looser, with_house_number
from pantry.rules.safety import Verdict, receiving

UK = policy("uk")
CHEF = Override("Maren Oduya", "our butcher delivers within the hour")


def test_SL5_the_house_may_be_stricter_without_asking():
    ours = with_house_number(UK, "receiving.chilled.refuse", 50)
    assert receiving(ours, "chilled", 51).verdict is Verdict.REFUSE
    assert receiving(UK, "chilled", 51).verdict is Verdict.ASK
    assert "in place of 8 °C" in ours.number("receiving.chilled.refuse").source


@pytest.mark.parametrize(
    ("key", "looser", "stricter"),
    [
        ("receiving.chilled.refuse", 81, 79),
        ("receiving.frozen.refuse", -149, -151),
        ("receiving.hot.accept", 629, 631),
        ("holding.hot.limit", 600, 650),
        ("holding.chilled.tolerance", 241, 239),
        ("cooling.cooked.from", 620, 640),
        ("cooling.cooked.stage_1.within", 91, 89),
        ("prepared.any", 4, 2),
        ("thawed.any", 25, 23),
        ("vacuum.any", 11, 9),
    ],
)
def test_SL5_a_looser_number_is_refused_without_a_name(key, looser, stricter):
    assert with_house_number(UK, key, stricter).number(key).amount == stricter
    with pytest.raises(UnsafeFood) as refused:
        with_house_number(UK, key, looser)
    assert refused.value.code == "looser_than_policy"


def test_SL5_a_looser_number_carries_who_took_it_on_and_why():
    ours = with_house_number(UK, "prepared.any", 4, CHEF).number("prepared.any")
    assert (ours.amount, ours.written) == (4, "4 days")
    assert ours.edition == "Maren Oduya: our butcher delivers within the hour"


@pytest.mark.parametrize("override", [Override("", "because"), Override("Maren Oduya", " ")])
def test_SL5_a_name_without_a_reason_is_no_override(override):
    with pytest.raises(UnsafeFood):
        with_house_number(UK, "prepared.any", 4, override)


def test_SL5_how_long_a_joint_takes_to_thaw_is_no_matter_of_strictness():
    for hours in (6, 20):
        assert not is_looser(UK.number("thawing.step.time"), hours)


def test_SL5_a_number_the_policy_does_not_have_is_refused():
    with pytest.raises(NotThere):
        with_house_number(UK, "receiving.porcelain.accept", 50)


def test_SL5_the_policy_itself_stays_as_it_is():
    with_house_number(UK, "prepared.any", 1)
    assert UK.number("prepared.any").amount == 3
    assert policy("uk").number("prepared.any").amount == 3


@given(st.sampled_from(sorted(UK.numbers)), st.integers(-300, 3000))
def test_SL5_what_is_refused_without_a_name_is_exactly_what_is_looser(key, amount):
    if is_looser(UK.number(key), amount):
        with pytest.raises(UnsafeFood):
            with_house_number(UK, key, amount)
    assert not is_looser(UK.number(key), UK.number(key).amount)
    ours = with_house_number(UK, key, amount, CHEF)
    assert ours.number(key).amount == amount
    assert {k: n for k, n in ours.numbers.items() if k != key} == {
        k: n for k, n in UK.numbers.items() if k != key
    }
