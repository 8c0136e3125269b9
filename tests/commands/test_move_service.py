"""Thursday instead, or a picnic: a meal is moved with its dishes (LG2, AL2, AL3)."""

from pantry.records.tables import ServiceRow, ServingRow
from tests.commands.house import use_by
from tests.commands.larkfield import APPROVER

DINNER = "2027-03-12/dinner/family"
THURSDAY = {"date": "2027-03-11", "meal": "dinner", "table": "family", "time": "19:30"}
NEW = "2027-03-11/dinner/family"


def move(house, to, **more):
    body = {"service": DINNER, "to": to} | more
    return house.do("move_service", body, person=APPROVER)


def states(house):
    return {row.id: row.state for row in house.rows(ServiceRow)}


def pudding(house):
    house.receive("m", "whole-milk", "4 l", use_by(14))
    house.menu(DINNER, "rice-pudding")


def test_LG2_a_confirmed_meal_is_confirmed_where_it_is_moved_to_and_holds_its_food_there(house):
    pudding(house)
    move(house, THURSDAY)
    assert states(house) == {NEW: "confirmed", DINNER: "taken_off"}
    assert house.promised("m") == {NEW: 1_000_000}
    assert {row.dish for row in house.rows(ServingRow, service=NEW)} == {"rice-pudding"}


def test_the_hour_alone_may_change_and_the_covers_with_it(house):
    pudding(house)
    move(house, {**THURSDAY, "date": "2027-03-12", "time": "20:15", "covers": 6})
    row = house.row(ServiceRow)
    assert (row.id, row.covers, row.at.strftime("%H:%M")) == (DINNER, 6, "20:15")
    assert house.promised("m") == {DINNER: 1_500_000}


def test_a_proposed_meal_stays_proposed(house):
    house.propose(DINNER, "rice-pudding")
    move(house, THURSDAY)
    assert states(house) == {NEW: "proposed", DINNER: "taken_off"}
    assert house.needs() == []


def test_a_meal_may_be_moved_back(house):
    pudding(house)
    move(house, THURSDAY)
    back = {**THURSDAY, "date": "2027-03-12"}
    house.do("move_service", {"service": NEW, "to": back})
    assert states(house) == {NEW: "taken_off", DINNER: "confirmed"}
    assert house.promised("m") == {DINNER: 1_000_000}


def test_LG2_what_was_taken_out_for_it_is_asked_about(house):
    pudding(house)
    house.do("take_out", {"batch": "m", "quantity": "600 ml", "service": DINNER})
    move(house, THURSDAY)
    assert house.question("taken_out_for_nobody").about == DINNER


def test_another_menu_is_never_written_over(house):
    pudding(house)
    house.menu(NEW, "pancakes")
    problem = house.refuses("move_service", {"service": DINNER, "to": THURSDAY})
    assert problem.code == "service_there"
    assert states(house) == {NEW: "confirmed", DINNER: "confirmed"}


def test_AL3_a_table_where_somebody_cannot_eat_it_is_looked_at_like_a_choice(house):
    staff = "2027-03-12/dinner/staff"
    house.menu(staff, "walnut-salad")
    to = {**THURSDAY, "date": "2027-03-12"}
    problem = house.refuses("move_service", {"service": staff, "to": to})
    assert problem.code == "allergen_conflict"
    house.do("move_service", {"service": staff, "to": to, "overrides": ["Ottilie"]})


def test_AL3_what_is_only_proposed_is_asked_about_where_somebody_cannot_eat_it(house):
    house.propose("2027-03-12/dinner/staff", "walnut-salad")
    to = {**THURSDAY, "date": "2027-03-12"}
    house.do("move_service", {"service": "2027-03-12/dinner/staff", "to": to})
    asked = house.question("allergen")
    assert asked.about == DINNER
    assert "Ottilie cannot eat nuts" in asked.against
    assert house.refuses("confirm", {"service": DINNER, "dishes": [{"dish": "walnut-salad"}]})


def test_a_meal_is_not_moved_into_the_past_nor_to_where_no_table_is(house):
    pudding(house)
    assert refused(house, date="2027-03-07") == "service_past"
    assert refused(house, table="terrace") == "table_unknown"
    assert refused(house, time=None) == "time_missing"


def refused(house, **to):
    return house.refuses("move_service", {"service": DINNER, "to": THURSDAY | to}).code
