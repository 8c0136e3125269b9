"""The menus of the demo house against its sheets, and a small house's."""

from datetime import timedelta

import pytest

from pantry.reports.menus import menus
from pantry.reports.presence import presence
from pantry.rules.house_time import read_instant
from tests.commands.house import at, use_by
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, sheet

DINNER = "2027-03-12/dinner/family"


@pytest.fixture(scope="module")
def ahead(house):
    return asked(house, menus)


def dish_of(row, name, variant=None):
    (found,) = [
        dish
        for course in row["courses"]
        for dish in course["dishes"]
        if (dish["name"], dish["variant"]) == (name, variant)
    ]
    return found


def test_the_services_from_yesterday_on_are_there_in_the_order_of_time(ahead):
    expected = {
        f"{row['date']}/{row['meal']}/{row['table']}": (row["state"], int(row["covers"]))
        for row in sheet("services")
        if row["date"] >= "2027-03-09"
    }
    assert {row["service"]: (row["state"], row["covers"]) for row in ahead} == expected
    assert [row["at"] for row in ahead] == sorted(row["at"] for row in ahead)


def test_every_dish_stands_in_its_course_as_it_was_chosen(ahead):
    expected = sorted(
        (
            f"{row['date']}/{row['meal']}/{row['table']}",
            row["course"],
            row["dish"],
            row["variant"],
            int(row["portions"] or 0),
            row["chosen"] == "yes",
        )
        for row in sheet("choices")
        if row["date"] >= "2027-03-09"
    )
    found = sorted(
        (
            row["service"],
            course["course"],
            dish["name"],
            dish["variant"] or "",
            dish["portions"] or 0,
            dish["chosen"],
        )
        for row in ahead
        for course in row["courses"]
        for dish in course["dishes"]
    )
    assert found == expected


def test_notice_by_is_the_service_less_the_notice(ahead):
    for row in ahead:
        assert read_instant(row["at"]) - read_instant(row["notice_by"]) == timedelta(hours=72)


def test_PL5_a_service_is_chosen_by_the_first_of_its_dishes(ahead):
    """Duck breast comes on Tuesday's boat, ordered by Sunday 09:40; the sole has until Wednesday.

    Lemon sole: fish of Thursday, because the boat may fail, ordered on Wednesday until 11:00, ten
    minutes to send.
    """
    friday = one(ahead, service="2027-03-19/dinner/family")
    duck = dish_of(friday, "Duck breast with rhubarb")
    assert duck["choose_by"] == friday["choose_by"] == "2027-03-14T09:40:00Z"
    assert duck["short"] == ["Duck breast"]
    assert "choose_early" in duck["flags"]
    assert dish_of(friday, "Lemon sole with brown butter")["choose_by"] == "2027-03-17T10:50:00Z"


def test_PL5_what_no_delivery_can_make_has_no_choose_by(ahead):
    """The fish boat stays in harbour on 16 March, and Saturday's mussels live until Monday."""
    tuesday = one(ahead, service="2027-03-16/dinner/family")
    mussels = dish_of(tuesday, "Mussels in cider")
    assert mussels["choose_by"] is None
    assert "Mussels" in mussels["short"]
    assert "cannot_be_had" in mussels["flags"]
    assert tuesday["choose_by"] is not None


def test_PL1_a_service_lacks_each_item_once(ahead):
    for row in ahead:
        dishes = [dish for course in row["courses"] for dish in course["dishes"]]
        lacking = {item for dish in dishes for item in dish["short"]}
        assert row["short"] == len(lacking), row["service"]
    saturday = one(ahead, service="2027-03-13/dinner/family")
    assert saturday["short"] == 1
    assert dish_of(saturday, "Lemon posset with shortbread")["short"] == ["Double cream"]


def test_AL3_a_conflict_stands_at_the_dish(ahead):
    """Mrs Ellacott, nuts, at the tart of Friday 12 March."""
    tart = dish_of(one(ahead, service="2027-03-12/dinner/family"), "Almond and pear tart")
    assert "contains:nuts:Mrs Ellacott" in tart["flags"]


def test_only_what_is_proposed_is_still_to_be_chosen(ahead):
    for row in ahead:
        if row["state"] != "proposed":
            assert row["choose_by"] is None, row["service"]


def test_what_is_over_lacks_nothing(ahead):
    for row in ahead:
        if row["state"] in ("served", "taken_off"):
            assert row["short"] == 0
            dishes = [dish for course in row["courses"] for dish in course["dishes"]]
            assert all(dish["choose_by"] is None and dish["short"] == [] for dish in dishes)


def test_what_was_never_chosen_cannot_be_chosen_any_more(lodge):
    """The dairy takes orders for Monday until 17:00 of Sunday."""
    lodge.propose("2027-03-08/dinner/family", "rice-pudding")
    lodge.now = at(8, 19)
    (row,) = told(lodge, menus)
    assert (row["choose_by"], row["short"]) == ("2027-03-07T17:00:00Z", 2)
    lodge.now = at(8, 20)
    (row,) = told(lodge, menus)
    assert (row["choose_by"], row["short"]) == (None, 0)
    assert dish_of(row, "Rice pudding")["choose_by"] is None


def test_LG5_a_service_that_lapsed_lacks_nothing_any_more(lodge):
    lodge.menu("2027-03-08/dinner/family", "rice-pudding")
    lodge.now = at(8, 20)
    (row,) = told(lodge, menus)
    assert dish_of(row, "Rice pudding")["short"] == ["Butter", "Whole milk"]
    lodge.now = at(9, 8)
    (row,) = told(lodge, menus)
    dish = dish_of(row, "Rice pudding")
    assert (dish["short"], dish["choose_by"], dish["flags"]) == ([], None, [])


def test_yesterday_is_a_day_of_the_house_and_the_day_before_is_gone(lodge):
    lodge.receive("m", "whole-milk", "4 l", use_by(20))
    lodge.receive("b", "butter", "250 g")
    lodge.menu("2027-03-09/lunch/family", "rice-pudding", time="00:15")
    lodge.now = at(10, 23, 50)
    assert [row["service"] for row in told(lodge, menus)] == ["2027-03-09/lunch/family"]
    lodge.now = at(11, 0, 10)
    assert told(lodge, menus) == []


def test_the_version_moves_with_every_decision(lodge):
    lodge.propose(DINNER, "rice-pudding", "walnut-salad")
    (proposed,) = told(lodge, menus)
    lodge.do("confirm", {"service": DINNER, "dishes": [{"dish": "rice-pudding"}]})
    (confirmed,) = told(lodge, menus)
    assert confirmed["version"] > proposed["version"]
    assert (proposed["state"], confirmed["state"]) == ("proposed", "confirmed")
    assert [dish["name"] for dish in confirmed["courses"][0]["dishes"]] == ["Rice pudding"]


def test_who_is_said_to_come_and_the_menus_of_the_demo_house_agree_but_at_one_dinner(ahead):
    assert {row["service"]: row["said"] for row in ahead if row["said"]} == {
        "2027-03-24/dinner/family": {
            "covers": 7,
            "said_by": "Helena Corvane",
            "said_at": "2027-03-09T21:15:00Z",
        }
    }


def test_every_number_of_the_demo_house_follows_from_usual_tables_and_guests(house):
    rows = [row for row in asked(house, presence) if row["menu"]]
    other = [row["menu"]["service"] for row in rows if row["covers"] != row["menu"]["covers"]]
    assert len(rows) > 40
    assert other == []
