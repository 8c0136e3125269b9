"""Counting a storage area: the books follow the shelf (LG3, SY8)."""

import pytest

from pantry.records.tables import QuestionRow
from tests.commands.house import at, use_by
from tests.commands.larkfield import MANAGER, PORTER

DINNER = "2027-03-08/dinner/family"


def counted(*lines, **more):
    return {"area": "Cold room", "lines": list(lines)} | more


def of(batch, quantity, **more):
    return {"batch": batch, "quantity": quantity} | more


def item(name, quantity, **more):
    return {"item": name, "quantity": quantity} | more


def butter(house, batch="b", quantity="1 kg", **more):
    house.receive(batch, "butter", quantity, at=at(7), **more)


def test_LG3_what_agrees_moves_nothing(house):
    butter(house)
    house.do("count", counted(of("b", "1 kg")), person=PORTER)
    assert len(house.movements()) == 1


def test_LG3_a_small_difference_is_posted_and_opens_nothing(house):
    butter(house)
    command = house.do("count", counted(of("b", "960 g"), reason="monthly"))
    movement = house.movements(command)[0]
    assert (movement.source, movement.target) == ("area:cold-room", "count_difference")
    assert (movement.quantity, movement.reason) == (40_000, "monthly")
    assert house.questions() == []


def test_LG3_a_large_difference_is_posted_and_asked_about(house):
    butter(house)
    command = house.do("count", counted(of("b", "700 g")))
    assert house.balances("b")["area:cold-room"] == 700_000
    asked = house.question("count_difference")
    assert (asked.about, asked.owner) == (f"{command}|b", "chef")


@pytest.mark.parametrize(
    ("name", "found", "asks"),
    [
        ("butter", "951 g", 0),
        ("butter", "949 g", 1),
        ("salmon", "971 g", 0),
        ("salmon", "969 g", 1),
    ],
)
def test_LG3_the_tolerance_is_closer_for_high_risk_food(house, name, found, asks):
    house.receive("x", name, "1 kg")
    house.do("count", counted(of("x", found)))
    assert len(house.questions("count_difference")) == asks


def test_LG3_what_is_found_beyond_the_books_is_posted_too(house):
    butter(house)
    house.do("count", counted(of("b", "1020 g")))
    assert house.balances("b")["count_difference"] == -20_000
    assert house.available("b") == 1_020_000


def test_LG3_what_is_on_hold_is_counted_with_the_rest_of_the_shelf(house):
    butter(house, verdict="hold")
    house.do("count", counted(of("b", "1 kg")))
    assert house.balances("b")["hold:cold-room"] == 1_000_000
    house.do("count", counted(of("b", "900 g")))
    assert house.balances("b")["hold:cold-room"] == 900_000


def test_LG3_the_emergency_meal_is_counted_where_it_stands(house):
    butter(house)
    house.do("set_aside", {"batch": "b", "quantity": "600 g", "area": "Cold room"})
    house.do("count", counted(of("b", "1 kg")))
    assert house.questions() == []
    house.do("count", counted(of("b", "0.5 kg")))
    assert house.balances("b")["emergency:cold-room"] == 500_000


def test_LG3_a_count_lets_go_of_what_is_not_there(house):
    butter(house)
    house.menu("2027-03-11/dinner/family", "baked-salmon")
    house.do("count", counted(of("b", "15 g")))
    assert house.promised("b") == {"2027-03-11/dinner/family": 15_000}


def test_LG3_whether_it_was_taken_out_already_is_asked_before_a_difference(house):
    butter(house)
    house.menu(DINNER, "baked-salmon")
    command = house.do("count", counted(of("b", "960 g")))
    asked = house.question("taken_out")
    assert asked.about == f"{command}|b"
    assert house.balances("b")["area:cold-room"] == 1_000_000
    assert house.promised("b") == {DINNER: 40_000}


def test_LG3_more_than_was_promised_for_today_was_not_taken_out_for_it(house):
    butter(house)
    house.menu(DINNER, "baked-salmon")
    house.do("count", counted(of("b", "900 g")))
    assert house.questions("taken_out") == []
    assert house.balances("b")["area:cold-room"] == 900_000


def test_LG3_said_to_be_taken_out_it_is_and_the_promise_is_settled(house):
    butter(house)
    house.menu(DINNER, "baked-salmon")
    house.do("count", counted(of("b", "960 g", taken_out=True)))
    assert house.balances("b")[f"kitchen:{DINNER}"] == 40_000
    assert house.promised("b") == {}
    assert house.questions() == []


def test_LG3_said_not_to_be_taken_out_the_difference_is_posted(house):
    butter(house)
    house.menu(DINNER, "baked-salmon")
    house.do("count", counted(of("b", "960 g", taken_out=False)))
    assert house.balances("b")["count_difference"] == 40_000
    assert house.promised("b") == {DINNER: 40_000}


def test_LG3_what_is_said_to_be_taken_out_beyond_the_promises_was_used_off_the_menu(house):
    butter(house)
    house.menu(DINNER, "baked-salmon")
    house.do("count", counted(of("b", "900 g", taken_out=True)))
    assert house.balances("b")["served:off-menu"] == 60_000


def test_LG3_an_item_counted_whatever_the_batch_misses_what_dies_first(house):
    butter(house, "late", date_mark=use_by(20))
    butter(house, "early", date_mark=use_by(12))
    house.do("count", counted(item("Butter", "1.4 kg")))
    assert house.balances("early")["area:cold-room"] == 400_000
    assert house.balances("late")["area:cold-room"] == 1_000_000


def test_LG3_what_is_found_of_an_item_goes_to_the_batch_that_dies_last(house):
    butter(house, "late", date_mark=use_by(20))
    butter(house, "early", date_mark=use_by(12))
    house.do("count", counted(item("Butter", "2.05 kg")))
    assert house.balances("late")["area:cold-room"] == 1_050_000


def test_LG3_an_item_that_agrees_moves_nothing(house):
    butter(house, "a")
    butter(house, "b")
    command = house.do("count", counted(item("butter", "2 kg")))
    assert house.movements(command) == []


def test_LG3_an_item_found_where_no_batch_stood_is_a_batch_on_hold(house):
    command = house.do("count", counted(item("butter", "300 g")))
    assert house.balances(f"{command}/butter")["hold:cold-room"] == 300_000
    assert house.question("found").about == f"{command}/butter"
    house.do("release", {"batch": f"{command}/butter", "reason": "from the freezer, dated"})
    assert house.available(f"{command}/butter") == 300_000
    assert house.questions() == []


def test_LG3_a_count_answers_the_question_about_an_overdrawn_shelf(house):
    butter(house)
    house.do("use", {"batch": "b", "quantity": "1.2 kg"})
    assert house.question("overdrawn").about == "b|area:cold-room"
    house.do("count", counted(of("b", "0 g")))
    assert house.questions("overdrawn") == []
    assert house.balances("b")["count_difference"] == -200_000
    (row,) = [row for row in house.rows(QuestionRow) if row.kind == "overdrawn"]
    assert (row.answer, row.settled_by) == ("it was counted", "Cato Brand")


def test_LG3_an_overdrawn_batch_is_put_right_by_a_count_of_its_item(house):
    butter(house)
    house.do("use", {"batch": "b", "quantity": "1.2 kg"})
    house.do("count", counted(item("butter", "0 g")))
    assert "area:cold-room" not in house.balances("b")


def test_an_overdrawn_shelf_is_asked_about_again_once_it_was_settled(house):
    butter(house)
    house.do("use", {"batch": "b", "quantity": "1.2 kg"})
    first = house.question("overdrawn")
    house.do("settle", {"question": first.id, "answer": "count it"}, person=MANAGER)
    house.do("use", {"batch": "b", "quantity": "100 g"})
    assert house.question("overdrawn").id == f"{first.id}|2"


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ({"quantity": "1 g"}, "counted_nothing"),
        ({"batch": "?", "quantity": "1 g"}, "batch_unknown"),
        ({"item": "?", "quantity": "1 g"}, "item_unknown"),
        ({"batch": "b", "quantity": "many"}, None),
    ],
)
def test_a_line_that_cannot_be_read_is_named_and_nothing_of_the_count_is_posted(house, line, code):
    butter(house)
    problem = house.keeps("count", counted(of("b", "700 g"), line))
    assert code in (None, problem.code)
    assert problem.field.startswith("body.lines[1]")
    assert house.balances("b")["area:cold-room"] == 1_000_000


def test_an_unknown_area_is_asked_about(house):
    assert house.keeps("count", counted(area="?")).code == "area_unknown"
