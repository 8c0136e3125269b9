"""Time passes: a service nobody recorded, and what it held (LG5)."""

from pantry.records.tables import QuestionRow, ServiceRow
from tests.commands.house import DAY, at, use_by

DINNER = "2027-03-10/dinner/family"


def planned(house, day=14):
    house.receive("m", "whole-milk", "2 l", use_by(day))
    house.menu(DINNER, "rice-pudding")


def test_LG5_a_service_whose_time_has_passed_opens_one_question(house):
    planned(house)
    house.now = at(11, 8)
    house.hand_in()
    asked = house.question("unserved")
    assert (asked.about, asked.owner) == (DINNER, "chef")
    house.now += DAY
    house.hand_in()
    assert len(house.rows(QuestionRow)) == 1


def test_LG5_it_keeps_nobodys_stock_for_ever(house):
    planned(house)
    house.now = at(11, 8)
    house.hand_in()
    assert house.promised("m") == {}
    assert house.available("m") == 2_000_000


def test_LG5_what_it_held_goes_to_whoever_lacks_it(house):
    house.receive("m", "whole-milk", "1 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    house.menu("2027-03-13/dinner/family", "rice-pudding")
    assert house.promised("m") == {DINNER: 1_000_000}
    house.now = at(11, 8)
    house.hand_in()
    assert house.promised("m") == {"2027-03-13/dinner/family": 1_000_000}


def test_LG5_it_is_given_nothing_again(house):
    planned(house)
    house.now = at(11, 8)
    house.receive("n", "whole-milk", "2 l", use_by(20))
    house.do("use", {"batch": "m", "quantity": "100 ml"})
    assert house.promised("m") == house.promised("n") == {}


def test_LG5_until_then_what_it_holds_stays_with_it(house):
    planned(house)
    house.now = at(10, 23)
    house.receive("n", "whole-milk", "2 l", use_by(11))
    house.menu("2027-03-11/dinner/family", "rice-pudding")
    assert house.promised("m") == {DINNER: 1_000_000}
    assert house.questions() == []


def test_LG5_served_after_all_it_had_what_died_first(house):
    planned(house)
    house.receive("n", "whole-milk", "300 ml", use_by(11))
    house.now = at(12)
    house.hand_in()
    house.do("serve", {"service": DINNER})
    assert house.balances("n")[f"served:{DINNER}"] == 300_000
    assert house.balances("m")[f"served:{DINNER}"] == 700_000
    assert house.questions() == []
    (row,) = house.rows(QuestionRow)
    assert row.answer == "it was served"


def test_LG5_taken_off_after_all_the_question_has_its_answer(house):
    planned(house)
    house.now = at(12)
    house.do("take_off", {"service": DINNER, "reason": "nobody came"})
    assert house.questions() == []
    assert house.row(ServiceRow).state == "taken_off"


def test_LG5_a_settled_question_is_not_asked_again(house):
    planned(house)
    house.now = at(12)
    house.hand_in()
    answer = "it did not take place"
    house.do("settle", {"question": f"unserved|{DINNER}", "answer": answer})
    house.now = at(14)
    house.hand_in()
    assert house.questions() == []
