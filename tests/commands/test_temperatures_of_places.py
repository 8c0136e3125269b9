"""SL5: temperatures of cold places, and a place that failed."""

import pytest

from pantry.records.tables import HeldWarmRow, TemperatureRow
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, PORTER

MILK = 2_000_000


def read(house, shown, moment, area="Cold room", **more):
    body = {"area": area, "temperature_c": shown} | more
    house.now = max(house.now, moment)
    return house.do("take_temperature", body, at=moment, person=PORTER)


def stocked(house):
    house.receive("m", "whole-milk", "2 l", use_by(12))
    house.receive("b", "butter", "500 g")


@pytest.mark.parametrize(
    ("area", "shown", "warmth"),
    [
        # the house's 5 °C is stricter than England's 8 °C
        ("Cold room", "5", "within"),
        ("Cold room", "5.1", "too_warm"),
        # the policy's -18 °C is stricter than the house's -15 °C
        ("Freezer", "-18", "within"),
        ("Freezer", "−17,9", "too_warm"),
        ("Freezer", -22.5, "within"),
        ("Cold room", "41 F", "within"),
    ],
)
def test_SL5_a_reading_stands_to_the_stricter_limit(house, area, shown, warmth):
    read(house, shown, at(8), area, done="door_closed", note=" stood open ")
    row = house.row(TemperatureRow)
    assert (row.warmth, row.person, row.done) == (warmth, PORTER, "door_closed")
    assert row.note == "stood open"


def test_SL5_a_place_colder_than_the_house_wants_it_is_said(house):
    read(house, "4", at(8), "Pantry")
    assert house.row(TemperatureRow).warmth == "within"


def test_SL5_one_reading_past_the_limit_holds_nothing(house):
    stocked(house)
    read(house, "7", at(8, 8))
    assert house.available("m") == MILK
    assert house.questions() == []


def test_SL5_two_in_a_row_half_an_hour_apart_hold_all_that_stands_there(house):
    stocked(house)
    house.receive("f", "plain-flour", "1 kg")
    read(house, "7", at(8, 8))
    read(house, "6", at(8, 8, 29))
    assert house.available("m") == MILK
    read(house, "6", at(8, 8, 30))
    assert house.balances("m")["hold:cold-room"] == MILK
    assert house.available("m") == house.available("b") == 0
    assert house.available("f") == 1_000_000
    asked = house.question("place_failed")
    assert (asked.owner, asked.about) == ("chef", "cold-room")
    assert "2 batches" in asked.against
    assert {row.batch for row in house.rows(HeldWarmRow)} == {"m", "b"}


def test_SL5_a_reading_within_the_limit_between_them_ends_the_stretch(house):
    stocked(house)
    for shown, hour in (("7", 8), ("4", 9), ("7", 10)):
        read(house, shown, at(8, hour))
    assert house.questions() == []


def test_SL5_readings_that_come_late_are_put_in_their_place(house):
    stocked(house)
    read(house, "7", at(8, 10))
    read(house, "7", at(8, 8))
    assert house.available("m") == 0


def test_SL5_past_the_worst_of_the_policy_a_freezer_fails_at_once(house):
    house.receive("s", "salmon", "1 kg", use_by(12), area="Freezer")
    read(house, "-14.9", at(8, 8), "Freezer")
    assert house.balances("s")["hold:freezer"] == 1_000_000


def test_SL5_the_chef_decides_batch_by_batch_and_the_question_settles_itself(house):
    stocked(house)
    read(house, "7", at(8, 8))
    read(house, "7", at(8, 9))
    house.do("release", {"batch": "b", "reason": "within time"}, person=CHEF)
    assert house.available("b") == 500_000
    assert len(house.questions("place_failed")) == 1
    lost = {"batch": "m", "quantity": "2 l", "reason": "too warm", "destination": "bin"}
    house.do("waste", lost, person=CHEF)
    assert house.questions() == []


def test_SL5_a_place_that_fails_again_is_asked_about_again(house):
    stocked(house)
    read(house, "7", at(8, 8))
    read(house, "7", at(8, 9))
    for batch in ("m", "b"):
        house.do("release", {"batch": batch, "reason": "within time"}, person=CHEF)
    read(house, "7", at(8, 10))
    assert house.available("m") == 0
    assert len(house.questions("place_failed")) == 1


def test_LG4_a_reading_that_was_a_mistake_is_taken_back_with_all_that_followed(house):
    stocked(house)
    read(house, "7", at(8, 8))
    wrong = read(house, "77", at(8, 9))
    assert house.available("m") == 0
    house.do("correct", {"command": wrong, "reason": "7.7"}, person=PORTER)
    assert house.available("m") == MILK
    assert house.questions() == house.rows(HeldWarmRow) == []
    assert len(house.rows(TemperatureRow)) == 1
    again = {"command": wrong, "reason": "again"}
    assert house.refuses("correct", again).code == "reversed_already"


def test_SY3_what_cannot_be_read_is_kept_and_asked_about(house):
    kept = house.keeps("take_temperature", {"area": "Cold room", "temperature_c": "warm"})
    assert (kept.code, kept.field) == ("temperature_unreadable", "body.temperature_c")
    assert house.keeps("take_temperature", {"area": "?", "temperature_c": 4}).code == "area_unknown"
