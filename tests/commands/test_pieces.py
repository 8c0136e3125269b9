"""What is counted while weighed: a weight and a count of the same food (MS1)."""

import pytest

from pantry.records.tables import BalanceRow
from pantry.reports.stock import stock
from pantry.reports.view import view
from tests.commands.house import DAY, use_by
from tests.commands.larkfield import ID, PORTER


def weighed(value, pieces=None):
    quantity = {"value": value, "unit": "kg"}
    return quantity if pieces is None else quantity | {"pieces": pieces}


def two_fish(house, batch="b", weight="3.46", pieces="2", day=12):
    quantity = weighed(weight, pieces)
    house.receive(batch, "salmon", quantity, use_by(day), at=house.now - DAY)


def counted(house, quantity, batch="b", **more):
    line = {"batch": batch, "quantity": quantity} | more
    return house.do("count", {"area": "Cold room", "lines": [line]}, person=PORTER)


def stands(house, batch="b", account="area:cold-room"):
    row = house.row(BalanceRow, batch=batch, account=account)
    return row.quantity, row.pieces


@pytest.mark.parametrize(
    ("found", "stood"),
    [
        (weighed("3.46", "2"), (3_460_000, 2_000)),
        (weighed("1.70", "1"), (1_700_000, 1_000)),  # one is missing
        (weighed("5.20", "3"), (5_200_000, 3_000)),  # one more was there
        (weighed("3.46", "3"), (3_460_000, 3_000)),  # as heavy, of more pieces
        (weighed("3.46", "1"), (3_460_000, 1_000)),
        (weighed("3.40", "3"), (3_400_000, 3_000)),  # lighter, of more pieces
        (weighed("3.50", "1"), (3_500_000, 1_000)),  # heavier, of fewer
        (weighed("3.40"), (3_400_000, 2_000)),  # nobody counted the pieces
        (weighed("0"), (0, 0)),  # where nothing stands there is no piece
        (weighed("0", "0"), (0, 0)),
    ],
)
def test_MS1_a_count_sets_the_weight_and_the_pieces(house, found, stood):
    two_fish(house)
    counted(house, found)
    assert stands(house) == stood
    assert house.questions("overdrawn") == []


def test_MS1_a_count_that_agrees_in_both_moves_nothing(house):
    two_fish(house)
    assert house.movements(counted(house, weighed("3.46", "2"))) == []


def test_MS1_pieces_counted_of_an_item_are_missing_from_what_dies_first(house):
    two_fish(house, "first", day=11)
    two_fish(house, "last", day=14)
    line = {"item": "salmon", "quantity": weighed("5.20", "3")}
    house.do("count", {"area": "Cold room", "lines": [line]})
    assert stands(house, "first") == (1_740_000, 1_000)
    assert stands(house, "last") == (3_460_000, 2_000)


def test_MS1_pieces_found_of_an_item_that_was_nowhere_are_kept(house):
    line = {"item": "salmon", "quantity": weighed("1.70", "1")}
    command = house.do("count", {"area": "Cold room", "lines": [line]})
    found = f"{command}/salmon"
    assert house.batch(found).pieces == 1_000
    assert stands(house, found, "hold:cold-room") == (1_700_000, 1_000)


def test_MS1_a_count_that_is_taken_back_brings_the_pieces_back(house):
    two_fish(house)
    command = counted(house, weighed("3.50", "1"))
    house.do("correct", {"command": command, "reason": "misread"})
    assert stands(house) == (3_460_000, 2_000)


def test_SY8_pieces_are_held_against_what_stood_there_when_they_were_counted(house):
    two_fish(house)
    then = house.now
    house.now += DAY
    house.do("waste", {"batch": "b", "quantity": weighed("1.73", "1"), "reason": "spoiled"}
             | {"destination": "bin"})  # fmt: skip
    line = {"batch": "b", "quantity": weighed("3.46", "3")}
    house.do("count", {"area": "Cold room", "lines": [line]}, at=then)
    assert stands(house) == (1_730_000, 2_000)


def test_SY8_pieces_of_a_late_fact_were_counted_already(house):
    two_fish(house)
    counted(house, weighed("1.73", "1"))
    used = {"batch": "b", "quantity": weighed("1.73", "1")}
    house.do("use", used, at=house.now - DAY / 2)
    assert stands(house) == (1_730_000, 1_000)


def test_MS1_pieces_that_cannot_be_read_are_said_where_they_stand(house):
    two_fish(house)
    line = {"batch": "b", "quantity": weighed("3.46", "two")}
    problem = house.keeps("count", {"area": "Cold room", "lines": [line]})
    assert problem.field == "body.lines[0].quantity.pieces"


@pytest.mark.parametrize("said", [None, "2"])
def test_MS1_what_is_frozen_whole_keeps_its_pieces(house, said):
    two_fish(house)
    house.do("freeze", {"batch": "b", "quantity": weighed("3.46", said), "child": "c"})
    assert stands(house) == (0, 0)
    assert house.batch("c").pieces == 2_000
    assert stands(house, "c", "area:freezer") == (3_460_000, 2_000)


@pytest.mark.parametrize("said", [None, "2"])
def test_MS1_what_is_taken_whole_takes_its_pieces_along(house, said):
    two_fish(house)
    used = weighed("3.46", said)
    house.do("waste", {"batch": "b", "quantity": used, "reason": "spoiled", "destination": "bin"})
    assert stands(house) == (0, 0)


def test_MS1_the_stock_report_says_how_many_pieces_are_held(house):
    two_fish(house)
    house.receive("c", "whole-milk", "2 l")
    with house.books() as connection:
        rows = {row["batch"]: row for row in stock(view(connection, ID, house.now))}
    assert rows["b"]["pieces"] == {"value": "2", "unit": "each"}
    assert rows["c"]["pieces"] is None
