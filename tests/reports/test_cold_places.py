"""SL5: what is told of cold places, of what cools, of probes and of cleaning."""

import pytest

from pantry.reports.checks import checks
from pantry.reports.cold_places import temperatures
from pantry.reports.coolings import coolings
from pantry.reports.failed_places import failed_places
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, PORTER
from tests.reports.asking import told

QUESTIONS = {
    "checks": checks,
    "cooling": coolings,
    "failed-places": failed_places,
    "temperatures": temperatures,
}


def rows(lodge, name, *days):
    return told(lodge, QUESTIONS[name], *days)


def read(lodge, shown, moment, area="Cold room", **more):
    lodge.now = max(lodge.now, moment)
    body = {"area": area, "temperature_c": shown} | more
    return lodge.do("take_temperature", body, at=moment, person=PORTER)


def of(lodge, area, *days):
    return next(row for row in rows(lodge, "temperatures", *days) if row["area"] == area)


def taken(place):
    return [(each["day"][-2:], each["number"], each["taken"]) for each in place["rounds"]]


def test_SL5_cold_places_stand_in_the_order_of_the_shelves_with_the_stricter_limit(lodge):
    places = rows(lodge, "temperatures")
    assert [(row["area"], row["max_c"]) for row in places] == [
        ("Cold room", "5"),
        ("Freezer", "-18"),
    ]
    assert places[0]["max_source"] == "this house"
    assert "89/108" in places[1]["max_source"]
    assert places[0]["last"] is None


def test_a_round_that_nobody_made_is_a_gap(lodge):
    read(lodge, "4", at(8, 7))
    read(lodge, "4.5", at(9, 20), done="door_closed")
    lodge.now = at(10, 13)
    cold = of(lodge, "Cold room", 3)
    assert taken(cold) == [
        ("08", 1, True),
        ("08", 2, False),
        ("09", 1, False),
        ("09", 2, True),
        ("10", 1, False),
        ("10", 2, False),
    ]
    assert cold["last"]["temperature_c"] == "4.5"
    assert [each["temperature_c"] for each in cold["readings"]] == ["4", "4.5"]
    assert not any(each["taken"] for each in of(lodge, "Freezer")["rounds"])


def test_before_the_first_reading_of_a_house_only_the_round_that_runs_is_asked_for(lodge):
    assert taken(of(lodge, "Cold room", 14)) == [("08", 1, False)]


def test_a_house_reads_as_often_as_it_sets(lodge):
    often = {"name": "round.every", "value": 8, "reason": "old freezer"}
    lodge.do("set_policy", often)
    read(lodge, "4", at(8, 7))
    lodge.now = at(8, 23)
    assert taken(of(lodge, "Cold room")) == [("08", 1, True), ("08", 2, False), ("08", 3, False)]


def test_SL5_what_a_failed_place_held_is_told_batch_by_batch_with_the_policys_word(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    read(lodge, "4", at(8, 8))
    read(lodge, "8.5", at(8, 9))
    read(lodge, "9", at(8, 10))
    lodge.receive("b", "butter", "500 g", at=at(8, 10))
    (held,) = rows(lodge, "failed-places")
    assert (held["item"], held["area"], held["highest_c"]) == ("Whole milk", "Cold room", "9")
    assert (held["verdict"], held["since"]) == ("ask", "2027-03-08T08:00:00Z")
    assert of(lodge, "Cold room")["failed"]
    # England: one period of less than four hours (SI 2013/2996, Schedule 4, paragraph 5)
    read(lodge, "9", at(8, 13))
    assert {row["item"]: row["verdict"] for row in rows(lodge, "failed-places")} == {
        "Whole milk": "refuse",
        "Butter": "ask",
    }
    for batch in ("m", "b"):
        lodge.do("release", {"batch": batch, "reason": "decided"}, person=CHEF)
    assert rows(lodge, "failed-places") == []


def test_SL5_what_cools_says_what_must_be_reached_by_when(lodge):
    lodge.receive("bones", "chicken-bones", "4 kg")
    made = {"recipe": "chicken-stock", "quantity": "2 l", "child": "s", "area": "Cold room"}
    lodge.do("make", made)
    (unread,) = rows(lodge, "cooling")
    assert (unread["outcome"], unread["item"]) == ("unread", "Chicken stock")
    lodge.do("cool", {"batch": "s", "temperature_c": "63"}, person=PORTER)
    (running,) = rows(lodge, "cooling")
    assert (running["outcome"], running["by"]) == ("running", "2027-03-08T08:30:00Z")
    assert running["to_c"] == "21"
    lodge.now = at(8, 9)
    (failed,) = rows(lodge, "cooling")
    assert (failed["outcome"], failed["by"]) == ("failed", None)
    lodge.now = at(11)
    assert rows(lodge, "cooling") == []


def test_checks_are_told_latest_first(lodge):
    lodge.do("check_probe", {"probe": "Red probe", "ice_c": "0.4"}, person=PORTER)
    lodge.now = at(8, 9)
    lodge.do("clean", {"what": "Shelves", "area": "Cold room"}, person=PORTER)
    cleaned, probe = rows(lodge, "checks")
    assert (cleaned["what"], cleaned["area"], cleaned["person"]) == ("Shelves", "Cold room", PORTER)
    assert (probe["ice_c"], probe["boiling_c"], probe["is_right"]) == ("0.4", None, True)
    lodge.now = at(10, 9)
    assert rows(lodge, "checks", 1) == []


@pytest.mark.parametrize("days", [1, 2, 31])
def test_a_longer_look_back_shows_more(lodge, days):
    read(lodge, "4", at(8, 7))
    lodge.now = at(30, 7)
    assert len(of(lodge, "Cold room", days)["readings"]) == (1 if days > 22 else 0)


def failed_cold_room(lodge):
    """Milk, twice, and butter, in a cold room past the house's 5 °C but not England's 8."""
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.receive("b", "butter", "500 g", use_by(11))
    lodge.receive("n", "whole-milk", "1 l", use_by(10))
    read(lodge, "7", at(8, 8))
    read(lodge, "7", at(8, 9))


def clear(lodge):
    return {row["batch"]: row["clear"] for row in rows(lodge, "failed-places")}


def test_SL5_batches_of_an_item_stand_together_what_dies_first_first(lodge):
    failed_cold_room(lodge)
    assert [row["batch"] for row in rows(lodge, "failed-places")] == ["n", "m", "b"]


def test_SL5_nothing_is_clear_to_keep_while_its_place_is_too_warm(lodge):
    failed_cold_room(lodge)
    assert clear(lodge) == {"m": False, "b": False, "n": False}
    assert {row["verdict"] for row in rows(lodge, "failed-places")} == {"accept"}
    read(lodge, "4", at(8, 10))
    assert clear(lodge) == {"m": True, "b": True, "n": True}


def test_SL5_what_the_policy_does_not_accept_is_never_clear_to_keep(lodge):
    failed_cold_room(lodge)
    read(lodge, "8.1", at(8, 10))
    read(lodge, "9", at(8, 15))
    read(lodge, "4", at(8, 16))
    assert {row["verdict"] for row in rows(lodge, "failed-places")} == {"refuse"}
    assert not any(clear(lodge).values())


def test_SL5_what_is_past_its_date_or_was_held_for_another_reason_is_decided_by_itself(lodge):
    lodge.receive("h", "butter", "250 g", use_by(20))
    lodge.do("hold", {"batch": "h", "reason": "smells odd"}, person=CHEF)
    lodge.do("release", {"batch": "h", "reason": "it does not"}, person=CHEF)
    failed_cold_room(lodge)
    read(lodge, "4", at(8, 10))
    assert clear(lodge) == {"m": True, "b": True, "n": True, "h": False}
    lodge.now = at(11, 9)
    assert clear(lodge) == {"m": True, "b": True, "n": False, "h": False}


def test_SL5_what_was_taken_back_does_not_speak_against_keeping(lodge):
    failed_cold_room(lodge)
    wrong = read(lodge, "77", at(8, 10))
    lodge.do("correct", {"command": wrong, "reason": "7.7"}, person=PORTER)
    read(lodge, "4", at(8, 11))
    kept = lodge.do("release", {"batch": "m", "reason": "within time"}, person=CHEF)
    assert clear(lodge) == {"b": True, "n": True}
    lodge.do("correct", {"command": kept, "reason": "by mistake"}, person=CHEF)
    assert clear(lodge) == {"m": True, "b": True, "n": True}


def test_SL5_what_has_not_cooled_is_decided_by_itself(lodge):
    lodge.receive("bones", "chicken-bones", "4 kg")
    for child in ("s", "unread"):
        made = {"recipe": "chicken-stock", "quantity": "2 l", "child": child, "area": "Cold room"}
        lodge.do("make", made)
    for shown, hour in (("63", 6), ("20", 7)):
        lodge.do("cool", {"batch": "s", "temperature_c": shown}, at=at(8, hour), person=PORTER)
    failed_cold_room(lodge)
    read(lodge, "4", at(8, 9, 30))
    assert (clear(lodge)["s"], clear(lodge)["unread"]) == (False, False)
    lodge.do("cool", {"batch": "s", "temperature_c": "5"}, at=at(8, 9, 30), person=PORTER)
    assert [row["outcome"] for row in rows(lodge, "cooling") if row["batch"] == "s"] == ["passed"]
    assert clear(lodge)["s"]


def test_SL5_what_failed_to_cool_while_its_place_held_it_is_not_clear_to_keep(lodge):
    lodge.receive("bones", "chicken-bones", "4 kg")
    made = {"recipe": "chicken-stock", "quantity": "2 l", "child": "s", "area": "Cold room"}
    lodge.do("make", made)
    lodge.do("cool", {"batch": "s", "temperature_c": "63"}, person=PORTER)
    failed_cold_room(lodge)
    read(lodge, "4", at(8, 14))
    assert not clear(lodge)["s"]
    lodge.do("cool", {"batch": "s", "temperature_c": "40"}, at=at(8, 14), person=PORTER)
    assert not clear(lodge)["s"]
    assert clear(lodge)["m"]


def test_SL5_what_was_released_and_is_held_for_another_reason_is_no_matter_of_the_place(lodge):
    failed_cold_room(lodge)
    read(lodge, "4", at(8, 10))
    for batch in ("m", "b", "n"):
        lodge.do("release", {"batch": batch, "reason": "within time"}, person=CHEF)
    lodge.do("hold", {"batch": "m", "reason": "smells odd"}, person=CHEF)
    assert rows(lodge, "failed-places") == []
    read(lodge, "9", at(8, 12))
    read(lodge, "9", at(8, 13))
    assert sorted(row["batch"] for row in rows(lodge, "failed-places")) == ["b", "n"]


def test_SL5_a_release_taken_back_is_the_places_again(lodge):
    failed_cold_room(lodge)
    kept = lodge.do("release", {"batch": "m", "reason": "within time"}, person=CHEF)
    held = lodge.do("hold", {"batch": "m", "reason": "smells odd"}, person=CHEF)
    lodge.do("correct", {"command": held, "reason": "by mistake"}, person=CHEF)
    lodge.do("correct", {"command": kept, "reason": "by mistake"}, person=CHEF)
    assert {row["batch"]: row["held_for"] for row in rows(lodge, "failed-places")} == {
        "m": [],
        "b": [],
        "n": [],
    }


def test_SL5_keeping_it_says_that_it_ends_another_hold_too(lodge):
    lodge.receive("e", "butter", "1 kg", use_by(20))
    lodge.do("move", {"batch": "e", "quantity": "400 g", "area": "Pantry"}, person=PORTER)
    failed_cold_room(lodge)
    read(lodge, "4", at(8, 10))
    assert clear(lodge)["e"]
    lodge.do("hold", {"batch": "e", "reason": "smells odd"}, person=CHEF)
    assert not clear(lodge)["e"]
    held_for = {row["batch"]: row["held_for"] for row in rows(lodge, "failed-places")}
    assert held_for == {"m": [], "b": [], "n": [], "e": ["smells odd"]}
