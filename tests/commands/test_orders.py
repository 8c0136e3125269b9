"""Placing, amending and cancelling orders, to the clock (PL2, PL3, SL1)."""

import pytest

from pantry.records.tables import OrderLineRow, OrderRow
from tests.commands.house import at
from tests.commands.larkfield import CHEF, MANAGER, PORTER

TUESDAY = "hill-dairy/2027-03-09"


def line(packs=2, item="Whole milk", pack="2 l bottle"):
    return {"item": item, "pack": pack, "packs": packs}


def order(*lines, **more):
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": list(lines or [line()])}
    return body | more


def test_an_order_is_for_one_delivery_and_counts_in_base_units(house):
    house.do("place_order", order(line(2), line(1, "butter", "250 g block")), person=CHEF)
    row = house.row(OrderRow)
    assert (row.id, row.state, row.delivery_at) == (TUESDAY, "open", at(9, 6, 45))
    lines = {each.item: (each.packs, each.quantity) for each in house.rows(OrderLineRow)}
    assert lines == {"whole-milk": (2, 4_000_000), "butter": (1, 250_000)}


def test_the_same_pack_twice_is_one_line(house):
    house.do("place_order", order(line(2), line(3)))
    assert house.row(OrderLineRow).packs == 5


def test_a_second_order_for_the_same_delivery_has_a_number(house):
    house.do("place_order", order())
    house.do("place_order", order())
    assert [row.id for row in house.rows(OrderRow)] == [TUESDAY, f"{TUESDAY}/2"]


def test_a_delivery_is_named_by_its_date_or_its_instant(house):
    house.do("place_order", order(delivery="2027-03-09T06:45:00Z"))
    assert house.row(OrderRow).delivery_at == at(9, 6, 45)


def test_PL2_an_order_goes_out_until_its_cut_off_and_not_a_second_later(house):
    house.now = at(8, 17)
    house.do("place_order", order())
    house.now = at(8, 17).replace(second=1)
    problem = house.refuses("place_order", order())
    assert problem.code == "cut_off_passed"
    assert "2027-03-08 17:00" in problem.detail


def test_PL2_after_the_cut_off_it_goes_out_where_the_supplier_agreed(house):
    house.now = at(8, 20)
    house.do("place_order", order(agreed=True))


def test_PL2_one_that_waited_in_an_outbox_over_the_cut_off_has_reached_nobody(house):
    house.do("enrol_device", {"device": "phone", "name": "Phone"}, person=MANAGER)
    house.now = at(8, 20)
    late = house.give("place_order", order(), at=at(8, 12), device="phone", n=1, base=1)
    assert (late.outcome, late.problem.code) == ("refused", "cut_off_passed")


def test_SL1_a_cut_off_is_wall_time_of_the_house_over_a_clock_change(house):
    house.now = at(29, 16)
    assert house.give("place_order", order(delivery="2027-03-30")).outcome == "applied"
    house.now = at(29, 16).replace(second=1)
    assert house.refuses("place_order", order(delivery="2027-03-30")).code == "cut_off_passed"


def test_a_date_without_a_delivery_is_refused_with_the_next_ones(house):
    problem = house.refuses("place_order", order(delivery="2027-03-13"))
    assert problem.code == "no_delivery_then"
    assert "2027-03-15" in problem.todo


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (order(supplier="?"), "supplier_unknown"),
        (order(delivery="soon"), "date_unreadable"),
        (order(delivery="2027-03-09T06:45"), "instant_unreadable"),
        (order(line(item="?")), "item_unknown"),
        (order(line(pack="tanker")), "pack_unknown"),
        (order(line(0)), "packs_nothing"),
        (order(line(-1)), "body_unreadable"),
        (order(lines=[]), "lines_missing"),
    ],
)
def test_what_cannot_be_ordered_is_refused_by_name(house, body, code):
    assert house.refuses("place_order", body).code == code
    assert house.rows(OrderRow) == []


def test_a_porter_does_not_order(house):
    assert house.refuses("place_order", order(), person=PORTER).code == "role_lacking"


def test_an_open_order_is_amended(house):
    house.do("place_order", order())
    house.do(
        "amend_order", {"order": TUESDAY, "lines": [line(1), line(2, "butter", "250 g block")]}
    )
    lines = {each.item: each.packs for each in house.rows(OrderLineRow)}
    assert lines == {"whole-milk": 1, "butter": 2}
    assert house.row(OrderRow).version == 2


def test_what_came_of_an_amended_line_still_counts_and_may_close_the_order(house):
    house.do("place_order", order(line(3)))
    house.now = at(9)
    house.receive("m", "whole-milk", "2 l", order=TUESDAY)
    house.do("amend_order", {"order": TUESDAY, "lines": [line(1)], "agreed": True})
    assert house.row(OrderLineRow).closed
    assert house.row(OrderRow).state == "received"


def test_a_cancelled_order_is_not_awaited(house):
    house.receive("m", "whole-milk", "1 l", {"kind": "use_by", "date": "2027-03-25"})
    house.do("place_order", order(line(1)))
    house.menu("2027-03-10/dinner/family", "rice-pudding")
    assert house.promised("m") == {}
    house.do("cancel_order", {"order": TUESDAY, "reason": "no boat"})
    assert house.promised("m") == {"2027-03-10/dinner/family": 1_000_000}
    row = house.row(OrderRow)
    assert (row.state, row.reason) == ("cancelled", "no boat")


def test_what_comes_of_a_cancelled_order_was_ordered_by_nobody(house):
    house.do("place_order", order(line(1)))
    house.do("cancel_order", {"order": TUESDAY, "reason": "no boat"})
    house.now = at(9)
    house.receive("m", "whole-milk", "2 l", order=TUESDAY, person=PORTER)
    assert "hold:cold-room" in house.balances("m")


def test_a_short_delivery_is_not_waited_for(house):
    house.do("place_order", order(line(1)))
    house.receive("m", "whole-milk", "1 l", {"kind": "use_by", "date": "2027-03-25"})
    house.menu("2027-03-12/dinner/family", "rice-pudding")
    assert house.promised("m") == {}
    house.now = at(10)
    house.do("use", {"batch": "m", "quantity": "1 ml"})
    assert house.promised("m") == {"2027-03-12/dinner/family": 999_000}


def test_only_an_open_order_is_amended_or_cancelled(house):
    house.do("place_order", order())
    house.do("cancel_order", {"order": TUESDAY, "reason": "?"})
    amend = {"order": TUESDAY, "lines": [line()]}
    assert house.refuses("amend_order", amend).code == "order_state"
    assert house.refuses("cancel_order", {"order": TUESDAY, "reason": "?"}).code == "order_state"
    assert house.refuses("amend_order", amend | {"order": "?"}).code == "order_unknown"
