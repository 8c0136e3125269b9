"""The lives a house works with, and what planning makes of them."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest

from pantry.handbook.policies import policy
from pantry.rules.fefo import Need, Source, allocate
from pantry.rules.house_lives import HouseLives
from pantry.rules.house_time import Span, zone
from pantry.rules.kitchen import Kitchen, project
from pantry.rules.menu import Dating, Ingredient, Recipe, RecipeKind
from pantry.rules.shelf_life import made
from pantry.rules.stock import BaseUnit, Item

LONDON = zone("Europe/London")
NOW = datetime(2027, 3, 8, 8, 0, tzinfo=UTC)
LAMB = Item("lamb", "Lamb", BaseUnit.G, thawed_life_hours=48)
HOUSE = HouseLives(policy("uk"), LONDON)


def need(at: datetime) -> Need:
    return Need("n", "s", "d", "lamb", 1_000_000, at, at)


def frozen(left: Span | None, container: int = 0) -> Source:
    return Source(
        "batch",
        "b",
        "lamb",
        1_000_000,
        None,
        None,
        NOW,
        frozen=True,
        left=left,
        sealed_quantity=container,
    )


def test_SL3_planning_never_gives_thawed_food_more_than_was_left_when_it_was_frozen():
    at = datetime(2027, 3, 10, 19, 30, tzinfo=UTC)
    handling = HOUSE.handling(LAMB)
    # thawed by 19:30 on the 10th at the earliest, with the whole of that day left: enough
    enough = allocate([need(at)], [frozen(Span(days=1))], NOW, handling=handling)
    assert not enough.short
    # what had four hours left is dead before it is cooked, if thawing counts (FDA Food Code 2022,
    # 3-501.17: the clock runs on while food thaws)
    us = HouseLives(policy("us"), LONDON).handling(LAMB)
    late = allocate([need(at)], [frozen(Span(exact=timedelta(hours=4)))], NOW, handling=us)
    assert late.short == {"n": 1_000_000}


def test_SL3_without_a_known_rest_the_thawed_life_alone_counts():
    at = datetime(2027, 3, 10, 19, 30, tzinfo=UTC)
    given = allocate([need(at)], [frozen(None)], NOW, handling=HOUSE.handling(LAMB))
    assert not given.short


def test_RQ3_a_large_container_is_taken_out_earlier():
    small, large = HOUSE.handling(LAMB), HOUSE.handling(LAMB, container=2_500_000)
    at = datetime(2027, 3, 10, 19, 30, tzinfo=UTC)
    # 12 hours for every started kilogram: Food Standards Agency, Christmas advice 2018
    assert small.thaw_start(at) == at - timedelta(hours=12)
    assert large.thaw_start(at) == at - timedelta(hours=36)


@pytest.mark.parametrize(
    ("item", "kept"),
    [
        (replace(LAMB, opened_life_days=3), (3, None)),
        (replace(LAMB, high_risk=True), (None, 48)),  # the policy's, for any food
        (LAMB, (None, None)),
    ],
)
def test_SL5_opened_life_is_the_items_own_or_for_high_risk_food_the_policys(item, kept):
    assert HOUSE.opened(item) == kept


def test_RQ3_what_is_cooked_from_frozen_needs_no_thawing():
    peas = Item("peas", "Peas", BaseUnit.G)
    handling = HOUSE.handling(peas)
    assert handling.thaw_start is None
    today = need(NOW + timedelta(hours=1))
    given = allocate([today], [frozen(None)], NOW, handling=handling)
    assert not given.short


def broth(life_days):
    lines = (Ingredient("bones", Fraction(500)),)
    return Recipe(
        "broth",
        "Broth",
        RecipeKind.PREPARATION,
        Fraction(1000),
        lines,
        makes="broth",
        life_days=life_days,
    )


@pytest.mark.parametrize("policy_name", ["uk", "us"])
def test_SL4_planning_gives_what_is_made_the_life_that_making_it_gives(policy_name):
    """A recipe that says no life has the policy's, in the plan as on the label."""
    lives = HouseLives(policy(policy_name), LONDON)
    life = policy(policy_name).life("prepared", "any")
    at = datetime(2027, 3, 10, 9, tzinfo=UTC)
    kept = made(at, life.days, Dating.COOKED, (), LONDON, life_hours=life.hours)
    assert lives.made_until(broth(None), at) == kept.usable_until
    assert lives.made_until(broth(2), at) == datetime(2027, 3, 11, 23, 59, 59, tzinfo=UTC)


@pytest.mark.parametrize(("life_days", "makings"), [(None, 2), (30, 1)])
def test_SL4_what_dies_between_two_uses_is_not_planned_to_serve_both(life_days, makings):
    """A full recipe is more than Tuesday's soup wants; three weeks later the rest is dead."""
    recipe = replace(broth(life_days), full_recipes=True)
    items = {
        "bones": Item("bones", "Bones", BaseUnit.G),
        "broth": Item("broth", "Broth", BaseUnit.ML),
    }
    kitchen = Kitchen(items, {"broth": recipe}, {}, {}, HOUSE.handling, LONDON, HOUSE.made_until)
    days = (datetime(2027, 3, 9, 19, tzinfo=UTC), datetime(2027, 3, 27, 19, tzinfo=UTC))
    wanted = [Need(f"n{at.day}", f"s{at.day}", "d", "broth", 400_000, at, at) for at in days]
    assert len(project(wanted, kitchen, NOW).makings) == makings
