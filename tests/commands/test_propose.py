"""Proposing a menu, with alternatives by course (AL3, SY3)."""

import pytest

from pantry.records.tables import ServiceRow, ServingRow
from tests.commands.house import at
from tests.commands.larkfield import APPROVER, CHEF, PORTER

DINNER = "2027-03-12/dinner/family"


def menu(*dishes, **service):
    part = {"date": "2027-03-12", "meal": "Dinner", "table": "Family", "time": "19:30"}
    courses = [{"course": "main", "dishes": list(dishes)}]
    return {"service": part | service, "courses": courses}


def test_a_proposal_is_a_service_with_its_alternatives_and_promises_nothing(house):
    house.receive("m", "whole-milk", "2 l")
    house.do("propose", menu("Rice pudding", {"dish": "pancakes", "portions": 3}))
    row = house.row(ServiceRow)
    assert (row.id, row.state, row.at) == (DINNER, "proposed", at(12, 19, 30))
    servings = house.rows(ServingRow)
    assert [(each.dish, each.portions) for each in servings] == [
        ("rice-pudding", None),
        ("pancakes", 3),
    ]
    assert house.promised("m") == {}


def test_the_usual_covers_stand_in_where_none_are_given(house):
    house.do("propose", menu("pancakes"))
    assert house.row(ServiceRow).covers == 4
    house.do("propose", menu("pancakes", covers=7))
    assert house.row(ServiceRow).covers == 7


def test_what_was_proposed_before_gives_way_and_keeps_its_time(house):
    house.do("propose", menu("pancakes"))
    house.do("propose", menu("broth", time=None))
    row = house.row(ServiceRow)
    assert (row.version, row.at) == (2, at(12, 19, 30))
    assert [each.dish for each in house.rows(ServingRow)] == ["broth"]


def test_a_service_that_was_taken_off_can_be_proposed_again(house):
    house.do("propose", menu("pancakes"))
    house.do("take_off", {"service": DINNER, "reason": "away"})
    house.do("propose", menu("broth"))
    assert house.row(ServiceRow).state == "proposed"


def test_what_was_chosen_is_not_proposed_again(house):
    house.menu(DINNER, "pancakes")
    assert house.refuses("propose", menu("broth")).code == "service_state"


def test_times_are_wall_times_of_the_house(house):
    house.do("propose", menu("pancakes", date="2027-03-29"))
    assert house.row(ServiceRow).at == at(29, 18, 30)


def test_a_variant_is_found_whatever_its_case(house):
    house.do("propose", menu({"dish": "walnut salad", "variant": "Without Nuts"}))
    assert house.row(ServingRow).variant == "without nuts"


def test_AL3_a_course_with_nothing_for_somebody_is_asked_about_when_it_is_proposed(house):
    house.do("propose", menu("walnut-salad"))
    asked = house.question("allergen")
    assert (asked.about, asked.owner) == (DINNER, "chef")
    assert "Ottilie cannot eat nuts" in asked.against
    assert "without nuts" in asked.against


def test_AL3_a_course_with_something_for_everybody_asks_nothing(house):
    house.do("propose", menu("walnut-salad", "green-salad"))
    assert house.questions() == []


def test_AL3_chosen_otherwise_the_question_has_its_answer(house):
    house.do("propose", menu("walnut-salad"))
    house.do("confirm", {"service": DINNER, "dishes": [{"dish": "green-salad"}]})
    assert house.questions() == []


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (menu("Unicorn"), "recipe_unknown"),
        (menu("Chicken stock"), "dish_not_a_dish"),
        (menu({"dish": "pancakes", "variant": "blue"}), "variant_not_there"),
        (menu(), "nothing_chosen"),
        (menu("pancakes", table="Crew"), "table_unknown"),
        (menu("pancakes", date="tomorrow"), "date_unreadable"),
        (menu("pancakes", time="half past"), "time_unreadable"),
        (menu("pancakes", time=None), "time_missing"),
        (menu("pancakes", covers=-1), "body_unreadable"),
        (menu({"dish": "pancakes", "portions": -1}), "body_unreadable"),
    ],
)
def test_what_cannot_be_proposed_is_refused_by_name(house, body, code):
    assert house.refuses("propose", body).code == code
    assert house.rows(ServiceRow) == []


def test_a_chef_proposes_and_a_porter_or_the_household_does_not(house):
    for person in (PORTER, APPROVER):
        assert house.refuses("propose", menu("pancakes"), person=person).code == "role_lacking"
    house.do("propose", menu("pancakes"), person=CHEF)
