"""What came back unserved, and portions that were not as planned (SL4, LG2)."""

from datetime import timedelta

from pantry.records.database import writing
from pantry.records.rows import add
from pantry.records.tables import (
    BatchParentRow,
    IngredientRow,
    ItemRow,
    LeftOverRow,
    ServingRow,
)
from tests.commands.house import at, use_by, written
from tests.commands.larkfield import CHEF, ID

DINNER = "2027-03-10/dinner/family"
SERVED = at(10, 19, 30)


def served(house, *dishes, **more):
    house.receive("m", "whole-milk", "4 l", use_by(12), cost={"minor": 400, "currency": "GBP"})
    house.receive("b", "butter", "500 g")
    house.receive("f", "plain-flour", "1 kg")
    house.receive("e", "eggs", "12", use_by(20))
    house.menu(DINNER, *(dishes or ("rice-pudding",)))
    house.now = at(10, 19, 45)
    return house.do("serve", {"service": DINNER} | more)


def pot(**more):
    body = {"service": DINNER, "dish": "rice-pudding", "portions": 2, "child": "l"}
    return body | {"area": "Cold room"} | more


def test_SL4_left_overs_keep_their_first_cooking_and_live_as_the_policy_says(house):
    """48 hours: Food Standards Agency advice on left-overs, see `handbook/policies_uk.toml`."""
    served(house, "pancakes")
    house.do("left_over", pot(dish="pancakes"), person=CHEF)
    left = house.batch("l")
    assert left.usable_until == SERVED + timedelta(hours=48)
    assert (left.state, left.made_by, left.cooked) == ("made", "pancakes", True)
    assert house.available("l") == 2000, "portions"


def test_SL4_rice_lives_a_day_where_the_policy_has_a_number_for_it(house):
    """24 hours for rice: the same advice."""
    with writing(house.engine) as connection:
        add(connection, ItemRow(house=ID, id="pudding-rice", name="Pudding rice", base_unit="g"))
        line = {"line": 9, "item": "pudding-rice", "written": "40", "amount": "40"}
        add(
            connection,
            IngredientRow(house=ID, recipe="rice-pudding", **line, scaling="per_portion"),
        )
    served(house)
    house.do("left_over", pot())
    assert house.batch("l").usable_until == SERVED + timedelta(hours=24)


def test_SL4_it_counts_from_when_it_was_really_cooked_first(house):
    served(house)
    house.do("left_over", pot(cooked_at=written(at(9, 18))))
    assert house.batch("l").usable_until == at(11, 18)
    assert (
        house.keeps("left_over", pot(child="x", cooked_at=written(at(12)))).code == "cooked_after"
    )


def test_SL4_left_overs_of_what_was_cooked_before_never_outlive_it(house):
    house.receive("c", "chicken-bones", "2 kg", use_by(12))
    house.now = at(8, 12)
    made = {"recipe": "chicken-stock", "quantity": "1 l", "child": "s", "area": "Cold room"}
    house.do("make", made)
    house.menu(DINNER, "broth")
    house.now = at(10, 20)
    house.do("serve", {"service": DINNER})
    house.do("left_over", pot(dish="broth"))
    assert house.batch("l").usable_until == house.batch("s").usable_until


def test_LG1_the_dishs_share_of_what_was_served_goes_into_them(house):
    served(house, "rice-pudding", "pancakes")
    house.do("left_over", pot())
    # the milk is a litre for the pudding and half a litre for the pancakes; two of four are left
    assert house.balances("m")[f"served:{DINNER}"] == 1_000_000
    assert house.balances("m")["made_into"] == 500_000
    assert house.balances("b")["made_into"] == 20_000
    assert {row.parent for row in house.rows(BatchParentRow)} == {"m", "b"}
    assert {row.link for row in house.rows(BatchParentRow)} == {"assumed"}
    # half a litre of milk at 400 for four litres, 20 g of butter at 230 for 250 g
    assert house.batch("l").cost == 50 + 18
    assert house.disagreements() == []


def test_AL3_they_contain_what_the_dish_contains(house):
    served(house, "pancakes")
    house.do("left_over", pot(dish="pancakes"))
    item = house.row(ItemRow, name="Pancakes, left over")
    assert item.contains == '["cereals containing gluten", "eggs", "milk"]'
    assert item.base_unit == "each"
    house.do("left_over", pot(dish="pancakes", child="more", portions=1))
    assert {house.batch(name).item for name in ("l", "more")} == {item.id}


def test_LG4_left_overs_can_be_taken_back_and_then_the_service(house):
    command = served(house)
    left = house.do("left_over", pot())
    assert house.refuses("correct", {"command": command, "reason": "x"}).code == "depended_on"
    house.do("correct", {"command": left, "reason": "nothing was left"})
    assert house.rows(LeftOverRow) == house.rows(BatchParentRow) == []
    assert house.balances("m")[f"served:{DINNER}"] == 1_000_000
    house.do("correct", {"command": command, "reason": "not yet"})
    assert {(need.item, need.quantity) for need in house.needs()} == {
        ("whole-milk", 1_000_000),
        ("butter", 40_000),
    }


def test_SY3_left_overs_of_a_dish_that_was_not_on_the_menu_are_kept_and_asked_about(house):
    served(house)
    assert house.keeps("left_over", pot(dish="broth")).code == "dish_not_on_menu"


def test_LG2_two_portions_fewer_use_so_much_less(house):
    served(house, dishes=[{"dish": "rice-pudding", "portions": 2}])
    assert house.balances("m")[f"served:{DINNER}"] == 500_000
    assert house.balances("b")[f"served:{DINNER}"] == 20_000
    assert house.row(ServingRow).served == 2
    assert house.promised("m") == {}


def test_LG2_a_dish_that_was_not_served_uses_nothing_and_its_share_alone_stays(house):
    served(house, "rice-pudding", "pancakes", dishes=[{"dish": "Rice pudding", "portions": 0}])
    assert house.balances("m")[f"served:{DINNER}"] == 500_000
    assert f"served:{DINNER}" not in house.balances("b")
    assert house.balances("f")[f"served:{DINNER}"] == 240_000


def test_LG2_more_portions_than_planned_use_more(house):
    served(house, dishes=[{"dish": "rice-pudding", "portions": 6}])
    assert house.balances("m")[f"served:{DINNER}"] == 1_500_000


def test_LG2_what_was_short_is_no_less_short_for_fewer_portions(house):
    house.receive("m", "whole-milk", "600 ml", use_by(12))
    house.menu(DINNER, "rice-pudding")
    house.do("serve", {"service": DINNER, "dishes": [{"dish": "rice-pudding", "portions": 3}]})
    assert house.balances("m")[f"served:{DINNER}"] == 600_000


def test_LG2_what_an_exception_says_goes_before_the_portions(house):
    body = {"dishes": [{"dish": "rice-pudding", "portions": 2}]}
    body["exceptions"] = [{"batch": "m", "quantity": "900 ml"}]
    served(house, **body)
    assert house.balances("m")[f"served:{DINNER}"] == 900_000


def test_RQ1_of_a_preparation_only_what_was_served_is_assumed_to_have_been_made(house):
    house.receive("c", "chicken-bones", "2 kg", use_by(12))
    house.menu(DINNER, "broth")
    house.now = at(10, 20)
    body = {"service": DINNER, "dishes": [{"dish": "broth", "portions": 2}]}
    command = house.do("serve", body)
    assert house.balances(f"{command}/chicken-stock") == {
        "made_into": -500_000,
        f"served:{DINNER}": 500_000,
    }


def test_LG4_taking_a_service_back_forgets_what_was_served_otherwise(house):
    command = served(house, dishes=[{"dish": "rice-pudding", "portions": 2}])
    house.do("correct", {"command": command, "reason": "not yet"})
    assert house.row(ServingRow).served is None
    assert {(need.item, need.quantity) for need in house.needs()} == {
        ("whole-milk", 1_000_000),
        ("butter", 40_000),
    }
