"""Taking out for a service or a preparation: it settles the promise (LG2)."""

from tests.commands.house import at, use_by
from tests.commands.larkfield import PORTER

DINNER = "2027-03-10/dinner/family"


def out(**more):
    return {"batch": "m", "quantity": "300 ml", "service": DINNER} | more


def planned(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    house.menu(DINNER, "rice-pudding")
    assert house.promised("m") == {DINNER: 1_000_000}


def test_LG2_what_is_taken_out_settles_so_much_of_the_promise(house):
    planned(house)
    house.do("take_out", out(), person=PORTER)
    assert house.promised("m") == {DINNER: 700_000}
    assert house.balances("m")[f"kitchen:{DINNER}"] == 300_000
    assert house.available("m") == 1_000_000


def test_LG2_taking_out_all_of_it_settles_the_promise(house):
    planned(house)
    house.do("take_out", out(quantity="1 l"))
    assert house.promised("m") == {}
    assert house.available("m") == 1_000_000


def test_LG2_taking_out_more_draws_on_what_is_available(house):
    planned(house)
    house.do("take_out", out(quantity="1.5 l"))
    assert house.promised("m") == {}
    assert house.available("m") == 500_000


def test_LG2_another_batch_may_be_taken_and_the_promised_one_is_free(house):
    planned(house)
    house.receive("n", "whole-milk", "2 l", use_by(20))
    house.do("take_out", out(batch="n", quantity="1 l"))
    assert house.promised("m") == {}
    assert house.available("m") == 2_000_000


def test_LG2_what_is_put_back_is_wanted_again(house):
    planned(house)
    house.do("take_out", out(quantity="1 l"))
    house.do("move", {"batch": "m", "quantity": "1 l", "area": "Cold room"})
    assert house.promised("m") == {DINNER: 1_000_000}
    assert house.available("m") == 1_000_000


def test_LG2_what_is_spilt_in_the_kitchen_is_wanted_again(house):
    planned(house)
    house.do("take_out", out(quantity="1 l"))
    house.do("use", {"batch": "m", "quantity": "1 l"})
    spilt = {"batch": "m", "quantity": "400 ml", "reason": "spilt", "destination": "drain"}
    house.do("waste", spilt)
    assert [need.settled for need in house.needs(item="whole-milk")] == [600_000]


def test_LG3_taking_what_another_was_promised_plans_that_one_anew(house):
    planned(house)
    house.receive("n", "whole-milk", "1 l", use_by(20))
    house.menu("2027-03-11/dinner/staff", "green-salad")
    house.do("take_out", out(service="2027-03-11/dinner/staff", quantity="1.5 l"))
    assert house.promised("m") == {DINNER: 500_000}
    assert house.promised("n") == {DINNER: 500_000}


def test_for_a_preparation_it_stays_available_until_that_is_made(house):
    house.receive("m", "chicken-bones", "1 kg", use_by(12))
    house.do("take_out", out(quantity="1 kg", service=None, preparation="Chicken stock"))
    assert house.balances("m")["kitchen:chicken-stock"] == 1_000_000
    stock = {"recipe": "Chicken stock", "quantity": "2 l", "child": "s", "area": "Cold room"}
    house.do("make", stock)
    assert "kitchen:chicken-stock" not in house.balances("m")
    assert house.balances("m")["made_into"] == 1_000_000


def test_what_is_taken_out_after_the_service_was_eaten_there(house):
    planned(house)
    house.do("serve", {"service": DINNER})
    house.do("take_out", out())
    assert house.balances("m")[f"served:{DINNER}"] == 1_300_000


def test_what_is_taken_out_for_a_service_nobody_eats_is_asked_about(house):
    planned(house)
    house.do("take_off", {"service": DINNER, "reason": "out to dinner"})
    house.do("take_out", out())
    assert house.question("taken_out_for_nobody").about == DINNER


def test_SL2_what_is_taken_out_past_its_date_is_recorded_and_asked_about(house):
    planned(house)
    house.now = at(13)
    house.do("take_out", out())
    assert "It could be used until" in house.question("unsafe_use").against


def test_SL2_what_is_taken_out_though_on_hold_is_recorded_and_asked_about(house):
    planned(house)
    house.do("hold", {"batch": "m", "reason": "smells"})
    house.do("take_out", out())
    assert house.question("unsafe_use").against == "It was on hold."


def test_what_it_was_taken_out_for_must_be_said(house):
    planned(house)
    assert house.keeps("take_out", out(service=None)).code == "purpose_missing"
    assert house.keeps("take_out", out(service="2027-03-10/tea/family")).code == "service_unknown"
    assert house.keeps("take_out", out(service=None, preparation="?")).code == "recipe_unknown"
    assert house.keeps("take_out", out(batch="?")).code == "batch_unknown"
    assert house.keeps("take_out", out(area="?")).code == "area_unknown"


def test_a_service_is_named_by_its_parts_too(house):
    planned(house)
    parts = {"date": "2027-03-10", "meal": "Dinner", "table": "Family"}
    house.do("take_out", out(service=parts))
    house.do("take_out", out(service="2027-03-10/Dinner/Family"))
    assert house.promised("m") == {DINNER: 400_000}
