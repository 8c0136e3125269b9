"""What stands where such food is not kept, and where it is moved to."""

from pantry.reports.wrong_places import wrong_places
from tests.commands.house import best_before, use_by
from tests.reports.asking import told
from tests.reports.demo_house import asked


def said(rows):
    return [(row["batch"], row["wrong"], row["area"], row["into"]) for row in rows]


def test_milk_in_the_pantry_is_moved_to_the_cold_room_and_then_stands_right(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    assert told(lodge, wrong_places) == []
    lodge.do("move", {"batch": "m", "quantity": "500 ml", "area": "pantry"})
    (row,) = told(lodge, wrong_places)
    assert said([row]) == [("m", "warm", "Pantry", "Cold room")]
    assert row["quantity"] == {"value": "500", "unit": "ml"}
    back = {"batch": "m", "quantity": row["quantity"], "area": row["into_id"]}
    lodge.do("move", back | {"from_area": row["area_id"]})
    assert told(lodge, wrong_places) == []


def test_what_the_garden_gave_into_a_freezer_was_never_frozen(lodge):
    lodge.do("harvest", {"batch": "r", "item": "rhubarb", "quantity": "1 kg", "area": "freezer"})
    lodge.receive("b", "butter", "1 kg", best_before(20), area="freezer")
    assert said(told(lodge, wrong_places)) == [("r", "not_frozen", "Freezer", "Cold room")]


def test_the_demo_house_has_dripping_in_the_pantry(house):
    (row,) = asked(house, wrong_places)
    assert (row["label"], row["wrong"], row["into"]) == ("B-0025", "warm", "Cold room")
