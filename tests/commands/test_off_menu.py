"""Use outside a menu, another house, and what nobody counts (LG6, MS3)."""

import pytest

from pantry.records.tables import ItemRow
from tests.commands.house import use_by
from tests.commands.larkfield import PORTER


def test_LG6_a_tray_is_one_tap(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    tray = {"batch": "m", "quantity": "250 ml", "reason": "breakfast tray"}
    command = house.do("use", tray, person=PORTER)
    movement = house.movements(command)[0]
    assert (movement.target, movement.reason) == ("served:off-menu", "breakfast tray")
    assert house.available("m") == 1_750_000


def test_LG6_it_draws_on_what_was_promised_and_plans_that_anew(house):
    house.receive("m", "whole-milk", "1 l", use_by(12))
    house.menu("2027-03-10/dinner/family", "rice-pudding")
    house.do("use", {"batch": "m", "quantity": "400 ml"})
    assert house.promised("m") == {"2027-03-10/dinner/family": 600_000}


def test_LG1_what_leaves_for_another_house_is_nobodys_available_stock(house):
    house.receive("m", "butter", "1 kg")
    house.do("send_out", {"batch": "m", "quantity": "400 g", "house": "The Lodge"})
    assert house.balances("m")["transit:the-lodge"] == 400_000
    assert house.available("m") == 600_000


@pytest.mark.parametrize("level", ["low", "out", "plenty"])
def test_MS3_what_nobody_counts_is_plenty_low_or_out(house, level):
    house.do("set_level", {"item": "Salt", "level": level}, person=PORTER)
    assert house.row(ItemRow, id="salt").level == level


def test_MS3_any_other_level_or_item_is_asked_about(house):
    assert house.keeps("set_level", {"item": "salt", "level": "some"}).code == "body_unreadable"
    assert house.keeps("set_level", {"item": "?", "level": "low"}).code == "item_unknown"
    assert house.keeps("use", {"batch": "?", "quantity": "1 g"}).code == "batch_unknown"
    assert house.keeps("send_out", {"batch": "?", "quantity": "1 g", "house": "?"}).value == "?"


def test_MS3_facts_about_what_nobody_counts_are_taken_and_move_nothing(house):
    house.receive("s", "salt", "1 kg")
    facts = {
        "move": {"batch": "s", "quantity": "some", "area": "Cold room"},
        "open": {"batch": "s", "quantity": "some", "child": "o"},
        "decant": {"batch": "s", "quantity": "some", "child": "d"},
        "freeze": {"batch": "s", "quantity": "some", "child": "f"},
        "thaw": {"batch": "f", "quantity": "some", "child": "t"},
        "vacuum_pack": {"batch": "s", "quantity": "some", "child": "v"},
        "waste": {"batch": "s", "quantity": "some", "reason": "wet", "destination": "bin"},
        "use": {"batch": "s", "quantity": "to taste"},
        "send_out": {"batch": "s", "quantity": "some", "house": "the lodge"},
        "take_out": {"batch": "s", "quantity": "some", "preparation": "chicken-stock"},
        "harvest": {"batch": "h", "item": "salt", "quantity": "some", "area": "pantry"},
        "count": {"area": "pantry", "lines": [{"item": "salt", "quantity": "plenty"}]},
    }
    for kind, body in facts.items():
        house.do(kind, body)
    assert house.movements() == []
    assert house.questions() == []
