"""The morning sheet of the demo house, and what is left there when nobody records anything."""

from datetime import timedelta

import pytest

from pantry.reports.days import days
from pantry.reports.morning import morning
from tests.commands.house import at, use_by
from tests.reports.asking import told
from tests.reports.demo_house import NOW, asked, one, only, sheet

SATURDAY = NOW + timedelta(days=3)
ORDER = "hill-dairy/2027-03-09"


@pytest.fixture(scope="module")
def neglected(house):
    """The sheet of Saturday, when nobody has recorded anything since Wednesday."""
    return asked(house, morning, at=SATURDAY)


def test_the_sheet_has_the_rows_of_today_as_they_stand_in_the_days(house):
    sheet_, today = asked(house, morning), asked(house, days, 1)
    of_today = [row for row in sheet_ if row["what"] != "left"]
    assert [row | {"lines": 0} for row in of_today] == [row | {"lines": 0} for row in today]


def test_a_delivery_has_its_lines(house):
    ordered = {}
    for row in sheet("orders"):
        if row["delivery_date"] == "2027-03-10":
            line = {"item": row["item"], "pack": row["pack"], "packs": int(row["packs"])}
            ordered.setdefault(row["supplier"], []).append(line)
    found = {row["supplier"]: row["lines"] for row in only(asked(house, morning), what="delivery")}
    assert found.keys() == ordered.keys()
    for supplier, lines in found.items():
        assert sorted(lines, key=str) == sorted(ordered[supplier], key=str)


def test_no_price_stands_on_it(house):
    assert "minor" not in str(asked(house, morning))


def test_AL3_the_open_question_is_left_with_the_role_that_settles_it(house):
    (left,) = only(asked(house, morning), what="left")
    assert (left["kind"], left["owner"]) == ("question", "chef")
    assert "Mrs Ellacott" in left["text"]


def test_what_was_left_comes_last_and_the_oldest_of_it_first(neglected):
    what = [row["what"] == "left" for row in neglected]
    assert what == sorted(what)
    since = [row["since"] for row in only(neglected, what="left")]
    assert since == sorted(since)


def test_LG5_every_service_of_an_earlier_day_that_nobody_recorded_is_left(neglected):
    expected = {
        f"{row['date']}/{row['meal']}/{row['table']}"
        for row in sheet("services")
        if "2027-03-10" <= row["date"] < "2027-03-13"
    }
    assert {row["key"] for row in only(neglected, kind="service")} == expected


def test_LG5_a_service_that_is_left_is_not_asked_about_beside_it(neglected):
    assert not any("unserved" in row["key"] for row in only(neglected, kind="question"))


def test_every_delivery_of_an_earlier_day_that_has_not_come_is_left(neglected):
    expected = {
        (row["supplier"], row["delivery_date"])
        for row in sheet("orders")
        if row["delivery_date"] < "2027-03-13"
    }
    found = only(neglected, kind="delivery")
    assert len(found) == len(expected)
    hake = one(found, key="port-quillan-fish-market/2027-03-12")
    assert hake["text"] == "Still awaited from Port Quillan Fish Market: Hake fillet."
    assert hake["since"] == "2027-03-12T07:30:00Z"


def test_PL5_a_cut_off_that_passed_while_lamb_was_wanted_is_left(neglected):
    """One leg on order, two wanted on Sunday; no order was taken after Friday 14:45."""
    lamb = one(neglected, kind="cut_off", since="2027-03-12T14:45:00Z")
    assert lamb["key"] == "Dunmarrow Butchers/2027-03-13T09:00:00Z"
    assert "Leg of lamb" in lamb["text"]


def test_PL5_a_cut_off_of_a_service_that_is_over_is_not_left(neglected):
    """Friday's hake did not come, and Friday is over."""
    fish = only(neglected, kind="cut_off")
    assert not any("Hake" in row["text"] for row in fish)


def test_PL5_what_nobody_sells_has_no_cut_off_that_could_be_left(lodge):
    lodge.menu("2027-03-12/dinner/family", "green-salad")
    assert told(lodge, morning) == []


def test_a_delivery_that_came_in_part_names_only_what_did_not(lodge):
    lines = [
        {"item": "Whole milk", "pack": "2 l bottle", "packs": 2},
        {"item": "Butter", "pack": "250 g block", "packs": 1},
    ]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    lodge.now = at(9, 7)
    lodge.receive("m", "whole-milk", "4 l", use_by(15), order=ORDER)
    (today,) = only(told(lodge, morning), what="delivery")
    assert today["lines"] == [{"item": "Butter", "pack": "250 g block", "packs": 1}]
    assert only(told(lodge, morning), what="left") == []
    lodge.now = at(10, 7)
    (left,) = told(lodge, morning)
    assert left == {
        "what": "left",
        "kind": "delivery",
        "key": ORDER,
        "since": "2027-03-09T06:45:00Z",
        "text": "Still awaited from Hill Dairy: Butter.",
        "owner": None,
    }


def test_LG5_a_service_that_is_recorded_is_left_no_more(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.receive("b", "butter", "250 g")
    lodge.menu("2027-03-09/dinner/family", "rice-pudding")
    lodge.now = at(10, 7)
    left = one(told(lodge, morning), what="left")
    assert left["text"] == "Nobody has recorded that dinner for Family was served."
    lodge.do("serve", {"service": "2027-03-09/dinner/family"})
    assert only(told(lodge, morning), what="left") == []


def test_SL2_what_died_on_an_earlier_day_and_stands_there_is_left(house):
    """Nothing at first; on Thursday the egg whites of Wednesday noon, and the single cream."""
    assert only(asked(house, morning), kind="batch") == []
    died = only(asked(house, morning, at=NOW + timedelta(days=1)), kind="batch")
    assert [row["text"].split(",")[0] for row in died] == [
        "Egg whites B-0020",
        "Single cream B-0007",
    ]
    assert {row["owner"] for row in died} == {None}


def test_SL5_a_round_in_which_nobody_took_a_temperature_is_left(lodge):
    """The cold room was read in Monday's first round, the freezer in none; nobody came later."""
    body = {"area": "Cold room", "temperature_c": "4"}
    lodge.do("take_temperature", body, at=at(8, 7))
    lodge.now = at(9, 7)
    missed = only(told(lodge, morning), kind="round")
    assert [(row["key"], row["text"]) for row in missed] == [
        ("2027-03-08/1", "Nobody took the temperature of Freezer."),
        ("2027-03-08/2", "Nobody took the temperature of Cold room; Freezer."),
    ]
