"""SL3: raw food that was thawed is not frozen again; what is cooked from it, once."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import UnsafeFood
from pantry.rules.refreezing import Treatment, after, refuse_refreezing

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
    refuse_refreezing(after(history))


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
        refuse_refreezing(after(history))
    assert refused.value.code == "refrozen"


@given(st.lists(st.sampled_from(Treatment)))
def test_SL3_what_was_just_thawed_is_never_frozen(history):
    with pytest.raises(UnsafeFood):
        refuse_refreezing(after([*history, THAWED]))


def forbidden(history):
    """The rule said plainly: whether food with this history is not to be frozen.

    What was never cooked: once it was thawed. What was thawed before its first cooking: once it was
    thawed after it, whatever was cooked since. Anything else: once it was thawed since its last
    cooking.
    """
    if COOKED not in history:
        return THAWED in history
    first = history.index(COOKED)
    if THAWED in history[:first]:
        return THAWED in history[first:]
    last = len(history) - 1 - history[::-1].index(COOKED)
    return THAWED in history[last:]


@pytest.mark.parametrize("steps", range(6))
def test_SL3_every_order_of_freezing_thawing_and_cooking(steps):
    for history in product(Treatment, repeat=steps):
        try:
            refuse_refreezing(after(history))
        except UnsafeFood:
            assert forbidden(history), history
        else:
            assert not forbidden(history), history
