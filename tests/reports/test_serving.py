"""What is served today, what was served when, and what was left over of it (LG2, LG5, SL4)."""

from pantry.reports.dishes import dishes
from pantry.reports.instead import instead
from pantry.reports.served import served
from pantry.reports.serving import serving
from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, only, value

DINNER = "2027-03-10/dinner/family"
LUNCH = "2027-03-11/lunch/staff"
POT = {"service": DINNER, "dish": "rice-pudding", "portions": 2, "child": "l", "area": "Cold room"}


def planned(lodge):
    lodge.receive("m", "whole-milk", "4 l", use_by(12), label="MMMM1")
    lodge.receive("b", "butter", "500 g")
    lodge.menu(DINNER, "rice-pudding")


def test_LG2_a_service_of_today_says_of_which_batches_it_is_served(lodge):
    planned(lodge)
    assert told(lodge, serving) == []
    lodge.now = at(10, 12)
    lodge.do("take_out", {"batch": "m", "quantity": "400 ml", "service": DINNER})
    (row,) = told(lodge, serving)
    assert (row["state"], row["done"], row["covers"]) == ("confirmed", None, 4)
    milk = one(row["batches"], label="MMMM1")
    assert (value(milk["quantity"]), value(milk["taken_out"])) == (1000, 400)
    assert [(dish["name"], dish["portions"]) for dish in row["dishes"]] == [("Rice pudding", 4)]


def test_LG5_a_service_nobody_recorded_stays_however_old_it_is(lodge):
    planned(lodge)
    lodge.menu(LUNCH, "green-salad", time="13:00")
    lodge.now = at(15)
    assert [row["service"] for row in told(lodge, serving)] == [DINNER, LUNCH]


def test_what_was_served_stands_there_a_day_longer_with_what_was_left_over(lodge):
    planned(lodge)
    lodge.now = at(10, 20)
    command = lodge.do("serve", {"service": DINNER})
    left = lodge.do("left_over", POT)
    lodge.now = at(11, 9)
    (row,) = told(lodge, serving)
    assert (row["done"]["command"], row["done"]["person"]) == (command, CHEF)
    (over,) = row["left_overs"]
    assert (over["command"], over["portions"], over["batch"]) == (left, 2, "l")
    lodge.now = at(12, 9)
    assert told(lodge, serving) == []


def test_LG4_what_was_taken_back_was_not_left_over(lodge):
    planned(lodge)
    lodge.now = at(10, 20)
    lodge.do("serve", {"service": DINNER})
    left = lodge.do("left_over", POT)
    lodge.do("correct", {"command": left, "reason": "it was eaten"})
    assert told(lodge, serving)[0]["left_overs"] == []
    assert told(lodge, served)[0]["left_over"] == 0


def test_what_was_given_to_whom_by_day_table_and_dish(lodge):
    planned(lodge)
    lodge.menu(LUNCH, "green-salad", "rice-pudding", covers=6, time="13:00")
    lodge.now = at(10, 20)
    lodge.do("serve", {"service": DINNER, "dishes": [{"dish": "rice-pudding", "portions": 3}]})
    lodge.now = at(11, 14)
    lodge.do("serve", {"service": LUNCH, "dishes": [{"dish": "rice-pudding", "portions": 0}]})
    rows = told(lodge, served)
    assert [(row["service"], row["name"], row["portions"], row["planned"]) for row in rows] == [
        (LUNCH, "Green salad", 6, 6),
        (LUNCH, "Rice pudding", 0, 6),
        (DINNER, "Rice pudding", 3, 4),
    ]
    assert {row["confirmed_by"] for row in rows} == {CHEF}
    assert [row["service"] for row in told(lodge, served, "2027-03-11", "2027-03-11")] == [
        LUNCH
    ] * 2
    assert [row["service"] for row in told(lodge, served, None, None, "Family")] == [DINNER]
    assert len(told(lodge, served, None, None, None, "Rice pudding")) == 2
    pudding = one(told(lodge, dishes), id="rice-pudding")
    assert pudding["last_served"] == [{"table": "Family", "date": "2027-03-10"}]


def test_what_was_left_over_and_wasted_is_said_with_its_dish(lodge):
    planned(lodge)
    lodge.now = at(10, 20)
    lodge.do("serve", {"service": DINNER})
    lodge.do("left_over", POT)
    waste = {"batch": "l", "quantity": "1", "reason": "left over", "destination": "bin"}
    lodge.do("waste", waste)
    (row,) = told(lodge, served)
    assert (row["left_over"], value(row["left_overs"][0]["wasted"])) == (2, 1)


def test_the_demo_house_knows_what_it_served_before(house):
    rows = asked(house, served, "2027-02-24", "2027-02-28")
    assert only(rows, meal="dinner")
    assert {row["table"] for row in rows} >= {"family", "staff", "children"}


def test_AL3_what_everybody_at_the_table_can_eat_comes_first_where_a_dish_is_swapped(lodge):
    planned(lodge)
    rows = told(lodge, instead, DINNER)
    assert {row["dish"] for row in rows}.isdisjoint({"rice-pudding", "new-dish", "chicken-stock"})
    salad = one(rows, dish="walnut-salad")
    assert rows[-1] == salad
    assert salad["against"] == [
        {"person": "Ottilie", "cannot_eat": "nuts", "certainty": "contains"}
    ]
    assert salad["variants"] == ["without nuts"]


def test_what_a_table_has_not_had_for_long_comes_before_what_it_had_lately(lodge):
    lodge.menu(DINNER, "green-salad")
    lodge.now = at(10, 20)
    lodge.do("serve", {"service": DINNER})
    lodge.menu("2027-03-12/dinner/family", "rice-pudding")
    rows = told(lodge, instead, "2027-03-12/dinner/family")
    safe = [row for row in rows if not row["against"] and not row["unknown"]]
    assert safe[-1]["dish"] == "green-salad"
    assert safe[-1]["last_served"] == "2027-03-10"
