"""The driver leaves: what is short, what is to be credited, who hears of it, and the way back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.records.database import writing
from pantry.records.rows import add
from pantry.records.tables import CreditRow, DriverLeftRow, OrderLineRow, OrderRow, PackRow
from pantry.rules.credits import credit_due
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, ID, MANAGER, PORTER

ORDER = "hill-dairy/2027-03-09"
BUTTER = f"{ORDER}|hill-dairy/butter/250-g-block"
SALT = "hill-dairy/salt/tub"
MILK = f"{ORDER}|hill-dairy/whole-milk/2-l-bottle"


@pytest.fixture
def coming(house):
    """Two blocks of butter and a bottle of milk come tomorrow; it is tomorrow."""
    lines = [
        {"item": "butter", "pack": "250 g block", "packs": 2},
        {"item": "whole milk", "pack": "2 l bottle", "packs": 1},
    ]
    house.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    house.now = at(9)
    return house


def came(house, batch, item, quantity, **more):
    house.receive(batch, item, quantity, use_by(19), order=ORDER, person=PORTER, **more)


def leaves(house, **more):
    return house.do("close_delivery", {"order": ORDER} | more, person=PORTER)


def awaited(house):
    return {line.item for line in house.rows(OrderLineRow) if not line.closed}


def test_what_did_not_come_is_short_and_a_credit_is_expected_for_it(coming):
    came(coming, "b", "butter", "250 g")
    leaves(coming, driver="Ines")
    assert awaited(coming) == set()
    assert coming.row(OrderRow).state == "received"
    assert {row.id for row in coming.rows(CreditRow)} == {BUTTER, MILK}
    assert coming.row(DriverLeftRow).driver == "Ines"


def test_a_credit_is_open_since_the_driver_left_however_late_that_is_handed_in(coming):
    coming.now = at(11)
    coming.do("close_delivery", {"order": ORDER}, person=PORTER, at=at(9))
    assert {row.opened_at for row in coming.rows(CreditRow)} == {at(9)}


def test_of_a_whole_delivery_no_credit_is_expected_and_nobody_is_asked(coming):
    came(coming, "b", "butter", "500 g")
    came(coming, "m", "whole-milk", "2 l")
    leaves(coming)
    assert coming.rows(CreditRow) == []
    assert coming.questions() == []


def test_MS3_what_nobody_counts_came_whole_or_not_at_all(coming):
    with writing(coming.engine) as connection:
        given = {"house": ID, "id": SALT, "supplier": "hill-dairy", "item": "salt", "name": "tub"}
        add(connection, PackRow(**given, quantity=750_000, sealed_quantity=750_000, price=90))
    lines = [{"item": "salt", "pack": "tub", "packs": 1}]
    coming.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-10", "lines": lines})
    salt = coming.receive("s", "salt", "750 g", order="hill-dairy/2027-03-10", person=PORTER)
    assert "salt" not in awaited(coming)
    coming.do("correct", {"command": salt, "reason": "it was sugar"}, person=PORTER)
    assert "salt" in awaited(coming)


def test_the_chef_hears_once_of_a_delivery_that_came_short(coming):
    leaves(coming)
    question = coming.question("came_short")
    assert (question.owner, question.about) == ("chef", ORDER)
    assert question.against == "Short or refused: Butter, Whole milk."


def test_the_chef_hears_of_a_refused_line_before_the_driver_has_left(coming):
    body = {"batch": "b", "item": "butter", "quantity": "250 g", "area": "Cold room"}
    refused = coming.do("receive", body | {"verdict": "refuse", "order": ORDER}, person=PORTER)
    assert coming.question("came_short").against == "Short or refused: Butter."
    coming.do("correct", {"command": refused, "reason": "wrong line"}, person=PORTER)
    assert coming.questions("came_short") == []


def test_what_comes_later_of_the_order_is_received_and_no_longer_asked_about(coming):
    came(coming, "m", "whole-milk", "2 l")
    leaves(coming)
    came(coming, "b", "butter", "500 g")
    assert coming.balances("b") == {"area:cold-room": 500_000, "supplier": -500_000}
    (line,) = coming.rows(OrderLineRow, item="butter")
    assert (line.received, line.closed) == (500_000, True)
    assert coming.questions() == []


def test_LG4_a_driver_who_is_still_there_is_awaited_again(coming):
    left = leaves(coming)
    coming.do("correct", {"command": left, "reason": "he came back"}, person=PORTER)
    assert awaited(coming) == {"butter", "whole-milk"}
    assert coming.row(OrderRow).state == "open"
    assert coming.rows(CreditRow) == coming.rows(DriverLeftRow) == coming.questions() == []
    problem = coming.refuses("correct", {"command": left, "reason": "again"}, person=PORTER)
    assert problem.code == "reversed_already"


def test_LG4_what_came_later_and_is_taken_back_stays_short(coming):
    leaves(coming)
    late = coming.receive("b", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    coming.do("correct", {"command": late, "reason": "another order's"}, person=PORTER)
    (line,) = coming.rows(OrderLineRow, item="butter")
    assert (line.received, line.closed) == (0, True)
    assert coming.row(OrderRow).state == "received"


def test_another_thing_that_came_instead_makes_a_credit_expected_until_it_is_taken_back(coming):
    instead = {"item": "butter", "replaces": True}
    other = coming.receive("m", "whole-milk", "1 l", use_by(19), order=ORDER, instead=instead)
    assert [row.id for row in coming.rows(CreditRow)] == [BUTTER]
    coming.do("correct", {"command": other, "reason": "it did not"})
    assert coming.rows(CreditRow) == []
    assert "butter" in awaited(coming)


def test_the_manager_records_the_note_once(coming):
    leaves(coming)
    note = {"credit": BUTTER, "amount": {"minor": 410, "currency": "GBP"}, "note": "CN 77"}
    assert coming.refuses("record_credit", note, person=PORTER).code == "role_lacking"
    coming.do("record_credit", note, person=MANAGER)
    (row,) = coming.rows(CreditRow, id=BUTTER)
    assert (row.amount, row.note, row.settled_by) == (410, "CN 77", MANAGER)
    assert coming.refuses("record_credit", note, person=MANAGER).code == "credit_recorded"


def test_a_credit_is_written_off_only_for_a_reason(coming):
    leaves(coming)
    nothing = coming.refuses("record_credit", {"credit": MILK}, person=MANAGER)
    assert nothing.code == "note_missing"
    coming.do("record_credit", {"credit": MILK, "reason": "too little"}, person=MANAGER)
    unknown = coming.refuses("record_credit", {"credit": "?", "reason": "-"}, person=MANAGER)
    assert unknown.code == "credit_unknown"


def test_a_note_is_in_the_money_of_the_house(coming):
    leaves(coming)
    note = {"credit": BUTTER, "amount": {"minor": 410, "currency": "EUR"}, "note": "CN 77"}
    assert coming.refuses("record_credit", note, person=MANAGER).code == "credit_foreign"


def test_SY3_a_credit_is_recorded_on_the_version_that_stands(coming):
    leaves(coming)
    body = {"credit": MILK, "reason": "too little"}
    answer = coming.give("record_credit", body, base=7, person=MANAGER)
    assert answer.outcome == "conflict"


def test_LG4_what_a_recorded_credit_depends_on_is_not_taken_back(coming):
    left = leaves(coming)
    coming.do("record_credit", {"credit": MILK, "reason": "too little"}, person=MANAGER)
    problem = coming.refuses("correct", {"command": left, "reason": "-"}, person=PORTER)
    assert problem.code == "depended_on"


def test_SY3_of_an_unknown_order_it_is_kept_and_asked_about(coming):
    problem = coming.keeps("close_delivery", {"order": "hill-dairy/2027-01-01"})
    assert problem.code == "order_unknown"


def test_of_a_cancelled_order_only_the_driver_is_noted(coming):
    coming.do("cancel_order", {"order": ORDER, "reason": "not wanted"}, person=CHEF)
    leaves(coming)
    assert coming.row(OrderRow).state == "cancelled"
    assert coming.rows(CreditRow) == []


@given(cost=st.integers(0, 10**9), ordered=st.integers(1, 10**9), part=st.integers(0, 10**9))
def test_what_came_and_what_is_credited_are_worth_what_was_ordered(cost, ordered, part):
    received = min(part, ordered)
    worth = Fraction(cost * received, ordered)
    assert abs(credit_due(cost, ordered, received) + worth - cost) <= Fraction(1, 2)
    assert credit_due(cost, ordered, ordered) == 0
    assert credit_due(cost, ordered, 0) == cost
