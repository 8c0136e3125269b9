"""How close a count is held, what is due to be counted, and in what order things stand (LG3)."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.count_classes import DAIRY, DRY, HIGH_RISK, MEAT_AND_FISH, count_class
from pantry.handbook.policies import POLICIES, policy
from pantry.rules.count_differences import of_high_value, tolerance, within_tolerance
from pantry.rules.counts_due import Due, by_the_books, by_the_calendar
from pantry.rules.shelf_order import as_counted
from pantry.rules.stock import AreaKind

UK = policy("uk")


@pytest.mark.parametrize(
    ("group", "high_risk", "of"),
    [
        ("red meat", True, MEAT_AND_FISH),
        (" Meat_Preparation ", False, MEAT_AND_FISH),
        ("dairy", True, DAIRY),
        ("preparations", True, HIGH_RISK),
        ("dry goods", False, DRY),
        ("", False, DRY),
    ],
)
def test_LG3_an_item_is_of_the_class_of_its_group(group, high_risk, of):
    assert count_class(group, high_risk=high_risk) == of


@pytest.mark.parametrize("name", POLICIES)
def test_LG3_every_policy_has_a_tolerance_for_every_class(name):
    # common practice, no source: meat and fish 2 to 3 percent, dairy and dry goods 5
    expected = {"fish": 3, "dairy": 5, "baking": 5}
    assert {g: tolerance(policy(name), g, high_risk=False) for g in expected} == expected


@pytest.mark.parametrize(
    ("stood", "found", "is_within"),
    [(1000, 950, True), (1000, 949, False), (1000, 1050, True), (0, 1, False), (0, 0, True)],
)
def test_LG3_a_tolerance_is_of_what_the_books_have(stood, found, is_within):
    assert within_tolerance(stood, found, 5) is is_within


def test_LG3_of_high_value_are_the_dearest_that_make_up_four_fifths():
    worth = {"beef": 600, "butter": 250} | {f"jar {n}": 10 for n in range(10)}
    assert of_high_value(UK, worth) == {"beef", "butter"}


def test_LG3_of_high_value_are_no_more_than_a_fifth_of_the_items():
    alike = {f"jar {n}": 10 for n in range(11)}
    assert of_high_value(UK, alike) == {"jar 0", "jar 1", "jar 10"}
    assert of_high_value(UK, {}) == frozenset()
    assert of_high_value(UK, {"gift": 0}) == frozenset()


MONDAY = date(2027, 3, 8)


@pytest.mark.parametrize(
    ("kind", "closely", "last", "due"),
    [
        (AreaKind.CHILLED, True, date(2027, 3, 1), Due.WEEKLY),
        (AreaKind.CHILLED, True, date(2027, 3, 2), None),
        (AreaKind.CHILLED, False, date(2027, 3, 1), None),
        (AreaKind.AMBIENT, True, date(2027, 2, 6), Due.MONTHLY),
        (AreaKind.AMBIENT, False, date(2027, 2, 7), None),
        (AreaKind.FROZEN, True, date(2027, 2, 28), Due.SEASON),
        (AreaKind.FROZEN, True, date(2027, 3, 1), None),
        (AreaKind.FROZEN, False, date(2026, 3, 8), Due.SEASON),
    ],
)
def test_LG3_chilled_weekly_dry_monthly_the_freezer_at_the_turn_of_the_season(
    kind, closely, last, due
):
    # common practice, no source
    assert by_the_calendar(UK, kind, last, MONDAY, closely=closely) == due


def test_LG3_december_to_february_are_one_season_over_the_years_end():
    at = {"kind": AreaKind.FROZEN, "closely": False}
    assert by_the_calendar(UK, last=date(2026, 12, 1), today=date(2027, 2, 28), **at) is None
    assert by_the_calendar(UK, last=date(2026, 11, 30), today=date(2026, 12, 1), **at) == Due.SEASON


def test_LG3_what_the_books_have_none_of_or_less_is_looked_at():
    assert by_the_books(-1, found_before=False) == Due.BELOW_NOTHING
    assert by_the_books(0, found_before=True) == Due.NOTHING_LEFT
    assert by_the_books(0, found_before=False) is None
    assert by_the_books(1, found_before=True) is None


def test_LG3_what_is_counted_in_another_order_stands_in_that_order():
    assert as_counted(["a", "b", "c"], ["c", "a"]) == ["c", "b", "a"]
    assert as_counted([], ["a", "b"]) == ["a", "b"]
    assert as_counted(["a", "b"], ["new"]) == ["new", "a", "b"]
    assert as_counted(["a", "b", "c"], ["b", "new"]) == ["a", "b", "new", "c"]


_items = st.lists(st.sampled_from("abcdefgh"), unique=True)


@given(before=_items, counted=_items)
def test_LG3_no_item_is_lost_and_what_was_counted_follows_the_count(before, counted):
    order = as_counted(before, counted)
    assert sorted(order) == sorted({*before, *counted})
    known = [item for item in counted if item in before]
    assert [item for item in order if item in known] == known
    others = [item for item in before if item not in counted]
    assert [item for item in order if item in others] == others
