"""What is proposed is projected against what is confirmed only, and marked where it shares (RQ4).

The house has a litre of cream that dies on the 14th; a confirmed dinner takes 600 ml of it.
"""

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules import proposals
from pantry.rules.fefo import Handling, Pick, Source
from pantry.rules.house_time import zone
from pantry.rules.kitchen import Kitchen, project
from pantry.rules.menu import (
    DiningTable,
    Ingredient,
    Recipe,
    RecipeKind,
    Service,
    ServiceState,
    Serving,
)
from pantry.rules.proposals import Beside, Menus, propose, shared
from pantry.rules.recipes import direct_needs
from pantry.rules.stock import BaseUnit, Item
from tests.rules.planned_house import own_life

LONDON = zone("Europe/London")
NOW = datetime(2027, 3, 8, 8, tzinfo=UTC)
ML = 1000
ITEMS = {name: Item(name, name, BaseUnit.ML) for name in ("cream", "custard", "sugar")}
TABLES = {name: DiningTable(name, name, rank) for rank, name in enumerate(["family", "staff"], 1)}
CREAM = Source(
    "batch", "b", "cream", 1000 * ML, datetime(2027, 3, 14, 23, 59, 59, tzinfo=UTC), None, NOW
)


def recipe(name, **amounts):
    lines = tuple(Ingredient(item, Fraction(amount)) for item, amount in amounts.items())
    return Recipe(name, name, RecipeKind.DISH, Fraction(4), lines)


CUSTARD = replace(
    recipe("make custard", cream=500, sugar=100),
    kind=RecipeKind.PREPARATION,
    makes="custard",
    yields=Fraction(500),
    life_days=3,
)
RECIPES = {
    each.id: each
    for each in (
        recipe("posset", cream=600),
        recipe("fool", cream=300),
        recipe("syllabub", cream=250),
        recipe("crumble", custard=200),
        recipe("trifle", custard=100),
        CUSTARD,
    )
}
MENUS = Menus(RECIPES, ITEMS, TABLES)


def service(day, *dishes, state=ServiceState.PROPOSED, table="family"):
    on = date(2027, 3, day)
    at = datetime(2027, 3, day, 19, tzinfo=UTC)
    servings = tuple(Serving("pudding", dish) for dish in dishes)
    return Service(f"{on}/dinner/{table}", on, "dinner", table, at, 4, state, servings)


def asked(day, dish, *, confirmed=(), stock=(CREAM,), table="family"):
    """The proposal of one dish on a day, with what is confirmed and what stands there.

    Confirmed is it for the table.
    """
    direct = [
        need
        for on, name in confirmed
        for need in direct_needs(
            service(on, name, state=ServiceState.CONFIRMED, table=table),
            RECIPES,
            ITEMS,
            TABLES,
            LONDON,
        )
    ]
    by_item = {name: [one for one in stock if one.item == name] for name in ITEMS}
    kitchen = Kitchen(
        ITEMS,
        {"custard": CUSTARD},
        by_item,
        {},
        lambda _: Handling(),
        LONDON,
        own_life(LONDON),
    )
    proposed = service(day, dish)
    found = project(direct, kitchen, NOW)
    (serving,) = proposed.servings
    of_item = {name: [need for need in direct if need.item == name] for name in ITEMS}
    return propose(proposed, serving, MENUS, Beside(found, of_item, kitchen, NOW)), found


def figures(proposal):
    item_of = {need.id: need.item for need in proposal.needs}
    return (
        {need.item: need.quantity // ML for need in proposal.needs},
        [(item_of[pick.need], pick.source, pick.quantity // ML) for pick in proposal.picks],
        {item_of[need]: short // ML for need, short in proposal.short.items()},
    )


def test_RQ4_a_proposal_has_what_confirmed_services_leave():
    proposal, _ = asked(10, "fool", confirmed=[(11, "posset")])
    assert figures(proposal) == ({"cream": 300}, [("cream", "b", 300)], {})


def test_RQ4_a_proposal_lacks_what_a_later_confirmed_service_was_given():
    """The fool is eaten first, and the posset keeps its 600 ml all the same."""
    proposal, given = asked(9, "fool", confirmed=[(11, "posset"), (12, "syllabub")])
    assert figures(proposal) == ({"cream": 300}, [("cream", "b", 150)], {"cream": 150})
    assert {pick.quantity for pick in given.allocations["cream"].picks} == {600 * ML, 250 * ML}


def test_RQ4_a_proposal_is_not_projected_against_another():
    """Each of two fools is given cream as if the other were not there."""
    first, _ = asked(9, "fool", confirmed=[(11, "posset")])
    second, _ = asked(10, "fool", confirmed=[(11, "posset")])
    assert figures(first)[1] == figures(second)[1] == [("cream", "b", 300)]


def test_RQ4_a_proposal_is_given_nothing_that_dies_before_it():
    proposal, _ = asked(15, "fool")
    assert figures(proposal) == ({"cream": 300}, [], {"cream": 300})


def test_RQ4_what_is_made_only_for_a_proposal_is_its_own_need():
    proposal, _ = asked(10, "crumble", confirmed=[(11, "posset")])
    needs, picks, short = figures(proposal)
    assert needs == {"custard": 200, "cream": 200, "sugar": 40}
    assert picks == [("custard", "make|custard|2027-03-10", 200), ("cream", "b", 200)]
    assert short == {"sugar": 40}


def test_RQ4_a_proposal_is_given_of_what_is_made_already_and_makes_the_rest():
    there = Source("batch", "c", "custard", 150 * ML, None, None, NOW)
    needs, picks, _ = figures(asked(10, "crumble", stock=(CREAM, there))[0])
    assert needs == {"custard": 200, "cream": 50, "sugar": 10}
    assert picks[0] == ("custard", "c", 150)


def test_RQ4_what_a_confirmed_service_has_of_a_preparation_stays_its_own():
    there = Source("batch", "c", "custard", 150 * ML, None, None, NOW)
    stock = (CREAM, there)
    proposal, _ = asked(9, "crumble", confirmed=[(10, "trifle")], stock=stock)
    assert figures(proposal)[1][0] == ("custard", "c", 50)


def shared_of(*asked_for, left):
    proposals = [asked(day, dish)[0] for day, dish in asked_for]
    return shared(proposals, {"cream": left * ML})


MONDAY, TUESDAY = "2027-03-09/dinner/family", "2027-03-10/dinner/family"


def test_RQ4_proposals_that_cannot_both_have_the_cream_are_marked_with_each_other():
    assert shared_of((9, "posset"), (10, "fool"), left=899) == {
        (MONDAY, "cream"): (TUESDAY,),
        (TUESDAY, "cream"): (MONDAY,),
    }


def test_RQ4_proposals_for_which_there_is_enough_are_not_marked():
    assert shared_of((9, "posset"), (10, "fool"), left=900) == {}


def test_RQ4_alternatives_of_one_service_share_nothing_and_the_greater_counts():
    assert shared_of((9, "posset"), (9, "fool"), left=100) == {}
    assert shared_of((9, "posset"), (9, "fool"), (10, "syllabub"), left=850) == {}
    marked = shared_of((9, "posset"), (9, "fool"), (10, "syllabub"), left=849)
    assert marked[(TUESDAY, "cream")] == (MONDAY,)


def test_RQ4_a_proposal_that_is_given_nothing_of_an_item_does_not_share_it():
    without, _ = asked(15, "fool")
    having, _ = asked(9, "posset")
    assert without.picks == ()
    assert having.picks == (Pick(having.needs[0].id, "b", 600 * ML),)
    assert shared([without, having], {"cream": 0}) == {}


DAYS = st.integers(8, 15)
DISHES = st.sampled_from(["posset", "fool", "syllabub", "crumble", "trifle"])


@st.composite
def batches(draw):
    """Cream and custard that die soon, some of it still to come."""
    found = []
    for number in range(draw(st.integers(0, 5))):
        of, amount = draw(st.sampled_from(["cream", "custard"])), draw(st.integers(1, 800))
        dies = datetime(2027, 3, draw(DAYS), 23, 59, 59, tzinfo=UTC)
        ready = draw(st.none() | st.just(datetime(2027, 3, 10, 9, tzinfo=UTC)))
        facts = {"id": f"b{number}", "item": of, "usable_until": dies, "ready": ready}
        found.append(replace(CREAM, quantity=amount * ML, **facts))
    return tuple(found)


@given(
    DAYS,
    DISHES,
    st.lists(st.tuples(DAYS, DISHES), max_size=6, unique_by=lambda each: each[0]),
    batches(),
)
def test_RQ4_it_is_given_what_it_is_given_with_every_confirmed_need_looked_at_anew(
    day, dish, confirmed, there
):
    soon, _ = asked(day, dish, confirmed=confirmed, stock=there, table="staff")
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(proposals, "settled", lambda _: None)
        anew, _ = asked(day, dish, confirmed=confirmed, stock=there, table="staff")
    assert (soon.needs, soon.short) == (anew.needs, anew.short)
    assert Counter(soon.picks) == Counter(anew.picks)
