"""Serving as planned, and only the exceptions are said (LG2, RQ1)."""

import pytest

from pantry.records.tables import ServiceRow
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, PORTER

DINNER = "2027-03-10/dinner/family"
SUPPER = "2027-03-10/supper/staff"


def planned(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    house.receive("b", "butter", "500 g")
    house.menu(DINNER, "rice-pudding")


def serve(*exceptions, service=DINNER):
    return {"service": service, "exceptions": list(exceptions)}


def test_LG2_as_planned_is_one_tap_and_settles_everything(house):
    planned(house)
    house.do("serve", {"service": DINNER})
    assert house.balances("m")[f"served:{DINNER}"] == 1_000_000
    assert house.balances("b")[f"served:{DINNER}"] == 40_000
    assert house.promised("m") == house.promised("b") == {}
    assert house.needs() == []
    assert house.row(ServiceRow).state == "served"
    assert house.available("m") == 1_000_000


def test_LG2_what_was_taken_out_is_eaten_with_it(house):
    planned(house)
    house.do("take_out", {"batch": "m", "quantity": "400 ml", "service": DINNER})
    house.do("serve", serve())
    assert house.balances("m") == {
        "area:cold-room": 1_000_000,
        f"served:{DINNER}": 1_000_000,
        "supplier": -2_000_000,
    }


def test_LG2_less_of_a_batch_was_used_and_the_rest_goes_back(house):
    planned(house)
    house.do("take_out", {"batch": "m", "quantity": "1 l", "service": DINNER})
    house.do("serve", serve({"batch": "m", "quantity": "700 ml"}))
    assert house.balances("m")[f"served:{DINNER}"] == 700_000
    assert house.available("m") == 1_300_000


def test_LG2_more_of_a_batch_was_used(house):
    planned(house)
    house.do("serve", serve({"batch": "m", "quantity": "1.5 l"}))
    assert house.available("m") == 500_000
    assert house.balances("b")[f"served:{DINNER}"] == 40_000


def test_LG2_less_of_an_item_was_used_what_dies_first_before_the_rest(house):
    house.receive("early", "whole-milk", "600 ml", use_by(11))
    house.receive("late", "whole-milk", "2 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    assert house.promised("late") == {DINNER: 400_000}
    house.do("serve", serve({"item": "Whole milk", "quantity": "700 ml"}))
    assert house.balances("early")[f"served:{DINNER}"] == 600_000
    assert house.balances("late")[f"served:{DINNER}"] == 100_000


def test_LG2_more_of_an_item_was_used_from_whatever_stands_there(house):
    planned(house)
    house.receive("n", "whole-milk", "1 l", use_by(20))
    house.do("serve", serve({"item": "whole-milk", "quantity": "2.5 l"}))
    assert house.balances("m")[f"served:{DINNER}"] == 2_000_000
    assert house.balances("n")[f"served:{DINNER}"] == 500_000
    assert house.questions() == []


def test_LG2_something_that_was_not_planned_was_used(house):
    planned(house)
    house.receive("f", "plain-flour", "1 kg")
    house.do("serve", serve({"item": "plain-flour", "quantity": "50 g"}))
    assert house.balances("f")[f"served:{DINNER}"] == 50_000


def test_LG3_more_of_an_item_than_the_books_have_is_taken_and_asked_about(house):
    planned(house)
    house.do("serve", serve({"item": "whole-milk", "quantity": "3 l"}))
    assert house.balances("m")[f"served:{DINNER}"] == 3_000_000
    assert house.question("overdrawn").about == "m|area:cold-room"


def test_LG3_an_item_the_books_know_no_batch_of_is_asked_about(house):
    planned(house)
    house.do("serve", serve({"item": "walnuts", "quantity": "30 g"}))
    assert "30 g of Walnuts was used" in house.question("not_on_the_books").recorded


def test_MS3_an_exception_about_what_nobody_counts_moves_nothing(house):
    planned(house)
    command = house.do("serve", serve({"item": "salt", "quantity": "a lot"}))
    assert {row.batch for row in house.movements(command)} == {"m", "b"}


def test_LG3_serving_draws_on_what_others_were_promised_and_plans_them_anew(house):
    planned(house)
    house.menu("2027-03-11/dinner/family", "rice-pudding")
    assert house.promised("m") == {DINNER: 1_000_000, "2027-03-11/dinner/family": 1_000_000}
    house.do("serve", serve({"batch": "m", "quantity": "1.6 l"}))
    assert house.promised("m") == {"2027-03-11/dinner/family": 400_000}


def test_LG2_what_is_short_on_the_books_was_not_eaten_from_them(house):
    house.receive("m", "whole-milk", "300 ml", use_by(12))
    house.menu(DINNER, "rice-pudding")
    house.do("serve", serve())
    assert house.balances("m")[f"served:{DINNER}"] == 300_000
    assert house.questions() == []


def test_RQ1_a_preparation_that_was_planned_and_not_recorded_was_made(house):
    house.receive("c", "chicken-bones", "2 kg", use_by(12))
    house.menu(DINNER, "broth")
    house.now = at(10, 20)
    command = house.do("serve", serve())
    made = f"{command}/chicken-stock"
    assert house.balances("c")["made_into"] == 500_000
    assert house.balances(made) == {"made_into": -1_000_000, f"served:{DINNER}": 1_000_000}
    assert house.needs() == []
    assert house.promised("c") == {}


def test_RQ1_only_what_was_not_made_already_is_assumed_to_have_been(house):
    house.receive("c", "chicken-bones", "2 kg", use_by(12))
    house.menu(DINNER, "broth")
    stock = {"recipe": "chicken-stock", "quantity": "600 ml", "child": "s", "area": "Cold room"}
    house.now = at(10, 12)
    house.do("make", stock)
    command = house.do("serve", serve())
    assert house.balances("s")[f"served:{DINNER}"] == 600_000
    assert house.balances(f"{command}/chicken-stock")[f"served:{DINNER}"] == 400_000
    assert house.balances("c")["made_into"] == 500_000


def test_RQ1_a_preparation_nothing_went_into_is_not_assumed_to_have_been_made(house):
    house.menu(DINNER, "broth")
    house.do("serve", serve())
    assert house.movements() == []


def test_it_was_eaten_at_its_time_however_late_that_is_recorded(house):
    planned(house)
    house.now = at(11, 7)
    command = house.do("serve", serve())
    assert {row.at for row in house.movements(command)} == {at(10, 19, 30)}


def test_SL2_what_was_good_that_evening_was_good_though_recorded_next_morning(house):
    house.receive("m", "whole-milk", "2 l", use_by(10))
    house.menu(DINNER, "rice-pudding")
    house.now = at(11, 6)
    house.do("use", {"batch": "m", "quantity": "100 ml"}, at=at(10, 8))
    assert house.promised("m") == {DINNER: 1_000_000}
    house.do("serve", serve())
    assert house.balances("m")[f"served:{DINNER}"] == 1_000_000
    assert house.questions() == []


def test_a_service_is_served_once(house):
    planned(house)
    house.do("serve", serve())
    problem = house.keeps("serve", serve())
    assert (problem.code, problem.value) == ("service_state", "served")
    assert house.balances("m")[f"served:{DINNER}"] == 1_000_000


@pytest.mark.parametrize(
    ("exception", "code"),
    [
        ({"batch": "?", "quantity": "1 g"}, "batch_unknown"),
        ({"item": "?", "quantity": "1 g"}, "item_unknown"),
        ({"quantity": "1 g"}, "item_unknown"),
        ({"batch": "m", "quantity": "some"}, None),
    ],
)
def test_an_exception_that_cannot_be_read_is_named(house, exception, code):
    planned(house)
    problem = house.keeps("serve", serve(exception))
    assert code in (None, problem.code)
    assert problem.field.startswith("body.exceptions[0]")
    assert house.promised("m") == {DINNER: 1_000_000}


def test_a_proposed_service_or_none_is_not_served(house):
    house.propose(DINNER, "rice-pudding")
    assert house.keeps("serve", serve()).code == "service_state"
    assert house.keeps("serve", serve(service=SUPPER)).code == "service_unknown"


def test_a_porter_does_not_serve(house):
    planned(house)
    assert house.keeps("serve", serve(), person=PORTER).code == "role_lacking"
    house.do("serve", serve(), person=CHEF)
