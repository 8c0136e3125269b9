"""What the order desk does beside placing: free lines, amending, sending, answers, the budget."""

import pytest

from pantry.records.tables import (
    AnsweredLineRow,
    AskedForRow,
    BudgetRow,
    FreeLineRow,
    OrderLineRow,
    OrderRow,
    OrderSentRow,
    PackPriceRow,
    PackRow,
    SupplierAnswerRow,
)
from tests.commands.house import at
from tests.commands.larkfield import CHEF, MANAGER, PORTER

TUESDAY = "hill-dairy/2027-03-09"


def line(packs=2, item="Whole milk", pack="2 l bottle"):
    return {"item": item, "pack": pack, "packs": packs}


def answered(packs=None, **more):
    said = {"item": "Whole milk", "pack": "2 l bottle"} | more
    return said if packs is None else said | {"packs": packs}


def place(house, *lines, **more):
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": list(lines or [line()])}
    return house.do("place_order", body | more, person=CHEF)


def amend(*lines, **more):
    return {"order": TUESDAY, "lines": list(lines)} | more


def sent(**more):
    return {"order": TUESDAY, "how": "telephone", "to_whom": "the dairy office"} | more


def said(*lines, **more):
    return {"order": TUESDAY, "lines": list(lines)} | more


def ordered(house):
    return {each.item: each.packs for each in house.rows(OrderLineRow)}


# Free lines


def test_an_order_may_ask_in_words_for_what_is_no_item(house):
    place(house, free=[{"words": "goat curd", "amount": "3 small tubs"}])
    row = house.row(FreeLineRow)
    assert (row.purchase_order, row.number) == (TUESDAY, 1)
    assert (row.words, row.amount) == ("goat curd", "3 small tubs")


def test_an_order_may_be_of_free_lines_alone_and_is_received_once_the_driver_has_left(house):
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": []}
    house.do("place_order", body | {"free": [{"words": "goat curd"}]})
    assert house.row(OrderRow).state == "open"
    house.now = at(9)
    house.do("close_delivery", {"order": TUESDAY})
    assert house.row(OrderRow).state == "received"


def test_what_the_back_door_asked_for_is_seen_to_by_the_line_that_orders_it(house):
    asked = house.do("ask_for", {"words": "long matches"}, person=PORTER)
    placed = place(house, free=[{"words": "long matches", "asked": asked}])
    assert house.row(AskedForRow).closed_at is not None
    house.do("correct", {"command": placed, "reason": "too soon"}, person=CHEF)
    assert house.row(AskedForRow).closed_at is None


def test_free_lines_that_an_amendment_does_not_mention_stay(house):
    place(house, free=[{"words": "goat curd"}])
    house.do("amend_order", amend(line(1)))
    assert house.row(FreeLineRow).words == "goat curd"
    house.do("amend_order", amend(line(1), free=[]))
    assert house.rows(FreeLineRow) == []


# Amending


def test_PL2_an_order_is_amended_until_its_cut_off_and_not_a_second_later(house):
    place(house)
    house.now = at(8, 17)
    house.do("amend_order", amend(line(3)))
    house.now = at(8, 17).replace(second=1)
    problem = house.refuses("amend_order", amend(line(4)))
    assert problem.code == "cut_off_passed"
    assert "2027-03-08 17:00" in problem.detail
    assert "elephone" in problem.todo
    house.do("amend_order", amend(line(4), agreed=True))
    assert ordered(house) == {"whole-milk": 4}


def test_SY3_two_who_amend_the_same_order_do_not_overwrite_each_other(house):
    place(house)
    house.do("amend_order", amend(line(3)), base=1)
    answer = house.give("amend_order", amend(line(4)), base=1)
    assert answer.outcome == "conflict"
    assert answer.problem.stands.version == 2


def test_LG4_an_amendment_is_taken_back_whole(house):
    place(house, line(2), free=[{"words": "goat curd"}])
    change = house.do("amend_order", amend(line(1, "Butter", "250 g block"), free=[]))
    house.do("correct", {"command": change, "reason": "wrong order"})
    assert ordered(house) == {"whole-milk": 2}
    assert house.row(FreeLineRow).words == "goat curd"
    assert house.refuses("correct", {"command": change, "reason": "?"}).code == "reversed_already"


def test_LG4_what_was_done_last_is_taken_back_first(house):
    placed = place(house)
    change = house.do("amend_order", amend(line(1)))
    back = {"reason": "wrong order"}
    assert house.refuses("correct", {"command": placed} | back).code == "order_moved_on"
    house.do("correct", {"command": change} | back)
    house.do("correct", {"command": placed} | back)
    assert (house.row(OrderRow).state, house.row(OrderRow).reason) == ("cancelled", "taken back")


def test_LG4_nothing_is_taken_back_of_an_order_of_which_something_came(house):
    placed = place(house)
    house.now = at(9)
    house.receive("m", "whole-milk", "2 l", order=TUESDAY)
    assert house.refuses("correct", {"command": placed, "reason": "?"}).code == "order_moved_on"


def test_a_cancelled_order_is_open_again_where_that_is_taken_back(house):
    place(house)
    gone = house.do("cancel_order", {"order": TUESDAY, "reason": "no boat"})
    house.do("correct", {"command": gone, "reason": "it sails after all"})
    row = house.row(OrderRow)
    assert (row.state, row.reason) == ("open", None)


# Sending


def test_an_order_is_sent_once_as_it_stands(house):
    place(house)
    house.do("send_order", sent(words="to Moira"), person=MANAGER)
    row = house.row(OrderSentRow)
    assert (row.how, row.to_whom, row.words) == ("telephone", "the dairy office", "to Moira")
    assert (row.person, row.at) == (MANAGER, at(8))
    problem = house.refuses("send_order", sent())
    assert problem.code == "sent_already"
    assert MANAGER in problem.detail


def test_an_amended_order_is_sent_again_and_one_amended_back_is_not(house):
    place(house)
    house.do("send_order", sent())
    change = house.do("amend_order", amend(line(3)))
    again = house.do("send_order", sent(how="email"))
    back = {"reason": "not sent"}
    assert house.refuses("correct", {"command": change} | back).code == "order_moved_on"
    house.do("correct", {"command": again} | back)
    house.do("correct", {"command": change} | back)
    assert house.refuses("send_order", sent()).code == "sent_already"


def test_what_the_supplier_answered_does_not_make_it_unsent(house):
    place(house)
    house.do("send_order", sent())
    house.do("record_confirmation", said(answered(1)))
    assert house.refuses("send_order", sent()).code == "sent_already"


def test_only_an_open_order_is_sent_and_not_by_a_porter(house):
    place(house)
    assert house.refuses("send_order", sent(), person=PORTER).code == "role_lacking"
    house.do("cancel_order", {"order": TUESDAY, "reason": "no boat"})
    assert house.refuses("send_order", sent()).code == "order_state"


# What the supplier said


def test_a_line_confirmed_in_full_stays_as_it_is(house):
    place(house)
    house.do("record_confirmation", said(answered(), said_by="Moira"))
    row = house.row(AnsweredLineRow)
    assert (row.ordered, row.packs, row.price) == (2, 2, None)
    assert house.row(SupplierAnswerRow).said_by == "Moira"
    assert ordered(house) == {"whole-milk": 2}


def test_AL1_what_does_not_come_is_planned_for_anew_at_once(house):
    house.receive("m", "whole-milk", "1 l", {"kind": "use_by", "date": "2027-03-25"})
    place(house, line(1))
    house.menu("2027-03-10/dinner/family", "rice-pudding")
    assert house.promised("m") == {}
    house.do("record_confirmation", said(answered(0)))
    assert house.promised("m") == {"2027-03-10/dinner/family": 1_000_000}
    assert house.row(OrderRow).state == "cancelled"


def test_what_comes_instead_is_a_line_of_its_own(house):
    place(house, line(3))
    instead = {"item": "Butter", "pack": "250 g block", "packs": 2}
    house.do("record_confirmation", said(answered(1, instead=instead)))
    assert ordered(house) == {"whole-milk": 1, "butter": 2}


def test_MS1_another_price_is_the_packs_from_now_on_and_what_it_was_is_kept(house):
    place(house)
    dearer = answered(price={"minor": 245, "currency": "GBP"})
    command = house.do("record_confirmation", said(dearer))
    milk = next(row for row in house.rows(PackRow) if row.id == house.row(OrderLineRow).pack)
    change = house.row(PackPriceRow)
    assert (milk.price, change.price) == (245, 245)
    before = change.before
    house.do("correct", {"command": command, "reason": "misheard"})
    milk = next(row for row in house.rows(PackRow) if row.id == milk.id)
    assert milk.price == before
    assert house.rows(PackPriceRow) == []


def test_another_day_moves_the_delivery_and_keeps_its_time(house):
    place(house)
    house.do("record_confirmation", said(delivery="2027-03-11"))
    assert house.row(OrderRow).delivery_at == at(11, 6, 45)
    assert house.row(SupplierAnswerRow).moved_from == at(9, 6, 45)


def test_an_order_that_was_moved_has_no_cut_off_that_is_known(house):
    place(house)
    house.do("record_confirmation", said(delivery="2027-03-13"))
    assert house.refuses("amend_order", amend(line(3))).code == "cut_off_passed"
    house.do("amend_order", amend(line(3), agreed=True))


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (said(answered(3)), "more_than_ordered"),
        (said(answered(), answered()), "line_twice"),
        (said(answered(item="Butter", pack="250 g block")), "not_ordered"),
        (said(answered(price={"minor": 1, "currency": "EUR"})), "currency_foreign"),
        (said(delivery="soon"), "date_unreadable"),
        (said(delivery="2027-03-01"), "comes_too_early"),
        (said(answered()) | {"order": "?"}, "order_unknown"),
    ],
)
def test_what_cannot_have_been_said_is_refused_by_name(house, body, code):
    place(house)
    assert house.refuses("record_confirmation", body).code == code
    assert house.rows(SupplierAnswerRow) == []
    assert ordered(house) == {"whole-milk": 2}


# The budget


def test_the_weeks_budget_is_set_changed_and_taken_away(house):
    house.do("set_budget", {"amount": {"minor": 45_000, "currency": "GBP"}}, person=MANAGER)
    assert house.row(BudgetRow).amount == 45_000
    other = {"amount": {"minor": 30_000, "currency": "GBP"}}
    assert house.give("set_budget", other, person=MANAGER, base=0).outcome == "conflict"
    house.do("set_budget", {}, person=MANAGER, base=1)
    assert house.row(BudgetRow).amount is None


def test_only_the_manager_sets_the_budget_and_in_the_houses_money(house):
    assert house.refuses("set_budget", {}, person=CHEF).code == "role_lacking"
    foreign = {"amount": {"minor": 1, "currency": "EUR"}}
    assert house.refuses("set_budget", foreign, person=MANAGER).code == "currency_foreign"
