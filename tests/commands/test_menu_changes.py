"""Covers, swaps, services taken off, guests: what changes after the choice (LG2, AL3)."""

from pantry.records.tables import ConstraintRow, ServiceRow, ServingRow
from tests.commands.house import use_by
from tests.commands.larkfield import APPROVER

DINNER = "2027-03-12/dinner/family"


def milk(house):
    house.receive("m", "whole-milk", "4 l", use_by(14))


# change_covers


def test_LG2_eight_not_six_wants_more_at_once(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("change_covers", {"service": DINNER, "covers": 8}, person=APPROVER)
    assert house.promised("m") == {DINNER: 2_000_000}


def test_LG2_fewer_free_what_is_not_wanted(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("change_covers", {"service": DINNER, "covers": 0})
    assert house.promised("m") == {}
    assert house.available("m") == 4_000_000


def test_LG2_what_was_taken_out_stays_settled(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "600 ml", "service": DINNER})
    house.do("change_covers", {"service": DINNER, "covers": 6})
    assert house.promised("m") == {DINNER: 900_000}


def test_portions_that_were_said_do_not_follow_the_covers(house):
    house.propose(DINNER, "rice-pudding")
    dishes = [{"dish": "rice-pudding", "portions": 3}]
    house.do("confirm", {"service": DINNER, "dishes": dishes})
    house.do("change_covers", {"service": DINNER, "covers": 9})
    assert house.needs(item="whole-milk")[0].quantity == 750_000


def test_a_proposed_service_has_covers_and_no_needs(house):
    house.propose(DINNER, "rice-pudding")
    house.do("change_covers", {"service": DINNER, "covers": 9})
    assert house.row(ServiceRow).covers == 9
    assert house.needs() == []


def test_covers_of_what_is_over_or_unknown_are_refused(house):
    house.menu(DINNER, "rice-pudding")
    house.do("serve", {"service": DINNER})
    body = {"service": DINNER, "covers": 9}
    assert house.refuses("change_covers", body).code == "service_state"
    body = {"service": "2027-03-13/dinner/family", "covers": 9}
    assert house.refuses("change_covers", body).code == "service_unknown"


# take_off


def test_LG2_taken_off_it_holds_nothing(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_off", {"service": DINNER, "reason": "out to dinner"}, person=APPROVER)
    row = house.row(ServiceRow)
    assert (row.state, row.reason) == ("taken_off", "out to dinner")
    assert house.available("m") == 4_000_000
    assert house.needs() == []


def test_LG2_what_was_taken_out_for_it_is_asked_about(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "600 ml", "service": DINNER})
    house.do("take_off", {"service": DINNER, "reason": "out to dinner"})
    assert house.question("taken_out_for_nobody").about == DINNER
    house.do("move", {"batch": "m", "quantity": "600 ml", "area": "Cold room"})
    assert house.available("m") == 4_000_000


def test_RQ1_a_making_shared_with_another_service_is_that_ones_from_then_on(house):
    house.receive("c", "chicken-bones", "2 kg", use_by(20))
    house.menu(DINNER, "broth")
    house.menu("2027-03-12/supper/staff", "broth", time="21:00")
    assert house.promised("c") == {DINNER: 1_000_000}
    house.do("take_off", {"service": DINNER, "reason": "away"})
    assert house.promised("c") == {"2027-03-12/supper/staff": 500_000}


def test_what_is_over_is_not_taken_off(house):
    house.menu(DINNER, "rice-pudding")
    house.do("serve", {"service": DINNER})
    body = {"service": DINNER, "reason": "?"}
    assert house.refuses("take_off", body).code == "service_state"


# swap_dish


def swap(dish, by, **more):
    return {"service": DINNER, "dish": dish, "by": {"dish": by} | more}


def test_LG2_a_swap_lets_go_of_the_one_and_promises_the_other(house):
    milk(house)
    house.receive("b", "butter", "1 kg")
    house.menu(DINNER, "rice-pudding")
    house.do("swap_dish", swap("Rice pudding", "Pancakes"))
    assert house.promised("m") == {DINNER: 500_000}
    assert house.promised("b") == {}
    row = house.row(ServingRow)
    assert (row.dish, row.course, row.chosen) == ("pancakes", "main", True)


def test_a_swapped_dish_keeps_its_portions_unless_others_are_said(house):
    house.propose(DINNER, "rice-pudding")
    dishes = [{"dish": "rice-pudding", "portions": 3}]
    house.do("confirm", {"service": DINNER, "dishes": dishes})
    house.do("swap_dish", swap("rice-pudding", "pancakes"))
    assert house.row(ServingRow).portions == 3
    house.do("swap_dish", swap("pancakes", "broth", portions=2))
    assert house.row(ServingRow).portions == 2


def test_LG2_what_was_taken_out_counts_for_the_other_dish(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "400 ml", "service": DINNER})
    house.do("swap_dish", swap("rice-pudding", "pancakes"))
    assert house.promised("m") == {DINNER: 100_000}


def test_AL3_a_swap_is_looked_at_like_a_choice(house):
    house.menu(DINNER, "green-salad")
    problem = house.refuses("swap_dish", swap("green-salad", "walnut-salad"))
    assert problem.code == "allergen_conflict"
    house.do("swap_dish", swap("green-salad", "walnut-salad") | {"overrides": ["Ottilie"]})


def test_a_swap_that_cannot_be_is_refused_by_name(house):
    house.propose(DINNER, "green-salad")
    assert house.refuses("swap_dish", swap("green-salad", "broth")).code == "service_state"
    house.do("confirm", {"service": DINNER, "dishes": [{"dish": "green-salad"}]})
    assert house.refuses("swap_dish", swap("pancakes", "broth")).code == "dish_not_on_menu"
    assert house.refuses("swap_dish", swap("green-salad", "?")).code == "recipe_unknown"
    assert house.refuses("swap_dish", swap("green-salad", "new-dish")).code == "recipe_unapproved"


# add_guest


def guest(**more):
    return {"person": "Bo", "table": "Family", "cannot_eat": ["milk"]} | more


def test_AL3_a_guest_added_later_is_held_against_what_is_confirmed(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", guest(), person=APPROVER)
    asked = house.question("allergen")
    assert asked.about == f"{DINNER}|bo"
    assert "Bo cannot eat milk" in asked.against


def test_AL3_only_the_guest_is_looked_at(house):
    house.propose(DINNER, "walnut-salad")
    dishes = [{"dish": "walnut-salad"}]
    choice = {"service": DINNER, "dishes": dishes, "overrides": ["Ottilie"]}
    house.do("confirm", choice)
    house.do("add_guest", guest())
    assert house.questions() == []


def test_AL3_a_guest_is_there_between_two_dates(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", guest(first="2027-03-13", last="2027-03-20"))
    assert house.questions() == []
    house.do("add_guest", guest(first="2027-03-12", last="2027-03-12"))
    assert len(house.questions("allergen")) == 1
    assert len(house.rows(ConstraintRow, person="Bo")) == 2


def test_AL3_what_a_guest_says_later_is_added_to_what_was_known(house):
    house.do("add_guest", guest())
    house.do("add_guest", guest(person="bo", cannot_eat=["fish", "eggs"]))
    assert house.row(ConstraintRow, person="Bo").cannot_eat == ('["eggs", "fish", "milk"]')


def test_AL3_what_was_said_for_other_days_still_holds(house):
    house.menu(DINNER, "rice-pudding")
    house.do("add_guest", guest(cannot_eat=["fish"], first="2027-04-01", last="2027-04-03"))
    house.do("add_guest", guest(cannot_eat=["eggs"], first="2027-05-01", last="2027-05-03"))
    house.do("add_guest", guest())
    foods = {row.id: row.cannot_eat for row in house.rows(ConstraintRow, person="Bo")}
    assert foods == {
        "family|bo": '["fish"]',
        "family|bo|2": '["eggs"]',
        "family|bo|3": '["milk"]',
    }
    assert len(house.questions("allergen")) == 1


def test_AL3_only_where_it_says_instead_does_it_replace_what_was_known(house):
    house.do("add_guest", guest())
    house.do("add_guest", guest(cannot_eat=["fish"], first="2027-04-01"))
    house.do("add_guest", guest(cannot_eat=["eggs"], instead=True))
    assert house.row(ConstraintRow, person="Bo").cannot_eat == '["eggs"]'
    house.do("add_guest", guest(cannot_eat=[], instead=True))
    assert house.rows(ConstraintRow, person="Bo") == []


def test_a_guest_needs_a_table_and_dates_that_can_be_read(house):
    assert house.refuses("add_guest", guest(table="?")).code == "table_unknown"
    assert house.refuses("add_guest", guest(first="soon")).code == "date_unreadable"
