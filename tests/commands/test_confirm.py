"""The household chose: needs are deducted at once, nobody gets what they cannot eat (LG2, AL3)."""

import pytest

from pantry.records.tables import PromiseRow, ServiceRow, ServingRow
from tests.commands.house import chosen, end_of, use_by
from tests.commands.larkfield import APPROVER, PORTER

DINNER = "2027-03-12/dinner/family"
SUPPER = "2027-03-12/supper/staff"


def choice(*dishes, service=DINNER, **more):
    return {"service": service, "dishes": list(dishes)} | more


def test_LG2_confirming_deducts_from_what_is_available_at_once(house):
    house.receive("m", "whole-milk", "2 l", use_by(14))
    house.propose(DINNER, "rice-pudding", "pancakes")
    house.do("confirm", choice(*chosen("rice-pudding")), person=APPROVER)
    assert house.available("m") == 1_000_000
    assert house.balances("m")["area:cold-room"] == 2_000_000
    assert house.row(ServiceRow).state == "confirmed"
    assert [each.dish for each in house.rows(ServingRow)] == ["rice-pudding"]


def test_LG2_a_promise_names_service_need_batch_and_command(house):
    house.receive("b", "butter", "1 kg")
    command = house.menu(DINNER, "rice-pudding")
    promise = next(row for row in house.rows(PromiseRow) if row.batch == "b")
    assert (promise.service, promise.quantity, promise.command) == (DINNER, 40_000, command)
    assert promise.need == f"{DINNER}|main|rice-pudding|butter"


def test_AL3_a_shortage_never_blocks_a_choice(house):
    house.menu(DINNER, "rice-pudding")
    assert {need.item for need in house.needs()} == {"whole-milk", "butter"}


def test_PL5_each_need_knows_its_last_possible_order_by(house):
    house.menu(DINNER, "rice-pudding")
    (milk,) = house.needs(item="whole-milk")
    assert milk.last_order_by == end_of(11).replace(hour=17, minute=0, second=0)
    house.menu("2027-03-12/lunch/family", "green-salad", time="13:00")
    (leaves,) = house.needs(item="salad-leaves")
    assert leaves.last_order_by is None


def test_MS3_what_nobody_counts_is_no_need(house):
    house.menu(DINNER, "pancakes")
    assert {need.item for need in house.needs()} == {"whole-milk", "plain-flour", "eggs"}


def test_portions_may_differ_from_the_covers(house):
    house.propose(DINNER, "rice-pudding", "pancakes", covers=8)
    house.do(
        "confirm",
        choice({"dish": "rice-pudding", "portions": 5}, {"dish": "pancakes", "portions": 3}),
    )
    milk = {need.dish: need.quantity for need in house.needs(item="whole-milk")}
    assert milk == {"rice-pudding": 1_250_000, "pancakes": 375_000}


def test_covers_may_change_with_the_choice(house):
    house.propose(DINNER, "rice-pudding")
    house.do("confirm", choice(*chosen("rice-pudding"), covers=2))
    assert house.row(ServiceRow).covers == 2
    assert house.needs(item="whole-milk")[0].quantity == 500_000


def test_confirming_again_replaces_the_choice(house):
    house.receive("m", "whole-milk", "2 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    house.do("confirm", choice(*chosen("pancakes")))
    assert house.promised("m") == {DINNER: 500_000}


def test_AL3_a_dish_that_contains_what_somebody_cannot_eat_is_refused(house):
    house.propose(DINNER, "walnut-salad", "green-salad")
    problem = house.refuses("confirm", choice(*chosen("walnut-salad")))
    assert (problem.code, problem.status, problem.value) == ("allergen_conflict", 409, "nuts")
    assert "Ottilie cannot eat nuts: Walnut salad contains it (Walnuts)" in problem.detail
    assert "local codes and medical advice come first" in problem.todo
    assert house.row(ServiceRow).state == "proposed"


def test_AL3_the_persons_own_safe_dish_is_offered_first(house):
    house.propose(DINNER, "walnut-salad")
    problem = house.refuses("confirm", choice(*chosen("walnut-salad")))
    assert problem.todo.startswith("Safe for them: Walnut salad, without nuts.")


def test_AL3_of_other_dishes_one_that_was_proposed_is_offered_first(house):
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["chicken bones"]})
    house.propose(DINNER, "broth", "green-salad")
    problem = house.refuses("confirm", choice(*chosen("broth")))
    assert problem.todo.startswith("Safe for them: Green salad.")


def test_AL3_the_variant_without_it_is_no_conflict(house):
    house.propose(DINNER, "walnut-salad")
    house.do("confirm", choice({"dish": "walnut-salad", "variant": "without nuts"}))
    assert {need.item for need in house.needs()} == {"salad-leaves"}


def test_AL3_ones_own_dish_in_the_course_is_no_conflict(house):
    house.propose(DINNER, "walnut-salad", "green-salad")
    house.do(
        "confirm",
        choice({"dish": "walnut-salad", "portions": 3}, {"dish": "green-salad", "portions": 1}),
    )


def test_AL3_ones_own_dish_in_another_course_is_not_enough(house):
    house.propose(DINNER, "walnut-salad", "green-salad")
    starter = {"dish": "green-salad", "course": "starter"}
    problem = house.refuses("confirm", choice({"dish": "walnut-salad"}, starter))
    assert problem.code == "allergen_conflict"


def test_AL3_what_may_contain_it_is_refused_too(house):
    pack = {"pack": "hill-dairy/butter/250-g-block", "contains": ["milk"], "may_contain": ["nuts"]}
    house.do("change_product", pack)
    house.propose(DINNER, "rice-pudding")
    problem = house.refuses("confirm", choice(*chosen("rice-pudding")))
    assert "may contain" in problem.detail


def test_AL3_overriding_is_by_name(house):
    house.propose(DINNER, "walnut-salad")
    body = choice(*chosen("walnut-salad"))
    assert house.refuses("confirm", body | {"overrides": ["Somebody"]}).value == "nuts"
    house.do("confirm", body | {"overrides": ["Ottilie"]})


def test_AL3_a_conflict_belongs_to_one_table(house):
    house.menu(SUPPER, "walnut-salad")
    assert house.questions() == []


def test_AL3_it_flows_through_preparations(house):
    house.do("add_guest", {"person": "Bo", "table": "staff", "cannot_eat": ["chicken bones"]})
    house.propose(SUPPER, "broth")
    problem = house.refuses("confirm", choice(*chosen("broth"), service=SUPPER))
    assert "(Chicken stock > Chicken bones)" in problem.detail


def test_a_dish_nobody_approved_is_not_chosen(house):
    house.propose(DINNER, "new-dish")
    problem = house.refuses("confirm", choice(*chosen("new-dish")))
    assert problem.code == "recipe_unapproved"
    house.do("approve_recipe", {"recipe": "New dish"}, person=APPROVER)
    house.do("confirm", choice(*chosen("new-dish")))


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (choice(), "nothing_chosen"),
        (choice({"dish": "?"}), "recipe_unknown"),
        (choice({"dish": "pancakes"}, service=SUPPER), "service_unknown"),
        (choice({"dish": "pancakes", "variant": "blue"}), "variant_not_there"),
        (choice({"dish": "pancakes"}, covers=-2), "body_unreadable"),
    ],
)
def test_what_cannot_be_confirmed_is_refused_by_name(house, body, code):
    house.propose(DINNER, "pancakes")
    assert house.refuses("confirm", body).code == code


def test_what_was_served_or_taken_off_is_not_confirmed(house):
    house.menu(DINNER, "pancakes")
    house.do("serve", {"service": DINNER})
    body = choice(*chosen("pancakes"))
    assert house.refuses("confirm", body).code == "service_state"


def test_a_porter_does_not_confirm(house):
    house.propose(DINNER, "pancakes")
    body = choice(*chosen("pancakes"))
    assert house.refuses("confirm", body, person=PORTER).code == "role_lacking"
