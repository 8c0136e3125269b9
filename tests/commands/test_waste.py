"""Food that was lost, with its reason and where it went."""

from tests.commands.house import use_by
from tests.commands.larkfield import PORTER

DINNER = "2027-03-10/dinner/family"


def lost(**more):
    return {"batch": "m", "quantity": "1 l", "reason": "sour", "destination": "pigs"} | more


def test_what_is_lost_goes_to_waste_with_reason_and_destination(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    command = house.do("waste", lost(), person=PORTER)
    movement = house.movements(command)[0]
    assert (movement.target, movement.reason, movement.destination) == ("waste", "sour", "pigs")
    assert house.available("m") == 1_000_000


def test_LG3_what_was_promised_is_let_go_and_planned_anew(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    house.receive("n", "whole-milk", "2 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    house.do("waste", lost(quantity="1.4 l"))
    assert house.promised("m") == {DINNER: 600_000}
    assert house.promised("n") == {DINNER: 400_000}
    assert house.questions() == []


def test_LG3_more_than_the_books_have_is_recorded_and_asked_about_once(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    house.do("waste", lost(quantity="3 l"))
    house.do("waste", lost(quantity="1 l"))
    assert house.balances("m")["area:cold-room"] == -2_000_000
    asked = house.question("overdrawn")
    assert (asked.owner, asked.about) == ("chef", "m|area:cold-room")
    assert house.available("m") < 0 or house.promised("m") == {}


def test_what_is_on_hold_can_be_thrown_away(house):
    house.receive("m", "whole-milk", "2 l", use_by(12), verdict="hold")
    house.do("waste", lost(quantity="2 l", area="Cold room"))
    assert house.balances("m") == {"waste": 2_000_000, "supplier": -2_000_000}
    assert house.questions("overdrawn") == []


def test_an_unknown_batch_or_area_is_asked_about(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    assert house.keeps("waste", lost(batch="?")).code == "batch_unknown"
    assert house.keeps("waste", lost(area="?")).code == "area_unknown"
    assert house.keeps("waste", lost(quantity="0 l")).code == "quantity_nothing"
