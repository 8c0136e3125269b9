"""Goods in: accept, hold or refuse by line (SL2, SL5, MS1)."""

import pytest

from pantry.records.tables import BatchRow, ItemRow, OrderLineRow, OrderRow, ReceiptRow
from tests.commands.house import NO_MARK, at, best_before, end_of, use_by
from tests.commands.larkfield import CHEF, PORTER


def milk(**change):
    body = {
        "batch": "m1",
        "item": "Whole milk",
        "quantity": "2 l",
        "area": "Cold room",
        "date_mark": use_by(12),
        "verdict": "accept",
    }
    return body | change


def ordered(house, packs=3, pack="2 l bottle", day="2027-03-09"):
    lines = [{"item": "whole-milk", "pack": pack, "packs": packs}]
    house.do("place_order", {"supplier": "Hill Dairy", "delivery": day, "lines": lines})
    house.now = at(int(day[-2:]), 7)
    return f"hill-dairy/{day}"


def test_what_is_accepted_stands_in_its_area_and_is_available(house):
    house.do("receive", milk())
    assert house.balances("m1") == {"area:cold-room": 2_000_000, "supplier": -2_000_000}
    assert house.available("m1") == 2_000_000


def test_SL1_a_use_by_ends_with_its_day_in_the_house(house):
    house.do("receive", milk())
    row = house.batch("m1")
    assert (row.usable_until, row.good_until) == (end_of(12), None)


def test_SL2_a_best_before_is_quality_only(house):
    house.do("receive", milk(date_mark=best_before(12)))
    row = house.batch("m1")
    assert (row.usable_until, row.good_until) == (None, end_of(12))


@pytest.mark.parametrize("name", ["Whole milk", "whole-milk", "WHOLE  MILK"])
def test_an_item_is_named_by_name_or_id(house, name):
    house.do("receive", milk(item=name, area="cold-room"))
    assert house.batch("m1").item == "whole-milk"


def test_a_batch_is_found_by_its_label_too(house):
    house.do("receive", milk(label="W7K2P"))
    house.do("use", {"batch": "W7K2P", "quantity": "1 l"})
    assert house.available("m1") == 1_000_000


def test_a_label_is_made_where_none_is_given_and_is_nobody_elses(house):
    house.do("receive", milk())
    house.do("receive", milk(batch="m2"))
    labels = [house.batch("m1").label, house.batch("m2").label]
    assert len(set(labels)) == 2
    assert all(len(label) == 5 and not set("01OIL") & set(label) for label in labels)


def test_a_batch_id_or_label_that_is_taken_is_asked_about(house):
    house.do("receive", milk(label="AAAAA"))
    assert house.keeps("receive", milk()).code == "batch_taken"
    assert house.keeps("receive", milk(batch="m2", label="AAAAA")).code == "label_taken"
    assert house.available("m1") == 2_000_000


def test_what_is_refused_never_enters_stock(house):
    house.do("receive", milk(verdict="refuse", reason="blown"))
    assert house.rows(BatchRow) == []
    assert house.movements() == []
    receipt = house.row(ReceiptRow)
    assert (receipt.verdict, receipt.reason, receipt.quantity) == ("refuse", "blown", 2_000_000)


def test_what_is_held_at_the_door_is_on_hold_and_the_chef_is_asked(house):
    house.do("receive", milk(verdict="hold", reason="torn box"))
    assert house.balances("m1")["hold:cold-room"] == 2_000_000
    assert house.available("m1") == 0
    asked = house.question("on_hold")
    assert (asked.owner, asked.against) == ("chef", "torn box")


def test_SL5_goods_over_the_limit_are_on_hold_whoever_accepts_them(house):
    house.do("receive", milk(temperature_c="9.5"), person=CHEF)
    assert house.balances("m1")["hold:cold-room"] == 2_000_000
    assert "9.5 °C" in house.question("on_hold").against


@pytest.mark.parametrize("reading", ["4.5", 4.5, "40 °F"])
def test_SL5_goods_within_the_limit_go_in(house, reading):
    house.do("receive", milk(temperature_c=reading))
    assert "area:cold-room" in house.balances("m1")


def test_SL5_the_limit_is_that_of_the_food_where_the_policy_has_one(house):
    bones = milk(item="chicken-bones", quantity="1 kg", temperature_c="4.5")
    house.do("receive", bones)
    assert "hold:cold-room" in house.balances("m1")


def test_SL2_goods_past_their_use_by_are_on_hold(house):
    house.do("receive", milk(date_mark={"kind": "use_by", "date": "2027-03-07"}))
    assert house.balances("m1")["hold:cold-room"] == 2_000_000
    assert "use-by has passed" in house.question("on_hold").against


def test_a_porter_holds_what_nobody_ordered(house):
    house.do("receive", milk(), person=PORTER)
    assert house.balances("m1")["hold:cold-room"] == 2_000_000
    assert house.question("on_hold").against == "Nobody ordered it."


def test_a_porter_accepts_what_was_ordered_and_the_line_is_counted(house):
    order = ordered(house, packs=1)
    house.do("receive", milk(date_mark=use_by(16), supplier="Hill Dairy"), person=PORTER)
    assert "area:cold-room" in house.balances("m1")
    line = house.row(OrderLineRow)
    assert (line.received, line.closed) == (2_000_000, True)
    assert house.row(OrderRow, id=order).state == "received"
    assert house.row(ReceiptRow).purchase_order == order


def test_a_short_delivery_leaves_the_line_and_the_order_open(house):
    order = ordered(house, packs=3)
    house.do("receive", milk(order=order))
    line = house.row(OrderLineRow)
    assert (line.received, line.quantity, line.closed) == (2_000_000, 6_000_000, False)
    assert house.row(OrderRow).state == "open"


def test_a_line_may_come_as_several_batches(house):
    order = ordered(house, packs=2)
    house.do("receive", milk(order=order))
    house.do("receive", milk(order=order, batch="m2", date_mark=use_by(14)))
    assert house.row(OrderLineRow).closed


def test_what_comes_over_is_taken_in_and_closes_the_line(house):
    order = ordered(house, packs=1)
    house.do("receive", milk(order=order, quantity="4 l"))
    line = house.row(OrderLineRow)
    assert (line.received, line.closed) == (4_000_000, True)
    assert house.available("m1") == 4_000_000


def test_a_second_delivery_of_a_closed_line_is_one_that_nobody_ordered(house):
    order = ordered(house, packs=1)
    house.do("receive", milk(order=order, date_mark=use_by(16)), person=PORTER)
    house.do("receive", milk(order=order, batch="m2", date_mark=use_by(16)), person=PORTER)
    assert "hold:cold-room" in house.balances("m2")


def test_an_order_that_does_not_exist_is_no_order(house):
    house.do("receive", milk(order="hill-dairy/2027-01-01"), person=PORTER)
    assert "hold:cold-room" in house.balances("m1")


def test_of_several_open_orders_the_one_due_nearest_is_answered(house):
    lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 1}]
    for day in ("2027-03-09", "2027-03-11"):
        house.do("place_order", {"supplier": "Hill Dairy", "delivery": day, "lines": lines})
    house.now = at(11, 7)
    house.do("receive", milk(supplier="Hill Dairy", date_mark=use_by(19)))
    assert house.row(ReceiptRow).purchase_order == "hill-dairy/2027-03-11"


def test_a_pack_that_is_named_answers_the_line_of_that_pack(house):
    """Two packs of one item on one order: the crate came, and the bottle is still awaited."""
    packs = ("2 l bottle", "crate of 6 x 2 l")
    lines = [{"item": "whole-milk", "pack": pack, "packs": 1} for pack in packs]
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines}
    house.do("place_order", body)
    crate = milk(quantity="12 l", pack="crate of 6 x 2 l", packs=1, date_mark=use_by(16))
    house.do("receive", crate | {"order": "hill-dairy/2027-03-09"})
    assert house.row(OrderLineRow, pack="hill-dairy/whole-milk/crate-of-6-x-2-l").closed
    assert house.row(OrderLineRow, pack="hill-dairy/whole-milk/2-l-bottle").received == 0


def test_a_porter_holds_what_is_dated_shorter_than_was_agreed(house):
    ordered(house, packs=1)
    house.do("receive", milk(date_mark=use_by(14)), person=PORTER)
    assert "2027-03-15" in house.question("on_hold").against
    assert "hold:cold-room" in house.balances("m1")


def test_a_chef_may_accept_what_is_dated_short(house):
    ordered(house, packs=1)
    house.do("receive", milk(date_mark=use_by(14)), person=CHEF)
    assert "area:cold-room" in house.balances("m1")


def test_a_shop_that_is_on_no_list_is_written_down_as_named(house):
    house.do("receive", milk(supplier="Corner shop"))
    assert house.batch("m1").supplier == "Corner shop"


def test_MS1_the_cost_follows_from_the_price_of_the_pack(house):
    house.do("receive", milk(supplier="Hill Dairy", pack="crate of 6 x 2 l", quantity="24 l"))
    row = house.batch("m1")
    assert (row.cost, row.sealed_quantity) == (2400, 2_000_000)


@pytest.mark.parametrize(
    ("quantity", "cost"),
    [("1 l", 108), ("3 l", 322), ("7 l", 752), ("5 l", 538)],
)
def test_MS1_a_cost_between_two_units_is_rounded_half_to_the_even(house, quantity, cost):
    # 215 for 2 l: 107.5, 322.5, 752.5 and 537.5
    house.do("receive", milk(pack="2 l bottle", quantity=quantity))
    assert house.batch("m1").cost == cost


def test_MS1_a_cost_that_is_given_is_the_cost(house):
    house.do("receive", milk(cost={"minor": 199, "currency": "GBP"}))
    assert house.batch("m1").cost == 199


def test_the_pack_of_the_supplier_goes_before_that_of_another(house):
    house.do("receive", milk(supplier="Hill Dairy"))
    assert house.batch("m1").cost == 215


def test_what_is_sold_in_no_pack_is_one_container_and_costs_nothing(house):
    house.do("receive", milk(item="salmon", quantity="1.2 kg"))
    row = house.batch("m1")
    assert (row.sealed_quantity, row.cost) == (None, 0)


def test_SL3_a_use_by_that_goes_into_the_freezer_is_frozen_from_then_on(house):
    house.do("receive", milk(item="salmon", quantity="1 kg", area="Freezer"))
    row = house.batch("m1")
    assert (row.state, row.usable_until, row.left) == ("frozen", None, "P5D")
    assert row.good_until == at(8).replace(month=6, day=5, hour=22, minute=59, second=59)


def test_SL3_a_use_by_that_has_passed_is_not_frozen_but_held(house):
    past = {"kind": "use_by", "date": "2027-03-07"}
    house.do("receive", milk(item="salmon", quantity="1 kg", area="Freezer", date_mark=past))
    assert "hold:freezer" in house.balances("m1")


def test_SL3_what_was_bought_frozen_keeps_its_mark_in_the_freezer(house):
    frozen = milk(item="salmon", quantity="1 kg", area="Freezer", date_mark=best_before(30))
    house.do("receive", frozen)
    row = house.batch("m1")
    assert (row.state, row.good_until, row.usable_until) == (
        "frozen",
        end_of(30).replace(hour=22),
        None,
    )


def test_a_recalled_lot_that_comes_again_is_on_hold(house):
    house.do("receive", milk(lot="C0611"))
    house.do("recall", {"lot": "C0611", "reason": "glass"})
    house.do("receive", milk(batch="m2", lot="C0611"))
    assert "hold:cold-room" in house.balances("m2")


def test_MS1_pieces_are_kept_beside_the_weight(house):
    quantity = {"value": "3.46", "unit": "kg", "pieces": "2"}
    house.do("receive", milk(item="salmon", quantity=quantity))
    assert (house.batch("m1").quantity, house.batch("m1").pieces) == (3_460_000, 2_000)
    house.do("use", {"batch": "m1", "quantity": {"value": "1.7", "unit": "kg", "pieces": "1"}})
    row = next(row for row in house.balance_rows("m1") if row.account == "area:cold-room")
    assert (row.quantity, row.pieces) == (1_760_000, 1_000)


def test_MS3_what_nobody_counts_is_taken_in_and_moves_nothing(house):
    house.do("set_level", {"item": "salt", "level": "out"})
    house.do("receive", milk(item="Salt", quantity="a handful", area="Pantry", date_mark=NO_MARK))
    assert house.movements() == []
    assert house.row(ItemRow, id="salt").level == "plenty"
    assert house.batch("m1").quantity == 0
