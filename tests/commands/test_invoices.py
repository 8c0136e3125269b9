"""Invoices: recorded as printed, settled difference by difference, withdrawn whole."""

import pytest

from pantry.records.database import reading, writing
from pantry.records.rows import add, change
from pantry.records.tables import (
    CreditRow,
    InvoiceOrderRow,
    InvoiceRow,
    PackRow,
    SupplierRow,
)
from pantry.reports.credits_owed import credits_owed
from pantry.reports.invoices import invoices, not_billed, owed
from pantry.reports.view import view
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, ID, MANAGER, PORTER

ORDER = "hill-dairy/2027-03-09"
BUTTER = f"{ORDER}|hill-dairy/butter/250-g-block"


def gbp(minor):
    return {"minor": minor, "currency": "GBP"}


def butter(packs, minor):
    return {"item": "Butter", "pack": "250 g block", "packs": packs, "amount": gbp(minor)}


def milk(packs, minor):
    return {"item": "Whole milk", "pack": "2 l bottle", "packs": packs, "amount": gbp(minor)}


def invoice(*lines, total=None, number="4711", **more):
    comes_to = sum(line["amount"]["minor"] for line in lines)
    comes_to -= sum(each["amount"]["minor"] for each in more.get("credits", ()))
    body = {"supplier": "Hill Dairy", "number": number, "date": "2027-03-09", "lines": list(lines)}
    return body | {"total": gbp(comes_to if total is None else total)} | more


def record(house, *lines, **more):
    return house.do("record_invoice", invoice(*lines, **more), person=MANAGER)


def told(house, report=invoices):
    with reading(house.engine) as connection:
        return report(view(connection, ID, house.now))


def only(house, number="4711"):
    (row,) = [row for row in told(house) if row["number"] == number]
    return row


def kinds(row):
    return [(each["kind"], each["amount"]["minor"]) for each in row["differences"]]


@pytest.fixture
def ordered(house):
    """Two blocks of butter at 2.30 and a bottle of milk at 2.10 come on Tuesday; it is Tuesday."""
    lines = [
        {"item": "butter", "pack": "250 g block", "packs": 2},
        {"item": "whole milk", "pack": "2 l bottle", "packs": 1},
    ]
    house.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    house.now = at(9)
    return house


def receive(house, *, blocks=2, milk="2 l"):
    if blocks:
        quantity = f"{blocks * 250} g"
        house.receive("b", "butter", quantity, use_by(19), order=ORDER, person=PORTER)
    house.receive("m", "whole-milk", milk, use_by(15), order=ORDER, person=PORTER)
    house.do("close_delivery", {"order": ORDER}, person=PORTER)


def prices(house):
    """What a block of butter and a bottle of milk cost, in pence."""
    receiving = {row["item"]: row["price"]["minor"] for row in told(house, not_billed)[0]["lines"]}
    return receiving["Butter"], receiving["Whole milk"]


def test_an_invoice_for_what_came_agrees_and_its_order_is_billed(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    row = only(ordered)
    assert (row["state"], row["differences"], row["orders"]) == ("agrees", [], [ORDER])
    assert row["total"] == row["should_be"] == gbp(2 * block + bottle)
    assert told(ordered, not_billed) == []


def test_what_came_short_and_what_is_dearer_are_told_with_where_to_look_them_up(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    row = only(ordered)
    assert row["state"] == "differs"
    assert kinds(row) == [("more_than_received", block), ("price", 30)]
    short, dearer = row["differences"]
    assert short["orders"] == [ORDER]
    assert short["quantity"] == {"value": "250", "unit": "g"}
    assert short["credit"]["credit"] == BUTTER
    assert [each["verdict"] for each in short["receipts"]] == ["accept"]
    assert (dearer["price"], dearer["price_from"]) == (gbp(bottle), "ordered")
    assert (dearer["billed"], dearer["held_against"]) == (gbp(bottle + 30), gbp(bottle))
    assert row["should_be"] == gbp(block + bottle)


def test_the_price_that_the_supplier_confirmed_counts_before_that_of_the_order(ordered):
    said = {"item": "Whole milk", "pack": "2 l bottle", "price": gbp(245)}
    ordered.do("record_confirmation", {"order": ORDER, "lines": [said]}, person=CHEF)
    receive(ordered)
    block, bottle = prices(ordered)
    assert bottle == 245
    record(ordered, butter(2, 2 * block), milk(1, 250))
    (dearer,) = only(ordered)["differences"]
    assert (dearer["price"], dearer["price_from"]) == (gbp(245), "confirmed")


def test_a_price_that_changed_after_the_order_does_not_change_what_was_agreed(ordered):
    lines = [{"item": "butter", "pack": "250 g block", "packs": 1}]
    other = {"supplier": "Hill Dairy", "delivery": "2027-03-10"}
    ordered.do("place_order", other | {"lines": lines})
    said = {"item": "Butter", "pack": "250 g block", "price": gbp(299)}
    ordered.do("record_confirmation", {"order": "hill-dairy/2027-03-10", "lines": [said]})
    receive(ordered)
    block, bottle = prices(ordered)
    assert block != 299
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    assert only(ordered)["state"] == "agrees"


def test_what_came_later_after_all_is_no_difference_any_more(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    ordered.receive("late", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    assert only(ordered)["state"] == "agrees"
    assert told(ordered, credits_owed) == []


def test_no_credit_is_owed_for_what_did_not_come_and_is_not_billed(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    assert [row["value"]["minor"] for row in told(ordered, credits_owed)] == [block]
    first = record(ordered, butter(1, block), milk(1, bottle))
    assert only(ordered)["state"] == "agrees"
    assert told(ordered, credits_owed) == []
    ordered.do("withdraw_invoice", {"invoice": first, "reason": "another house's"}, person=CHEF)
    assert [row["value"]["minor"] for row in told(ordered, credits_owed)] == [block]


def test_one_number_of_a_supplier_is_recorded_once_and_the_refusal_says_where(ordered):
    receive(ordered)
    record(ordered, butter(2, 460))
    problem = ordered.refuses("record_invoice", invoice(butter(1, 230)), person=MANAGER)
    assert problem.code == "invoice_recorded"
    assert "dated 2027-03-09" in problem.detail
    assert MANAGER in problem.detail


def test_lines_that_do_not_come_to_the_total_are_refused_with_both(ordered):
    problem = ordered.refuses("record_invoice", invoice(butter(2, 460), total=461), person=MANAGER)
    assert problem.code == "invoice_sum"
    assert "460" in problem.detail
    assert "461" in problem.detail
    assert ordered.rows(InvoiceRow) == []


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ({"item": "Butter", "amount": gbp(1)}, "line_unclear"),
        ({"item": "Butter", "text": "butter", "amount": gbp(1)}, "line_unclear"),
        ({"amount": gbp(1)}, "line_unclear"),
        ({"item": "?", "pack": "x", "packs": 1, "amount": gbp(1)}, "item_unknown"),
        ({"item": "Butter", "pack": "barrel", "packs": 1, "amount": gbp(1)}, "pack_unknown"),
        ({"text": "crate", "amount": {"minor": 1, "currency": "EUR"}}, "currency_foreign"),
    ],
)
def test_a_line_that_cannot_be_read_is_refused(ordered, line, code):
    problem = ordered.refuses("record_invoice", invoice(line), person=MANAGER)
    assert problem.code == code
    assert problem.field.startswith("body.lines[0]")


def test_orders_and_credits_of_another_supplier_are_refused(ordered):
    receive(ordered, blocks=1)
    body = invoice({"text": "bones", "amount": gbp(500)}) | {"supplier": "Bruns Butcher"}
    wrong = ordered.refuses("record_invoice", body | {"orders": [ORDER]}, person=MANAGER)
    assert (wrong.code, wrong.field) == ("of_another_supplier", "body.orders")
    taken = {"credits": [{"credit": BUTTER, "amount": gbp(100)}], "total": gbp(400)}
    wrong = ordered.refuses("record_invoice", body | taken, person=MANAGER)
    assert (wrong.code, wrong.field) == ("of_another_supplier", "body.credits[0].credit")


def test_a_porter_records_no_invoice(ordered):
    assert ordered.refuses("record_invoice", invoice(butter(1, 230)), person=PORTER).code == (
        "role_lacking"
    )


def test_a_charge_is_held_against_the_suppliers_terms(ordered):
    with writing(ordered.engine) as connection:
        change(connection, SupplierRow, {"house": ID, "id": "hill-dairy"}, charge=400)
    receive(ordered)
    block, bottle = prices(ordered)
    van = {"text": "Delivery", "charge_for": "delivery", "amount": gbp(550)}
    record(ordered, butter(2, 2 * block), milk(1, bottle), van)
    assert kinds(only(ordered)) == [("charge", 150)]


def settle(house, row, agreed, *keys, **more):
    chosen = keys or [each["difference"] for each in row["differences"]]
    answers = [{"difference": key, "agreed": agreed} for key in chosen]
    body = {"invoice": row["invoice"], "differences": answers}
    return house.do("settle_invoice", body, person=MANAGER, **more)


def test_a_credit_that_is_asked_for_stands_among_the_credits_and_closes_the_difference(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    settle(ordered, only(ordered), "credit")
    assert only(ordered)["state"] == "settled"
    rows = {row["words"]: row["value"]["minor"] for row in told(ordered, credits_owed)}
    assert rows == {None: block, "Whole milk was billed dearer than agreed": 30}


def test_what_is_paid_as_it_is_is_owed_no_more(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    settle(ordered, only(ordered), "paid")
    assert only(ordered)["state"] == "settled"
    assert told(ordered, credits_owed) == []


def test_the_last_answer_counts(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    settle(ordered, only(ordered), "credit")
    settle(ordered, only(ordered), "paid")
    assert ordered.rows(CreditRow) == []
    assert only(ordered)["differences"][0]["agreed"] == "paid"


def test_an_answer_to_a_difference_that_has_changed_since_does_not_count(ordered):
    receive(ordered, blocks=0)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    settle(ordered, only(ordered), "paid")
    ordered.receive("late", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    assert only(ordered)["state"] == "differs"


def test_a_credit_is_asked_for_before_the_driver_has_left_and_is_not_owed_twice(ordered):
    ordered.receive("m", "whole-milk", "2 l", use_by(15), order=ORDER, person=PORTER)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle), orders=[ORDER])
    settle(ordered, only(ordered), "credit")
    ordered.do("close_delivery", {"order": ORDER}, person=PORTER)
    assert [row.id for row in ordered.rows(CreditRow)] == [BUTTER]
    assert [row["value"]["minor"] for row in told(ordered, credits_owed)] == [2 * block]


def test_no_credit_is_asked_for_what_was_billed_too_low(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block - 10), milk(1, bottle))
    row = only(ordered)
    answers = [{"difference": row["differences"][0]["difference"], "agreed": "credit"}]
    body = {"invoice": row["invoice"], "differences": answers}
    assert ordered.refuses("settle_invoice", body, person=MANAGER).code == "nothing_to_credit"


def test_a_difference_that_is_not_there_is_refused(ordered):
    receive(ordered)
    id_ = record(ordered, butter(2, 460))
    body = {"invoice": id_, "differences": [{"difference": "price:9", "agreed": "paid"}]}
    problem = ordered.refuses("settle_invoice", body, person=MANAGER)
    assert (problem.code, problem.value) == ("difference_unknown", "price:9")
    unknown = ordered.refuses("settle_invoice", body | {"invoice": "?"}, person=MANAGER)
    assert unknown.code == "invoice_unknown"


def test_SY3_two_who_settle_the_same_invoice_do_not_overwrite_each_other(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    row = only(ordered)
    settle(ordered, row, "paid", base=row["version"])
    answers = [{"difference": row["differences"][0]["difference"], "agreed": "credit"}]
    body = {"invoice": row["invoice"], "differences": answers}
    again = ordered.give("settle_invoice", body, person=MANAGER, base=row["version"])
    assert again.outcome == "conflict"


def next_week(house):
    """Another delivery of the dairy, a day later: two bottles of milk."""
    lines = [{"item": "whole milk", "pack": "2 l bottle", "packs": 2}]
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-10", "lines": lines}
    house.do("place_order", body | {"agreed": True}, person=CHEF)
    house.now = at(10)
    of = {"order": "hill-dairy/2027-03-10", "person": PORTER}
    house.receive("m2", "whole-milk", "4 l", use_by(16), **of)


def test_a_credit_that_was_asked_for_and_is_not_taken_off_the_next_invoice_is_told_there(ordered):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    next_week(ordered)
    record(ordered, milk(2, 2 * bottle), number="4712", date="2027-03-10")
    assert only(ordered, "4712")["state"] == "agrees"  # the first one is still open, and tells it
    settle(ordered, only(ordered), "credit")
    assert kinds(only(ordered, "4712")) == [("credit_left", block)]
    record(ordered, {"text": "crate", "amount": gbp(1)}, number="4713", date="2027-03-10")
    assert kinds(only(ordered, "4713")) == [("in_words", 1)]


def test_a_credit_that_an_invoice_takes_off_is_recorded_by_it_and_open_again_once_withdrawn(
    ordered,
):
    receive(ordered, blocks=1)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    settle(ordered, only(ordered), "credit")
    next_week(ordered)
    taken_off = [{"credit": BUTTER, "amount": gbp(block)}]
    more = {"number": "4712", "date": "2027-03-10", "credits": taken_off}
    second = record(ordered, milk(2, 2 * bottle), **more)
    assert only(ordered, "4712")["state"] == "agrees"
    credit = ordered.row(CreditRow)
    assert (credit.amount, credit.note) == (block, "4712")
    assert told(ordered, owed) == []
    body = invoice(milk(2, 2 * bottle), **(more | {"number": "4713"}))
    assert ordered.refuses("record_invoice", body, person=MANAGER).code == "credit_recorded"
    ordered.do("withdraw_invoice", {"invoice": second, "reason": "typed twice"}, person=MANAGER)
    assert ordered.row(CreditRow).settled_at is None
    assert [row["credit"] for row in told(ordered, owed)] == [BUTTER]


def test_the_same_credit_is_not_taken_off_twice(ordered):
    receive(ordered, blocks=1)
    twice = [{"credit": BUTTER, "amount": gbp(1)}, {"credit": BUTTER, "amount": gbp(2)}]
    body = invoice(butter(1, 230), credits=twice)
    assert ordered.refuses("record_invoice", body, person=MANAGER).code == "credit_twice"
    assert ordered.rows(InvoiceRow) == []


def test_LG4_a_withdrawn_invoice_leaves_its_number_its_orders_and_no_credit(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    first = record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    settle(ordered, only(ordered), "credit")
    ordered.do("withdraw_invoice", {"invoice": first, "reason": "misread"}, person=MANAGER)
    assert told(ordered) == []
    assert ordered.rows(CreditRow) == []
    assert [row["order"] for row in told(ordered, not_billed)] == [ORDER]
    again = ordered.refuses("withdraw_invoice", {"invoice": first, "reason": "-"}, person=MANAGER)
    assert again.code == "invoice_withdrawn"
    record(ordered, butter(2, 2 * block), milk(1, bottle))
    assert only(ordered)["state"] == "agrees"


def test_an_invoice_whose_credit_is_recorded_is_not_withdrawn(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    first = record(ordered, butter(2, 2 * block), milk(1, bottle + 30))
    settle(ordered, only(ordered), "credit")
    (row,) = told(ordered, credits_owed)
    note = {"credit": row["credit"], "amount": gbp(30), "note": "CN 9"}
    ordered.do("record_credit", note, person=MANAGER)
    problem = ordered.refuses("withdraw_invoice", {"invoice": first, "reason": "?"}, person=CHEF)
    assert problem.code == "invoice_credited"
    assert "CN 9" in problem.detail


def test_a_second_invoice_for_the_same_order_bills_what_the_first_did_not(ordered):
    receive(ordered)
    block, bottle = prices(ordered)
    record(ordered, butter(2, 2 * block), orders=[ORDER])
    assert kinds(only(ordered)) == [("not_billed", -bottle)]
    record(ordered, milk(1, bottle), number="4712", orders=[ORDER])
    assert only(ordered)["state"] == only(ordered, "4712")["state"] == "agrees"
    record(ordered, milk(1, bottle), number="4713", orders=[ORDER])
    assert kinds(only(ordered, "4713")) == [("not_received", bottle)]


def test_an_invoice_is_for_what_came_by_its_date_unless_it_says_otherwise(ordered):
    receive(ordered)
    next_week(ordered)
    record(ordered, butter(2, 460))
    assert [row.purchase_order for row in ordered.rows(InvoiceOrderRow)] == [ORDER]


def test_what_came_without_an_order_may_be_billed_and_counts_once(ordered):
    ordered.receive("b", "butter", "250 g", use_by(19), supplier="Hill Dairy", order="none")
    (row,) = told(ordered, not_billed)
    assert row["order"] is None
    block = row["lines"][0]["price"]["minor"]
    record(ordered, butter(1, block), orders=[])
    assert only(ordered)["state"] == "agrees"
    assert told(ordered, not_billed) == []


def test_MS3_what_nobody_counts_came_whole_or_not_at_all(ordered):
    with writing(ordered.engine) as connection:
        of = {"house": ID, "id": "hill-dairy/salt/tub", "supplier": "hill-dairy", "item": "salt"}
        sizes = {"quantity": 0, "sealed_quantity": 0, "price": 90}
        add(connection, PackRow(**of, name="tub", **sizes))
    lines = [{"item": "salt", "pack": "tub", "packs": 2}]
    ordered.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-10", "lines": lines})
    ordered.now = at(10)
    order = "hill-dairy/2027-03-10"
    salt = {"item": "Salt", "pack": "tub", "packs": 2, "amount": gbp(180)}
    record(ordered, salt, orders=[order])
    assert kinds(only(ordered)) == [("not_received", 180)]
    ordered.receive("s", "salt", "2 each", order=order, packs=2, person=PORTER)
    assert only(ordered)["state"] == "agrees"
