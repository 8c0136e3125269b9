"""What the house decides for good: par, calendars, policy, recipes, products (PL2, SL5, AL3)."""

import json
from datetime import timedelta

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import (
    ClosureRow,
    DeliveryRuleRow,
    ItemRow,
    PackRow,
    PolicyOverrideRow,
    RecipeRow,
    SupplierRow,
    SupplierTermsRow,
)
from tests.commands.house import DAY, at, use_by
from tests.commands.larkfield import APPROVER, CHEF, ID, MANAGER, PORTER

DINNER = "2027-03-12/dinner/family"

# set_par


def test_par_is_a_floor_and_a_level_to_order_up_to(house):
    par = {"item": "Butter", "floor": "500 g", "order_up_to": "2 kg"}
    house.do("set_par", par, person=MANAGER)
    row = house.row(ItemRow, id="butter")
    assert (row.floor, row.order_up_to, row.version) == (500_000, 2_000_000, 2)
    house.do("set_par", {"item": "butter"})
    row = house.row(ItemRow, id="butter")
    assert (row.floor, row.order_up_to) == (None, None)


def test_par_may_be_nothing_and_is_not_upside_down(house):
    house.do("set_par", {"item": "butter", "floor": "0 g"})
    body = {"item": "butter", "floor": "2 kg", "order_up_to": "1 kg"}
    assert house.refuses("set_par", body).code == "par_upside_down"
    assert house.refuses("set_par", {"item": "?"}).code == "item_unknown"
    assert house.refuses("set_par", {"item": "butter", "floor": "some"}).field == "body.floor"


# set_calendar


def rule(weekday="monday", time="07:00", days=1, cutoff="17:00"):
    return {
        "weekday": weekday,
        "time": time,
        "cutoff_days_before": days,
        "cutoff_time": cutoff,
    }


def calendar(**more):
    return {"supplier": "Hill Dairy"} | more


def test_PL2_a_calendar_replaces_deliveries_closures_or_both(house):
    closures = [{"date": "2027-03-29", "what": "no_delivery", "instead": "2027-03-30"}]
    house.do("set_calendar", calendar(closures=closures), person=MANAGER)
    assert len(house.rows(DeliveryRuleRow, supplier="hill-dairy")) == 5
    assert house.row(ClosureRow).instead.isoformat() == "2027-03-30"
    house.do("set_calendar", calendar(deliveries=[rule("Fri", "6:30", 2, "9:00")]), person=MANAGER)
    row = house.row(DeliveryRuleRow, supplier="hill-dairy")
    assert (row.weekday, row.at, row.cutoff_days_before, row.cutoff_at) == (4, "06:30", 2, "09:00")
    assert len(house.rows(ClosureRow)) == 1


def test_PL5_a_calendar_reckons_the_deadlines_of_what_is_confirmed_anew(house):
    house.menu(DINNER, "rice-pudding")
    assert house.needs(item="whole-milk")[0].last_order_by == at(11, 17)
    house.do("set_calendar", calendar(deliveries=[rule("wednesday", days=2)]), person=MANAGER)
    assert house.needs(item="whole-milk")[0].last_order_by == at(8, 17)


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (calendar(supplier="?"), "supplier_unknown"),
        (calendar(deliveries=[rule("someday")]), "weekday_unreadable"),
        (calendar(deliveries=[rule(time="noon")]), "wall_time_unreadable"),
        (calendar(deliveries=[rule(cutoff="25:00")]), "wall_time_unreadable"),
        (calendar(deliveries=[rule(days=-1)]), "body_unreadable"),
        (calendar(deliveries=[rule(), rule("mon")]), "calendar_twice"),
        (calendar(deliveries=[rule(time="7:00", days=0, cutoff="7:01")]), "cutoff_after_delivery"),
        (calendar(closures=[{"date": "soon", "what": "no_orders"}]), "date_unreadable"),
        (calendar(closures=[{"date": "2027-03-29", "what": "shut"}]), "body_unreadable"),
        (calendar(closures=[{"date": "2027-03-29", "what": "no_orders"}] * 2), "calendar_twice"),
    ],
)
def test_PL2_a_calendar_that_cannot_be_read_changes_nothing(house, body, code):
    assert house.refuses("set_calendar", body, person=MANAGER).code == code
    assert len(house.rows(DeliveryRuleRow, supplier="hill-dairy")) == 5


# set_terms


def terms(**more):
    return {"supplier": "Hill Dairy"} | more


def test_PL2_terms_are_all_written_and_what_is_left_out_is_not_there_any_more(house):
    full = terms(
        email=" orders@hill-dairy.example ",
        minimum={"minor": 2500, "currency": "GBP"},
        charge={"minor": 450, "currency": "GBP"},
        may_fail=True,
        fails_percent=5,
        send_minutes=30,
        order_given="email",
        order_words="by noon, please",
        substitution="ask_first",
        fallback_shop="Village Shop",
    )
    house.do("set_terms", full, person=MANAGER)
    row = house.row(SupplierRow, id="hill-dairy")
    assert (row.email, row.minimum, row.charge) == ("orders@hill-dairy.example", 2500, 450)
    assert (row.may_fail, row.send_minutes) == (True, 30)
    told = house.row(SupplierTermsRow, supplier="hill-dairy")
    assert (told.order_given, told.substitution, told.fails_percent) == ("email", "ask_first", 5)
    house.do("set_terms", terms(order_words="ring them"), person=MANAGER)
    row = house.row(SupplierRow, id="hill-dairy")
    assert (row.email, row.minimum, row.may_fail, row.send_minutes) == (None, 0, False, 0)
    assert house.row(SupplierTermsRow, supplier="hill-dairy").order_given is None


def test_PL5_an_order_that_takes_long_to_send_has_its_deadline_earlier(house):
    house.menu(DINNER, "rice-pudding")
    before = house.needs(item="whole-milk")[0].last_order_by
    house.do("set_terms", terms(send_minutes=45), person=MANAGER)
    assert house.needs(item="whole-milk")[0].last_order_by == before - timedelta(minutes=45)


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"supplier": "?"}, "supplier_unknown"),
        ({"email": "the dairy"}, "address_unreadable"),
        ({"charge": {"minor": -1, "currency": "GBP"}}, "body_unreadable"),
        ({"minimum": {"minor": 100, "currency": "EUR"}}, "currency_foreign"),
        ({"fails_percent": 101}, "body_unreadable"),
        ({"substitution": "whatever"}, "body_unreadable"),
    ],
)
def test_PL2_terms_that_cannot_be_read_change_nothing(house, more, code):
    before = house.row(SupplierRow, id="hill-dairy")
    assert house.refuses("set_terms", terms(**more), person=MANAGER).code == code
    assert house.row(SupplierRow, id="hill-dairy") == before


# set_policy


def test_SL5_a_stricter_number_holds_from_the_next_delivery_on(house):
    policy = {"name": "receiving.milk.accept", "value": 30, "reason": "colder van"}
    house.do("set_policy", policy, person=CHEF)
    house.receive("m", "whole-milk", "2 l", use_by(12), temperature_c="4")
    assert "hold:cold-room" in house.balances("m")
    row = house.row(PolicyOverrideRow)
    assert (row.value, row.person, row.reason) == (30, CHEF, "colder van")


def test_SL5_a_number_is_set_and_used_in_one_list(house):
    policy = {"name": "receiving.milk.accept", "value": 30, "reason": "colder van"}
    body = {
        "batch": "m",
        "item": "whole-milk",
        "quantity": "1 l",
        "area": "cold-room",
        "verdict": "accept",
        "temperature_c": "4",
    }
    house.hand_in(house.command("receive", body), house.command("set_policy", policy))
    house.hand_in(
        house.command("set_policy", policy | {"value": 50}),
        house.command("receive", body | {"batch": "n"}),
        house.command("set_policy", policy),
        house.command("receive", body | {"batch": "o"}),
    )
    assert "area:cold-room" in house.balances("m")
    assert "area:cold-room" in house.balances("n")
    assert "hold:cold-room" in house.balances("o")


def test_SL5_looser_needs_a_reason_and_a_name(house):
    policy = {"name": "receiving.milk.accept", "value": 70, "reason": ""}
    assert house.refuses("set_policy", policy).code == "looser_than_policy"
    house.do("set_policy", policy | {"reason": "our own cow"})
    assert house.refuses("set_policy", policy | {"name": "?"}).code == "policy_number_unknown"


# approve_recipe


def test_a_recipe_is_approved_by_the_household_and_that_can_be_taken_back(house):
    house.do("approve_recipe", {"recipe": "New dish"}, person=APPROVER)
    assert house.row(RecipeRow, id="new-dish").approved
    house.do("approve_recipe", {"recipe": "new-dish", "approved": False})
    assert not house.row(RecipeRow, id="new-dish").approved
    assert house.refuses("approve_recipe", {"recipe": "?"}).code == "recipe_unknown"
    body = {"recipe": "new-dish"}
    assert house.refuses("approve_recipe", body, person=PORTER).code == "role_lacking"


# change_product


def product(**more):
    return {"pack": "Hill Dairy/Butter/250 g block", "contains": ["milk"]} | more


def test_AL3_a_changed_product_has_allergens_of_its_own_and_the_chef_is_asked(house):
    house.do("change_product", product(may_contain=["nuts"], gtin="9521234000372"))
    row = house.row(PackRow, id="hill-dairy/butter/250-g-block")
    assert json.loads(row.contains) == ["milk"]
    assert json.loads(row.may_contain) == ["nuts"]
    assert row.gtin is not None
    assert house.question("changed_product").owner == "chef"


def test_AL3_what_is_confirmed_is_held_against_a_changed_product(house):
    house.menu(DINNER, "rice-pudding")
    house.do("change_product", product(may_contain=["nuts"]))
    asked = house.question("allergen")
    assert asked.about == DINNER
    assert "Ottilie cannot eat nuts" in asked.against


def test_AL3_what_is_only_proposed_is_held_against_a_changed_product_too(house):
    house.propose(DINNER, "rice-pudding")
    house.do("change_product", product(may_contain=["nuts"]))
    asked = house.question("allergen")
    assert asked.recorded.startswith(f"{DINNER} is proposed, and 250 g block of butter is another")
    assert "Ottilie cannot eat nuts: Rice pudding may contain it" in asked.against


@pytest.mark.parametrize("state", ["over", "taken off"])
def test_AL3_a_menu_that_is_no_more_is_not_held_against_a_changed_product(house, state):
    house.propose(DINNER, "rice-pudding")
    if state == "over":
        house.now += 7 * DAY
    else:
        house.do("take_off", {"service": DINNER, "reason": "away"})
    house.do("change_product", product(may_contain=["nuts"]))
    assert house.questions("allergen") == []


def test_AL3_a_product_that_is_safe_for_everybody_is_asked_about_only_once(house):
    house.menu(DINNER, "rice-pudding")
    house.do("change_product", product())
    assert [asked.kind for asked in house.questions()] == ["changed_product"]


def test_a_product_that_cannot_be_read_is_refused(house):
    assert house.refuses("change_product", product(pack="?")).code == "pack_not_there"
    problem = house.refuses("change_product", product(gtin="9521234000373"))
    assert problem.field == "body.gtin"


# settle


def overdrawn(house):
    house.receive("b", "butter", "1 kg")
    house.do("use", {"batch": "b", "quantity": "2 kg"})
    return house.question("overdrawn").id


def test_a_question_is_settled_by_its_owner_with_one_of_its_answers(house):
    question = overdrawn(house)
    house.do("settle", {"question": question, "answer": "count it"}, person=CHEF)
    assert house.questions() == []


def test_a_manager_settles_every_question_and_a_porter_none_of_the_chefs(house):
    question = overdrawn(house)
    body = {"question": question, "answer": "count it"}
    assert house.refuses("settle", body, person=PORTER).code == "question_of_another"
    house.do("settle", body, person=MANAGER)


def test_a_question_is_settled_once(house):
    body = {"question": overdrawn(house), "answer": "count it"}
    house.do("settle", body)
    problem = house.refuses("settle", body)
    assert problem.code == "question_settled"
    assert "Cato Brand settled it: count it" in problem.detail


def test_a_question_or_answer_nobody_knows_is_refused(house):
    question = overdrawn(house)
    body = {"question": "?", "answer": "count it"}
    assert house.refuses("settle", body).code == "question_unknown"
    problem = house.refuses("settle", {"question": question, "answer": "whatever"})
    assert problem.code == "answer_unknown"
    assert "count it" in problem.todo


def test_a_house_that_has_entered_no_people_is_run_with_every_right(house):
    from pantry.records.tables import PersonRow

    with writing(house.engine) as connection:
        change(connection, PersonRow, {"house": ID}, active=False)
    house.do("set_par", {"item": "butter", "floor": "1 kg"}, person="Anybody")
