"""What the order desk is told: orders as they stand, prices, the week's budget."""

import pytest

from pantry.reports.budget import budget, monday
from pantry.reports.expected import expected
from pantry.reports.order_text import free_from
from pantry.reports.orders import orders
from pantry.reports.prices import dearer_permille, prices
from tests.commands.house import at
from tests.commands.larkfield import CHEF, MANAGER
from tests.reports.asking import told

ORDER = "hill-dairy/2027-03-09"
MILK = {"item": "Whole milk", "pack": "2 l bottle"}
BUTTER = {"item": "butter", "pack": "250 g block"}


def place(lodge, packs=2, delivery="2027-03-09", **more):
    lines = [MILK | {"packs": packs}]
    body = {"supplier": "Hill Dairy", "delivery": delivery, "lines": lines}
    return lodge.do("place_order", body | more)


def price_of(lodge, item):
    return next(row["price"]["minor"] for row in told(lodge, prices) if row["item_id"] == item)


def of_week(lodge, week):
    return next(row for row in told(lodge, budget) if row["week"] == week)


def test_an_order_is_told_with_its_cut_off_its_lines_and_what_it_costs(lodge):
    place(lodge, free=[{"words": "goat curd", "amount": "3 tubs"}])
    (row,) = told(lodge, orders)
    assert (row["order"], row["state"], row["cutoff"]) == (ORDER, "open", "2027-03-08T17:00:00Z")
    (line,) = row["lines"]
    assert line["cost"]["minor"] == 2 * price_of(lodge, "whole-milk") == row["goods"]["minor"]
    assert row["free"] == [{"words": "goat curd", "amount": "3 tubs", "asked": None}]


@pytest.mark.parametrize(
    ("agreed", "asked"),
    [
        (None, "without asking us first: its allergens may differ."),
        ("ask_first", "without asking us first: its allergens may differ."),
        ("never", "as agreed, it goes back with the driver."),
        ("allowed", "Say on the delivery note what it replaces: its allergens may differ"),
    ],
)
def test_AL3_every_order_says_what_may_be_sent_in_place_of_what_is_ordered(lodge, agreed, asked):
    lodge.do("set_terms", {"supplier": "hill-dairy", "substitution": agreed}, person=MANAGER)
    place(lodge)
    (row,) = told(lodge, orders)
    assert row["substitution"] == agreed
    assert asked in row["text"]


def test_it_says_how_it_was_sent_and_that_it_was_changed_since(lodge):
    place(lodge)
    lodge.do("send_order", {"order": ORDER, "how": "telephone", "to_whom": "the office"})
    (row,) = told(lodge, orders)
    (sent,) = row["sent"]
    assert (sent["to_whom"], sent["person"], sent["stands"]) == ("the office", CHEF, True)
    lodge.do("amend_order", {"order": ORDER, "lines": [MILK | {"packs": 3}]})
    (row,) = told(lodge, orders)
    assert [sent["stands"] for sent in row["sent"]] == [False]


def test_it_says_what_the_supplier_said(lodge):
    place(lodge, 3)
    line = MILK | {"packs": 1, "instead": BUTTER | {"packs": 2}}
    body = {"order": ORDER, "lines": [line], "delivery": "2027-03-10", "said_by": "Moira"}
    lodge.do("record_confirmation", body)
    (row,) = told(lodge, orders)
    (answer,) = row["answers"]
    (said,) = answer["lines"]
    assert (said["ordered"], said["packs"]) == (3, 1)
    assert (said["instead"], said["instead_packs"]) == ("Butter", 2)
    assert answer["moved_from"] == "2027-03-09T06:45:00Z"
    assert row["delivery"] == "2027-03-10T06:45:00Z"


def test_orders_that_came_are_told_for_two_weeks(lodge):
    place(lodge)
    lodge.now = at(9)
    lodge.receive("m", "whole-milk", "4 l", order=ORDER)
    assert [row["state"] for row in told(lodge, orders)] == ["received"]
    lodge.now = at(24)
    assert told(lodge, orders) == []


def test_MS1_a_price_that_changed_says_by_how_much_and_since_when(lodge):
    place(lodge)
    before = price_of(lodge, "whole-milk")
    dearer = MILK | {"price": {"minor": before + 10, "currency": "GBP"}}
    lodge.do("record_confirmation", {"order": ORDER, "lines": [dearer]})
    row = next(row for row in told(lodge, prices) if row["item_id"] == "whole-milk")
    (change,) = row["changes"]
    assert (change["before"]["minor"], change["price"]["minor"]) == (before, before + 10)
    assert change["at"] == "2027-03-08T07:00:00Z"
    assert row["dearer_permille"] == round(10_000 / before)


def test_MS1_dearer_is_reckoned_exactly_and_not_of_nothing():
    assert dearer_permille(200, 225) == 125
    assert dearer_permille(200, 150) == -250
    assert dearer_permille(0, 150) is None


def test_a_week_costs_the_goods_of_its_deliveries_and_each_delivery_once(lodge):
    place(lodge, 2)
    place(lodge, 1)
    place(lodge, 4, delivery="2027-03-15")
    price = price_of(lodge, "whole-milk")
    charge = told(lodge, orders)[0]["charge"]["minor"]
    this, following = (of_week(lodge, week) for week in ("2027-03-08", "2027-03-15"))
    assert this["ordered"]["minor"] == 3 * price + charge
    assert (this["orders"], following["ordered"]["minor"]) == (2, 4 * price + charge)


def test_a_cancelled_order_costs_nothing_and_a_free_line_is_not_guessed(lodge):
    place(lodge, free=[{"words": "goat curd"}])
    assert of_week(lodge, "2027-03-08")["unpriced"] == 1
    lodge.do("cancel_order", {"order": ORDER, "reason": "no boat"})
    row = of_week(lodge, "2027-03-08")
    assert (row["orders"], row["ordered"]["minor"], row["unpriced"]) == (0, 0, 0)


def test_the_budget_stands_beside_it_once_it_is_set(lodge):
    assert of_week(lodge, "2027-03-08")["budget"] is None
    amount = {"minor": 45_000, "currency": "GBP"}
    lodge.do("set_budget", {"amount": amount}, person=MANAGER)
    row = of_week(lodge, "2027-03-08")
    assert (row["budget"], row["version"]) == (amount, 1)


def test_a_week_begins_on_a_monday():
    """ISO 8601: Monday is the first day of the week."""
    assert all(monday(at(day).date()).isocalendar().weekday == 1 for day in range(1, 29))


def test_the_text_says_what_is_ordered_for_when_and_by_what_reference(lodge):
    place(lodge, free=[{"words": "goat curd", "amount": "3 small tubs"}])
    (row,) = told(lodge, orders)
    said = row["text"].splitlines()
    assert f"Order of Larkfield Lodge, our reference {ORDER}" in said
    assert "For delivery on Tuesday 9 March 2027, 06:45" in said
    assert "2 x 2 l bottle: Whole milk" in said
    assert "3 small tubs: goat curd" in said


def test_AL3_a_product_that_is_asked_for_as_free_of_something_says_so():
    assert free_from("Gluten-free flour") == ["gluten"]
    assert free_from("Oat drink", "1 l, free from milk") == ["milk"]
    assert free_from("Egg whites", "stone-free cherries") == []
    assert free_from("Butter") == []


def test_the_back_door_is_told_what_is_ordered_in_words(lodge):
    place(lodge, free=[{"words": "goat curd", "amount": "3 small tubs"}, {"words": "matches"}])
    (row,) = told(lodge, expected)
    assert row["in_words"] == ["3 small tubs: goat curd", "matches"]
