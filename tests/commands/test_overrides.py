"""AL3: overriding is by name, and who agreed, when, for whom and to what stays to be seen."""

from pantry.records.tables import OverrideRow
from pantry.reports.menus import menus
from pantry.reports.serving import serving
from tests.commands.house import DAY, at, chosen, written
from tests.commands.larkfield import CHEF
from tests.reports.asking import told

DINNER = "2027-03-12/dinner/family"
FRIDAY = "2027-03-13/dinner/family"
SALAD = "walnut-salad"


def overrides(house, service=DINNER):
    rows = house.rows(OverrideRow, service=service)
    return [(row.person, row.dish, row.cannot_eat, row.certainty) for row in rows]


def conflicts(house, service=DINNER, of=menus):
    (row,) = (row for row in told(house, of) if row["service"] == service)
    dishes = row["dishes"] if "dishes" in row else row["courses"][0]["dishes"]
    return [each for dish in dishes for each in dish["conflicts"]]


def test_AL3_what_was_agreed_to_says_who_when_for_whom_and_to_what(house):
    house.propose(DINNER, SALAD)
    house.do("confirm", {"service": DINNER, "dishes": chosen(SALAD), "overrides": ["Ottilie"]})
    assert overrides(house) == [("Ottilie", SALAD, "nuts", "contains")]
    (conflict,) = conflicts(house)
    assert conflict["person"] == "Ottilie"
    assert conflict["agreed"] == {
        "by": CHEF,
        "at": written(house.now),
        "answer": "serve it all the same",
    }


def test_AL3_naming_somebody_who_can_eat_it_agrees_to_nothing(house):
    house.propose(DINNER, "green-salad")
    body = {"service": DINNER, "dishes": chosen("green-salad"), "overrides": ["Ottilie", "Nobody"]}
    house.do("confirm", body)
    assert overrides(house) == []


def test_AL3_with_their_own_dish_beside_it_nothing_is_agreed_to(house):
    house.propose(DINNER, SALAD, "green-salad")
    dishes = [{"dish": SALAD, "portions": 3}, {"dish": "green-salad", "portions": 1}]
    house.do("confirm", {"service": DINNER, "dishes": dishes, "overrides": ["Ottilie"]})
    assert overrides(house) == []
    (conflict,) = conflicts(house)
    assert conflict["agreed"] is None
    assert (conflict["safe"]["dish"], conflict["safe"]["on_menu"]) == ("green-salad", True)


def test_AL3_what_is_chosen_anew_has_to_be_agreed_to_anew(house):
    house.propose(DINNER, SALAD)
    house.do("confirm", {"service": DINNER, "dishes": chosen(SALAD), "overrides": ["Ottilie"]})
    house.do("swap_dish", {"service": DINNER, "dish": SALAD, "by": {"dish": "green-salad"}})
    assert overrides(house) == []
    back = {"service": DINNER, "dish": "green-salad", "by": {"dish": SALAD}}
    assert house.refuses("swap_dish", back).code == "allergen_conflict"
    house.do("swap_dish", back | {"overrides": ["Ottilie"]})
    assert overrides(house) == [("Ottilie", SALAD, "nuts", "contains")]


def test_AL3_a_meal_moved_takes_its_agreement_along_only_by_name(house):
    house.propose(DINNER, SALAD)
    house.do("confirm", {"service": DINNER, "dishes": chosen(SALAD), "overrides": ["Ottilie"]})
    to = {"date": "2027-03-13", "meal": "dinner", "table": "family", "time": "19:30"}
    assert house.refuses("move_service", {"service": DINNER, "to": to}).code == "allergen_conflict"
    house.do("move_service", {"service": DINNER, "to": to, "overrides": ["Ottilie"]})
    assert overrides(house, FRIDAY) == [("Ottilie", SALAD, "nuts", "contains")]


def test_AL3_of_a_meal_that_was_served_it_is_told_still(house):
    house.propose(DINNER, SALAD)
    house.do("confirm", {"service": DINNER, "dishes": chosen(SALAD), "overrides": ["Ottilie"]})
    house.now = at(12, 20)
    (before,) = conflicts(house, of=serving)
    assert before["agreed"]["by"] == CHEF
    house.do("serve", {"service": DINNER})
    for of in (menus, serving):
        (after,) = conflicts(house, of=of)
        assert (after["agreed"]["by"], after["cannot_eat"]) == (CHEF, "nuts")


def test_AL3_an_answer_to_a_question_is_told_as_agreed_to_and_until_then_as_asked(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["milk"]})
    (conflict,) = conflicts(house)
    assert (conflict["asked"], conflict["agreed"]) == (True, None)
    question = house.question("allergen").id
    house.now += DAY
    house.do("settle", {"question": question, "answer": "cook them their own"})
    (conflict,) = conflicts(house)
    assert conflict["asked"] is False
    assert conflict["agreed"]["answer"] == "cook them their own"


def test_AL3_what_is_chosen_anew_answers_what_was_asked_of_each_person(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["milk"]})
    house.do(
        "swap_dish", {"service": DINNER, "dish": "rice-pudding", "by": {"dish": "green-salad"}}
    )
    assert house.questions("allergen") == []


def test_AL3_a_meal_that_does_not_take_place_asks_nothing(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["milk"]})
    house.do("take_off", {"service": DINNER, "reason": "they are out"})
    assert house.questions("allergen") == []
