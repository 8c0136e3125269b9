"""What making something leaves beside it: bones, whites, peel (SL4, LG1, AL3)."""

from pantry.records.tables import BatchParentRow, ItemRow
from tests.commands.house import at, end_of, use_by


def batter(**more):
    body = {"recipe": "pancake-batter", "quantity": "1 l", "child": "b", "area": "Cold room"}
    return body | {"by_products": [by_product(**more)]}


def by_product(**more):
    return {"item": "rhubarb", "quantity": "200 g", "child": "p", "area": "Cold room"} | more


def stocked(house, milk=9):
    house.receive("m", "whole-milk", "2 l", use_by(milk))
    house.receive("f", "plain-flour", "1 kg")
    house.receive("e", "eggs", "12", use_by(20))


def test_LG1_a_by_product_is_a_batch_that_costs_nothing(house):
    stocked(house)
    house.do("make", batter())
    assert house.balances("p") == {"made_into": -200_000, "area:cold-room": 200_000}
    assert house.batch("p").cost == 0
    assert house.balances("m")["made_into"] == 500_000
    assert house.disagreements() == []


def test_SL4_it_lives_no_longer_than_what_it_came_of_nor_than_the_policy_lets_it(house):
    stocked(house)
    house.do("make", batter())
    assert house.batch("p").usable_until == end_of(9)
    house.do("make", batter(child="q", of="e") | {"child": "b2"})
    # 3 days with the day of making: `prepared.any` of the policy
    assert house.batch("q").usable_until == end_of(10)


def test_it_is_traced_to_what_it_came_of(house):
    stocked(house)
    house.do("make", batter(of="e"))
    assert [row.parent for row in house.rows(BatchParentRow, batch="p")] == ["e"]


def test_AL3_what_it_came_of_contains_it_may_contain(house):
    stocked(house)
    house.do("make", batter(of="e"))
    assert house.row(ItemRow, id="rhubarb").may_contain == '["eggs"]'


def test_LG1_what_did_not_go_in_leaves_nothing(house):
    stocked(house)
    house.receive("s", "salmon", "1 kg", use_by(12))
    assert house.keeps("make", batter(of="s")).code == "not_used_here"
    assert house.new_batches({"m", "f", "e", "s"}) == []


def test_LG4_taking_the_making_back_takes_the_by_product_back(house):
    stocked(house)
    command = house.do("make", batter())
    house.do("correct", {"command": command, "reason": "by mistake"})
    assert house.balances("p") == {}
    assert house.rows(BatchParentRow) == []


def test_SL4_of_what_is_past_its_day_it_goes_on_hold(house):
    stocked(house)
    house.now = at(10, 9)
    body = batter() | {"used": [{"batch": "m", "quantity": "500 ml"}]}
    house.do("make", body)
    assert house.balances("p")["hold:cold-room"] == 200_000
