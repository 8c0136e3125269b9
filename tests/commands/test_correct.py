"""Taking a fact back: new movements that name those they reverse (LG4)."""

import pytest

from pantry.records.database import writing
from pantry.records.rows import add
from pantry.records.tables import (
    BatchParentRow,
    HarvestRow,
    OrderLineRow,
    OrderRow,
    ReceiptRow,
    ServiceRow,
)
from tests.commands.house import at, use_by
from tests.commands.larkfield import ID, PORTER

DINNER = "2027-03-12/dinner/family"


def back(house, command, **rest):
    return house.do("correct", {"command": command, "reason": "mistake"}, **rest)


def milk(house, quantity="2 l", **more):
    return house.receive("m", "whole-milk", quantity, use_by(14), **more)


def test_LG4_a_correction_is_new_movements_that_name_those_they_reverse(house):
    milk(house)
    body = {"batch": "m", "quantity": "500 ml", "reason": "sour", "destination": "drain"}
    wasted = house.do("waste", body)
    command = back(house, wasted, person=PORTER)
    (old,), (new,) = house.movements(wasted), house.movements(command)
    assert (new.source, new.target, new.quantity) == (old.target, old.source, old.quantity)
    assert (new.reverses, new.reason) == (old.number, "mistake")
    assert house.available("m") == 2_000_000


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("move", {"batch": "m", "quantity": "1 l", "area": "Pantry"}),
        ("move", {"batch": "m", "quantity": "1 l", "area": "Freezer"}),
        ("open", {"batch": "m", "quantity": "1 l", "child": "c"}),
        ("freeze", {"batch": "m", "quantity": "1 l", "child": "c"}),
        ("decant", {"batch": "m", "quantity": "1 l", "child": "c"}),
        ("vacuum_pack", {"batch": "m", "quantity": "1 l", "child": "c"}),
        ("take_out", {"batch": "m", "quantity": "1 l", "service": DINNER}),
        ("take_out", {"batch": "m", "quantity": "1 l", "preparation": "pancake-batter"}),
        ("use", {"batch": "m", "quantity": "1 l"}),
        ("send_out", {"batch": "m", "quantity": "1 l", "house": "The Lodge"}),
        ("serve", {"service": DINNER}),
        ("hold", {"batch": "m", "reason": "smells"}),
        ("set_aside", {"batch": "m", "quantity": "1 l", "area": "Cold room"}),
        ("recall", {"lot": "C1", "reason": "glass"}),
        ("count", {"area": "Cold room", "lines": [{"batch": "m", "quantity": "1 l"}]}),
        (
            "make",
            {
                "recipe": "Pancake batter",
                "quantity": "1 l",
                "child": "c",
                "area": "Cold room",
                "used": [{"batch": "m", "quantity": "1 l"}],
            },
        ),
    ],
)
def test_LG4_whatever_moved_goes_back_with_promises_and_balances(house, kind, body):
    milk(house, "4 l", lot="C1")
    house.menu(DINNER, "rice-pudding")
    before = (house.balances("m"), house.promised("m"), house.available("m"))
    command = house.do(kind, body)
    assert house.balances("m") != before[0]
    back(house, command)
    assert (house.balances("m"), house.promised("m"), house.available("m")) == before
    assert house.rows(BatchParentRow) == []


def test_LG4_a_delivery_that_is_taken_back_is_awaited_again(house):
    lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 1}]
    order = {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": lines}
    house.do("place_order", order)
    command = milk(house, supplier="Hill Dairy")
    assert house.row(OrderRow).state == "received"
    back(house, command)
    line = house.row(OrderLineRow)
    assert (line.received, line.closed) == (0, False)
    assert house.row(OrderRow).state == "open"
    assert house.rows(ReceiptRow) == []
    assert house.balances("m") == {}


def test_LG4_the_question_about_goods_that_were_taken_back_has_its_answer(house):
    command = milk(house, verdict="hold")
    back(house, command)
    assert house.questions() == []


def test_LG4_a_harvest_that_is_taken_back_is_expected_again(house):
    row = HarvestRow(
        house=ID, item="rhubarb", first=at(8).date(), last=at(12).date(), quantity=9_000_000
    )
    with writing(house.engine) as connection:
        add(connection, row)
    body = {"batch": "r", "item": "rhubarb", "quantity": "3 kg", "area": "Cold room"}
    back(house, house.do("harvest", body))
    assert house.row(HarvestRow).gathered == 0


def test_LG4_a_service_that_was_not_served_after_all_is_confirmed_again(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "300 ml", "service": DINNER})
    back(house, house.do("serve", {"service": DINNER}))
    assert house.row(ServiceRow).state == "confirmed"
    assert house.promised("m") == {DINNER: 700_000}
    assert house.balances("m")[f"kitchen:{DINNER}"] == 300_000


def test_LG4_a_recall_that_is_taken_back_frees_the_batch(house):
    milk(house, lot="C1")
    back(house, house.do("recall", {"lot": "C1", "reason": "wrong lot"}))
    assert not house.batch("m").recalled
    assert house.available("m") == 2_000_000


def test_LG4_nothing_is_taken_back_twice(house):
    milk(house)
    used = house.do("use", {"batch": "m", "quantity": "1 l"})
    back(house, used)
    problem = house.refuses("correct", {"command": used, "reason": "again"})
    assert problem.code == "reversed_already"
    assert house.available("m") == 2_000_000


def test_LG4_a_correction_can_be_taken_back(house):
    milk(house)
    used = house.do("use", {"batch": "m", "quantity": "1 l"})
    back(house, back(house, used))
    assert house.available("m") == 1_000_000


def test_LG4_what_something_depends_on_is_not_taken_back(house):
    command = milk(house)
    house.do("use", {"batch": "m", "quantity": "100 ml"})
    problem = house.refuses("correct", {"command": command, "reason": "never came"})
    assert (problem.code, problem.value) == ("depended_on", command)
    assert house.available("m") == 1_900_000


def test_LG4_what_was_made_and_used_is_not_unmade(house):
    milk(house)
    opened = house.do("open", {"batch": "m", "quantity": "1 l", "child": "o"})
    house.do("use", {"batch": "o", "quantity": "100 ml"})
    assert house.refuses("correct", {"command": opened, "reason": "?"}).code == "depended_on"
    assert house.balances("o")["area:cold-room"] == 900_000


def test_LG4_what_moved_nothing_or_is_unknown_is_refused_by_name(house):
    proposed = house.propose(DINNER, "pancakes")
    body = {"command": proposed, "reason": "?"}
    assert house.refuses("correct", body).code == "nothing_to_reverse"
    assert house.refuses("correct", body | {"command": "?"}).code == "command_unknown"
    house.keeps("use", {"batch": "?", "quantity": "1 g"})
    kept = house.questions()[0].about
    assert house.refuses("correct", body | {"command": kept}).code == "command_unknown"


def test_SY8_a_mistake_that_a_count_has_found_is_not_put_right_twice(house):
    milk(house, at=at(7))
    wasted = house.do(
        "waste",
        {"batch": "m", "quantity": "1 l", "reason": "spilt", "destination": "drain"},
        at=at(7, 10),
    )
    house.do("count", {"area": "Cold room", "lines": [{"batch": "m", "quantity": "2 l"}]})
    assert house.balances("m")["area:cold-room"] == 2_000_000
    back(house, wasted)
    assert house.balances("m") == {"area:cold-room": 2_000_000, "supplier": -2_000_000}


def late_waste(house):
    milk(house, at=at(6))
    lines = [{"batch": "m", "quantity": "1.5 l"}]
    counted = house.do("count", {"area": "Cold room", "lines": lines}, at=at(8, 6))
    body = {"batch": "m", "quantity": "500 ml", "reason": "spilt", "destination": "drain"}
    return counted, house.do("waste", body, at=at(7))


def test_SY8_a_late_fact_that_is_taken_back_leaves_the_count_as_it_was(house):
    _, wasted = late_waste(house)
    assert house.balances("m")["area:cold-room"] == 1_500_000
    back(house, wasted)
    assert house.balances("m") == {
        "area:cold-room": 1_500_000,
        "count_difference": 500_000,
        "supplier": -2_000_000,
    }


def test_SY8_a_count_that_is_taken_back_leaves_the_late_fact_as_it_was(house):
    counted, _ = late_waste(house)
    back(house, counted)
    assert house.balances("m") == {
        "area:cold-room": 1_500_000,
        "waste": 500_000,
        "supplier": -2_000_000,
    }


def test_SY8_after_a_count_was_taken_back_late_facts_count_as_ever(house):
    counted, _ = late_waste(house)
    back(house, counted)
    house.do("use", {"batch": "m", "quantity": "100 ml"}, at=at(7, 9))
    assert house.balances("m")["area:cold-room"] == 1_400_000


def test_LG4_the_thawing_of_what_was_frozen_here_is_taken_back(house):
    """Frozen food that is itself part of another batch holds less than nothing where it began."""
    house.receive("fresh", "salmon", "1 kg", use_by(20))
    house.do("freeze", {"batch": "fresh", "quantity": "1 kg", "child": "frozen"})
    thawing = house.do("thaw", {"batch": "frozen", "quantity": "600 g", "child": "thawed"})
    house.do("correct", {"command": thawing, "reason": "recorded by mistake"})
    assert house.available("frozen") == 1_000_000
