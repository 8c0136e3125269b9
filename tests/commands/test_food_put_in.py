"""AL3: what is put in though no dish names it, shown or moved: who cannot eat it is looked for."""

import pytest

from tests.commands.house import at, chosen, use_by

DINNER, LATER = "2027-03-12/dinner/family", "2027-03-13/dinner/family"
STAFF = "2027-03-12/dinner/staff"


@pytest.fixture
def green(house):
    """A salad without nuts is chosen for Ottilie's table, and walnuts stand there."""
    house.receive("walnuts", "walnuts", "500 g")
    house.receive("leaves", "salad-leaves", "500 g", use_by(12))
    house.menu(DINNER, "green-salad")
    return house


def asked(house):
    return [(row.about, row.against.partition(".")[0]) for row in house.questions("allergen")]


NUTS = (f"{DINNER}|ottilie", "Ottilie cannot eat nuts: Walnuts contains it")


def test_AL3_what_is_taken_out_for_a_meal_in_place_of_something_is_looked_at(green):
    green.do("take_out", {"batch": "leaves", "quantity": "100 g", "service": DINNER})
    assert asked(green) == []
    green.do("take_out", {"batch": "walnuts", "quantity": "50 g", "service": DINNER})
    assert asked(green) == [NUTS]
    assert "Read the label" in green.question("allergen").against


def test_AL3_of_another_table_nobody_is_asked(green):
    green.menu(STAFF, "green-salad")
    green.do("take_out", {"batch": "walnuts", "quantity": "50 g", "service": STAFF})
    assert asked(green) == []


def test_AL3_what_goes_into_a_preparation_is_looked_at_for_every_menu_cooked_from_it(green):
    green.receive("bones", "chicken-bones", "2 kg", use_by(12))
    green.menu(LATER, "broth")
    used = [{"batch": "bones", "quantity": "500 g"}, {"batch": "walnuts", "quantity": "20 g"}]
    body = {"recipe": "chicken-stock", "quantity": "1 l", "child": "s", "area": "Cold room"}
    green.do("make", body | {"used": used})
    assert asked(green) == [(f"{LATER}|ottilie", NUTS[1])]


def test_AL3_what_is_taken_out_for_a_preparation_is_too(green):
    green.receive("bones", "chicken-bones", "2 kg", use_by(12))
    green.menu(LATER, "broth")
    body = {"quantity": "100 g", "preparation": "chicken-stock"}
    green.do("take_out", body | {"batch": "bones"})
    assert asked(green) == []
    green.do("take_out", body | {"batch": "walnuts"})
    assert asked(green) == [(f"{LATER}|ottilie", NUTS[1])]


def test_AL3_what_was_used_otherwise_at_a_meal_is_asked_about_once_it_is_said(green):
    green.now = at(12, 20)
    exceptions = [{"item": "Walnuts", "quantity": "30 g"}]
    green.do("serve", {"service": DINNER, "exceptions": exceptions})
    assert asked(green) == [NUTS]
    assert "was eaten at" in green.question("allergen").recorded


def test_AL3_a_meal_served_as_planned_asks_nothing(green):
    green.now = at(12, 20)
    green.do("serve", {"service": DINNER})
    assert asked(green) == []


def test_AL3_a_sheet_is_looked_at_when_it_is_sent_and_what_was_answered_is_not_asked_again(house):
    house.propose(DINNER, "walnut-salad")
    question = house.question("allergen").id
    house.do("send_sheet", {"services": [DINNER]})
    assert [row.id for row in house.questions("allergen")] == [question]
    house.do("settle", {"question": question, "answer": "cook them their own"})
    house.do("send_sheet", {"services": [DINNER]})
    assert house.questions("allergen") == []
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["nuts"]})
    house.do("send_sheet", {"services": [DINNER]})
    (row,) = house.questions("allergen")
    assert row.about == f"{DINNER}|bo"


@pytest.mark.parametrize(
    ("to", "is_refused"),
    [
        ({"date": "2027-03-12", "table": "staff", "time": "21:00"}, False),
        ({"date": "2027-03-12", "table": "family", "time": "19:30"}, True),
    ],
)
def test_AL3_an_hour_keeps_who_eats_and_a_table_does_not(house, to, is_refused):
    house.menu(STAFF, "walnut-salad")
    answer = house.give("move_service", {"service": STAFF, "to": to | {"meal": "dinner"}})
    assert (answer.outcome == "refused") is is_refused
    assert house.questions("allergen") == []


def test_AL3_a_meal_agreed_to_by_name_keeps_that_at_another_hour(house):
    house.propose(DINNER, "walnut-salad")
    body = {"service": DINNER, "dishes": chosen("walnut-salad"), "overrides": ["Ottilie"]}
    house.do("confirm", body)
    to = {"date": "2027-03-12", "meal": "dinner", "table": "family", "time": "20:30"}
    house.do("move_service", {"service": DINNER, "to": to})
    assert house.questions("allergen") == []
