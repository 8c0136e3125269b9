"""Counting a storage area: the books follow the shelf (LG3, SY8)."""

import pytest

from pantry.records.tables import CountedRow, QuestionRow
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


@pytest.mark.parametrize(
    ("group", "high_risk", "percent"),
    [("Fish", False, 3), ("dairy", True, 5), ("sauces", True, 3), ("baking", False, 5)],
)
def test_LG3_the_tolerance_is_that_of_the_class_of_food(house, group, high_risk, percent):
    house.set_item("butter", group=group, high_risk=high_risk)
    butter(house)
    house.do("count", counted(of("b", f"{1000 - 10 * percent} g")))
    assert house.questions() == []
    house.do("count", counted(of("b", f"{1000 - 20 * percent - 1} g")))
    assert len(house.questions("count_difference")) == 1


def test_LG3_a_house_sets_its_own_tolerance_closer_or_by_name_wider(house):
    butter(house)
    own = {"name": "counting.dry.tolerance", "value": 1, "reason": "we weigh"}
    house.do("set_policy", own, person=MANAGER)
    house.do("count", counted(of("b", "985 g")))
    assert len(house.questions("count_difference")) == 1
    wider = own | {"value": 10, "reason": ""}
    assert house.refuses("set_policy", wider, person=MANAGER).code == "looser_than_policy"


def test_LG3_why_it_differs_is_not_asked_where_the_line_says_it(house):
    butter(house)
    command = house.do("count", counted(of("b", "700 g", reason="given away"), reason="monthly"))
    assert house.movements(command)[0].reason == "given away"
    assert house.questions() == []


# The second count


def salmon(house, quantity="1 kg"):
    house.receive("s", "salmon", quantity, at=at(7))


def test_LG3_a_first_count_that_is_far_off_what_matters_does_not_decide(house):
    salmon(house)
    command = house.do("count", counted(of("s", "700 g", second=False)), person=PORTER)
    assert house.movements(command) == []
    asked = house.question("count_again")
    assert (asked.about, asked.owner) == ("area:cold-room|s", "porter")
    assert PORTER in asked.recorded
    assert "1 kg" not in asked.recorded + asked.against, "a second count is blind, too"


def test_LG3_a_first_count_within_tolerance_decides(house):
    salmon(house)
    house.do("count", counted(of("s", "980 g", second=False)))
    assert house.balances("s")["area:cold-room"] == 980_000
    assert house.questions() == []


@pytest.mark.parametrize("second", [{"second": True}, {"second": False}, {}])
def test_LG3_the_second_count_decides_whoever_gives_it(house, second):
    salmon(house)
    house.do("count", counted(of("s", "700 g", second=False)), person=PORTER)
    house.do("count", counted(of("s", "720 g", **second)))
    assert house.balances("s")["area:cold-room"] == 720_000
    assert house.questions("count_again") == []
    assert len(house.questions("count_difference")) == 1


def test_LG3_a_second_count_that_agrees_with_the_books_leaves_them_and_asks_nothing(house):
    salmon(house)
    house.do("count", counted(of("s", "700 g", second=False)), person=PORTER)
    house.do("count", counted(of("s", "1 kg", second=True)))
    assert house.balances("s")["area:cold-room"] == 1_000_000
    assert house.questions() == []


def test_LG3_who_is_alone_counts_twice_and_is_not_held_up(house):
    salmon(house)
    house.do("count", counted(of("s", "700 g", second=True)), person=PORTER)
    assert house.balances("s")["area:cold-room"] == 700_000


def test_LG3_a_count_that_says_nothing_of_a_second_one_decides(house):
    salmon(house)
    house.do("count", counted(of("s", "700 g")))
    assert house.balances("s")["area:cold-room"] == 700_000


def test_LG3_what_matters_is_of_high_risk_or_of_high_value(house):
    cost = {"minor": 5000, "currency": "GBP"}
    house.receive("w", "walnuts", "1 kg", cost=cost)
    butter(house, cost=cost | {"minor": 100})
    house.do("count", counted(of("b", "500 g", second=False)))
    assert house.balances("b")["area:cold-room"] == 500_000
    pantry = {"area": "Pantry", "lines": [of("w", "500 g", second=False)]}
    house.do("count", pantry)
    assert house.balances("w")["area:pantry"] == 1_000_000
    assert house.question("count_again").about == "area:pantry|w"


# The order of the shelves


def shelves(house):
    rows = house.rows(CountedRow, area="cold-room")
    return [row.item for row in sorted(rows, key=lambda row: row.place)]


def test_LG3_things_stand_in_the_order_they_were_counted_in(house):
    butter(house)
    house.do("count", counted(item("salmon", "0 g"), of("b", "1 kg"), item("rhubarb", "0 g")))
    assert shelves(house) == ["salmon", "butter", "rhubarb"]
    house.do("count", counted(item("rhubarb", "0 g"), item("walnuts", "0 g"), of("b", "1 kg")))
    assert shelves(house) == ["salmon", "rhubarb", "walnuts", "butter"]


def test_SY8_what_was_counted_since_stays_as_it_was_found(house):
    butter(house)
    house.do("count", counted(of("b", "1 kg")), at=at(8, 12))
    house.do("count", counted(of("b", "900 g")), at=at(8, 11), person=PORTER)
    assert house.row(CountedRow, item="butter").quantity == 1_000_000


def test_LG4_a_count_that_agreed_can_be_taken_back_and_holds_no_more(house):
    butter(house)
    command = house.do("count", counted(of("b", "1 kg")), at=at(8, 9))
    house.do("correct", {"command": command, "reason": "the wrong shelf"})
    house.do("use", {"batch": "b", "quantity": "100 g"}, at=at(8, 8))
    assert house.balances("b")["area:cold-room"] == 900_000
    row = house.row(CountedRow, item="butter")
    assert (row.command, row.place) == ("", 0)


def test_LG4_a_count_taken_back_asks_nothing_and_what_it_answered_is_asked_again(house):
    salmon(house)
    first = house.do("count", counted(of("s", "700 g", second=False)), person=PORTER)
    second = house.do("count", counted(of("s", "720 g", second=True)))
    house.do("correct", {"command": second, "reason": "the wrong tray"})
    assert [each.kind for each in house.questions()] == ["count_again"]
    house.do("correct", {"command": first, "reason": "the wrong tray"})
    assert house.questions() == []
    assert house.balances("s")["area:cold-room"] == 1_000_000


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


def test_LG3_what_is_promised_for_tomorrow_may_have_been_taken_out_already_too(house):
    butter(house)
    house.menu("2027-03-09/lunch/family", "baked-salmon")
    house.do("count", counted(of("b", "960 g")))
    assert house.question("taken_out").recorded.endswith("than the books have there.")


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


def test_LG3_an_item_counted_whatever_the_batch_is_held_to_the_tolerance_of_all_of_it(house):
    for batch in ("a", "b", "c", "d"):
        house.receive(batch, "salmon", "1 kg", at=at(7))
    house.do("count", counted(item("salmon", "3.9 kg", second=False)))
    assert house.questions() == []
    assert sum(house.balances(each)["area:cold-room"] for each in "abcd") == 3_900_000
    house.do("count", counted(item("salmon", "3.5 kg", second=False)))
    assert len(house.questions("count_again")) == 1


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
