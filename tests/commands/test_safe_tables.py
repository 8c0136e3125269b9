"""Somebody of whom the house keeps more than one word: all of them count together (AL3)."""

import json

import pytest

from pantry.records.database import reading, writing
from pantry.records.read import stock
from pantry.records.read.larder import larder
from pantry.records.rows import add
from pantry.records.tables import ConstraintRow
from pantry.rules.allergens import Certainty, certainty_of
from tests.commands.larkfield import ID


def known_of(house):
    """What the house knows of everything it keeps."""
    with reading(house.engine) as connection:
        return larder(connection, ID, stock.items(connection, ID), ())


DINNER = "2027-03-12/dinner/family"


@pytest.fixture
def says(house):
    """Write one more thing that somebody at the family's table cannot eat, as a book brings it."""

    def write(line, person, *foods):
        row = ConstraintRow(
            house=ID,
            id=f"family|{person.lower()}|{line}",
            person=person,
            dining_table="family",
            cannot_eat=json.dumps(foods),
        )
        with writing(house.engine) as connection:
            add(connection, row)

    return write


def refused(house, *dishes):
    portions = [{"dish": dish, "portions": 2} for dish in dishes]
    return house.refuses("confirm", {"service": DINNER, "dishes": portions})


def test_AL3_what_is_offered_is_safe_for_all_that_the_person_cannot_eat(house, says):
    says(2, "Ottilie", "salad leaves")
    house.propose(DINNER, "walnut-salad", "green-salad", "broth")
    problem = refused(house, "walnut-salad")
    assert problem.todo.startswith("Safe for them: Broth.")


def test_AL3_dishes_each_against_another_word_of_a_person_are_not_their_own_dish(house, says):
    says(1, "Bo", "eggs")
    says(2, "Bo", "fish")
    house.propose(DINNER, "pancakes", "baked-salmon", "broth")
    problem = refused(house, "pancakes", "baked-salmon")
    assert problem.code == "allergen_conflict"
    assert "Bo cannot eat eggs: Pancakes contains it" in problem.detail
    # Of no dish here is it known that it is free of eggs and fish, and unknown is not free.
    assert problem.todo.startswith("No dish of the house is known to be safe")


def test_AL3_a_dish_safe_by_every_word_of_a_person_is_their_own(house, says):
    says(1, "Bo", "eggs")
    says(2, "Bo", "fish")
    house.propose(DINNER, "pancakes", "green-salad")
    dishes = [{"dish": "pancakes", "portions": 3}, {"dish": "green-salad", "portions": 1}]
    house.do("confirm", {"service": DINNER, "dishes": dishes})


def test_AL3_what_a_new_label_does_not_name_the_product_is_free_of(house):
    house.do("change_product", {"pack": "hill-dairy/butter/250-g-block", "contains": ["milk"]})
    known = known_of(house)
    assert certainty_of(known.declared["butter"], "nuts") is Certainty.FREE_OF
    assert certainty_of(known.declared["butter"], "milk") is Certainty.CONTAINS


@pytest.mark.parametrize("label", [{}, {"contains": ["kiwi"]}])
def test_AL3_of_a_label_nobody_read_or_with_a_word_on_no_list_nothing_is_free(house, label):
    house.do("change_product", {"pack": "hill-dairy/butter/250-g-block"} | label)
    known = known_of(house)
    assert certainty_of(known.declared["butter"], "nuts") is Certainty.UNKNOWN
