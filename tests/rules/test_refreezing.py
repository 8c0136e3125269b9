"""SL3: raw food that was thawed is not frozen again; what is cooked from it, once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import UnsafeFood
from pantry.rules.refreezing import Treatment, refuse_refreezing

COOKED, FROZEN, THAWED = Treatment.COOKED, Treatment.FROZEN, Treatment.THAWED


@pytest.mark.parametrize(
    "history",
    [
        [],
        [COOKED],
        [FROZEN],
        [FROZEN, THAWED, COOKED],
        [COOKED, FROZEN, THAWED, COOKED],  # a sauce made with stock from the freezer
    ],
)
def test_SL3_fresh_food_and_what_is_newly_cooked_may_be_frozen(history):
    refuse_refreezing(history)


@pytest.mark.parametrize(
    "history",
    [
        [FROZEN, THAWED],
        [COOKED, FROZEN, THAWED],
        [FROZEN, THAWED, COOKED, FROZEN, THAWED],
        [FROZEN, THAWED, COOKED, FROZEN, THAWED, COOKED],
    ],
)
def test_SL3_thawed_food_is_not_frozen_again_and_what_is_cooked_of_it_only_once(history):
    with pytest.raises(UnsafeFood) as refused:
        refuse_refreezing(history)
    assert refused.value.code == "refrozen"


@given(st.lists(st.sampled_from(Treatment)))
def test_SL3_what_was_just_thawed_is_never_frozen(history):
    with pytest.raises(UnsafeFood):
        refuse_refreezing([*history, THAWED])
