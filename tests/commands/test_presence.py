"""Who is in the house: menus follow what was said, and a confirmed one only by the chef."""

import pytest

from pantry.records.tables import ServiceRow, StayRow
from tests.commands.larkfield import APPROVER, CHEF, PORTER

DINNER = "2027-03-12/dinner/family"
STAY = {
    "stay": "hale",
    "who": "Ann Hale and Tom Hale",
    "heads": 2,
    "table": "Family",
    "first": "2027-03-12",
    "first_at": "dinner",
    "last": "2027-03-15",
    "last_at": "breakfast",
}


def covers(house, service=DINNER):
    return house.row(ServiceRow, id=service).covers


def asked(house):
    return [row for row in house.questions("covers_said") if row.settled_at is None]


def test_what_is_proposed_takes_the_number_by_itself_and_gives_it_back(house):
    house.propose(DINNER, "rice-pudding")
    said = house.do("say_stay", STAY, person=APPROVER)
    assert covers(house) == 6
    house.do("correct", {"command": said, "reason": "another week"})
    assert covers(house) == 4
    assert house.rows(StayRow) == []


def test_a_number_that_the_chef_wrote_is_the_chefs(house):
    house.propose(DINNER, "rice-pudding", covers=9)
    house.do("say_stay", STAY)
    assert covers(house) == 9


def test_a_menu_proposed_without_a_number_takes_what_was_said(house):
    house.do("say_stay", STAY)
    part = {"date": "2027-03-12", "meal": "dinner", "table": "family", "time": "19:30"}
    courses = [{"course": "main", "dishes": ["rice-pudding"]}]
    house.do("propose", {"service": part, "courses": courses})
    assert covers(house) == 6


def test_LG2_a_confirmed_menu_is_never_changed_silently_and_the_chef_is_asked_once(house):
    house.receive("m", "whole-milk", "4 l", {"kind": "use_by", "date": "2027-03-14"})
    house.menu(DINNER, "rice-pudding")
    before = house.promised("m")
    house.do("say_stay", STAY | {"by": "Lady Larkfield"})
    house.do("say_away", {"away": "o", "who": "Orrin", "table": "Family", "first": "2027-03-12"})
    assert covers(house) == 4
    assert house.promised("m") == before
    (question,) = asked(house)
    assert question.owner == "chef"
    assert question.against.startswith("5, not 4, said by Cato Brand on 2027-03-08")
    house.do("change_covers", {"service": DINNER, "covers": 5})
    assert asked(house) == []


def test_what_is_said_and_taken_back_asks_nothing_any_more(house):
    house.menu(DINNER, "rice-pudding")
    said = house.do("say_stay", STAY)
    assert len(asked(house)) == 1
    house.do("correct", {"command": said, "reason": "a slip"})
    assert asked(house) == []


def test_a_stay_that_is_changed_or_called_off_and_each_taken_back(house):
    house.propose(DINNER, "rice-pudding")
    house.do("say_stay", STAY)
    four = house.do("say_stay", STAY | {"heads": 4})
    assert covers(house) == 8
    off = house.do("end_stay", {"stay": "hale"})
    assert covers(house) == 4
    assert house.refuses("correct", {"command": four, "reason": "x"}).code == "said_again_since"
    house.do("correct", {"command": off, "reason": "they come"})
    assert covers(house) == 8
    house.do("correct", {"command": four, "reason": "two of them"})
    assert covers(house) == 6


def test_who_leaves_early_is_not_at_dinner(house):
    house.propose("2027-03-14/dinner/family", "rice-pudding")
    house.do("say_stay", STAY)
    assert covers(house, "2027-03-14/dinner/family") == 6
    house.do("end_stay", {"stay": "hale", "last": "2027-03-14", "last_at": "16:00"})
    assert covers(house, "2027-03-14/dinner/family") == 4


def test_where_everybody_is_away_the_chef_is_asked_and_nothing_stands_for_nobody(house):
    house.propose(DINNER, "rice-pudding")
    house.do(
        "say_away",
        {"away": "all", "who": "All", "heads": 4, "table": "family", "first": "2027-03-12"},
    )
    assert covers(house) == 4
    assert len(asked(house)) == 1


def test_a_rota_by_weekday_with_an_exception_and_what_was_before_it(house):
    lunch = "2027-03-12/lunch/staff"
    house.propose(lunch, "rice-pudding", covers=6, time="12:15")
    first = house.do("set_rota", {"table": "staff", "lines": [{"weekday": "Friday", "heads": 5}]})
    assert covers(house, lunch) == 5
    lines = [{"weekday": "friday", "heads": 5}, {"date": "2027-03-12", "meal": "lunch", "heads": 3}]
    second = house.do("set_rota", {"table": "staff", "lines": lines})
    assert covers(house, lunch) == 3
    house.do("correct", {"command": second, "reason": "not this week"})
    assert covers(house, lunch) == 5
    house.do("correct", {"command": first, "reason": "no rota"})
    assert covers(house, lunch) == 6


def test_AL3_a_guest_who_stays_again_is_asked_about_then_and_not_between(house):
    guest = {"person": "Ann Hale", "table": "family", "cannot_eat": ["milk"]}
    house.do("add_guest", guest | {"first": "2027-03-08", "last": "2027-03-09"})
    house.do("say_stay", STAY)
    house.propose("2027-03-18/dinner/family", "rice-pudding")
    chosen = {"service": "2027-03-18/dinner/family", "dishes": [{"dish": "rice-pudding"}]}
    house.do("confirm", chosen)
    house.propose(DINNER, "rice-pudding", covers=6)
    refused = house.refuses("confirm", {"service": DINNER, "dishes": [{"dish": "rice-pudding"}]})
    assert refused.code == "allergen_conflict"


@pytest.mark.parametrize(
    ("kind", "body", "code"),
    [
        ("say_stay", STAY | {"table": "attic"}, "table_unknown"),
        ("say_stay", STAY | {"last": "2027-03-11"}, "stay_backwards"),
        ("say_stay", STAY | {"last": "2027-03-12", "last_at": "lunch"}, "stay_backwards"),
        ("say_stay", STAY | {"last": "2027-03-12", "last_at": "19:00"}, "stay_backwards"),
        ("say_stay", STAY | {"first": "Friday"}, "date_unreadable"),
        ("say_stay", STAY | {"first_at": "elevenses"}, "meal_unknown"),
        ("say_stay", STAY | {"first_at": "25:00"}, "meal_unknown"),
        ("end_stay", {"stay": "nobody"}, "stay_unknown"),
        ("set_rota", {"table": "staff", "lines": [{"heads": 2}]}, "rota_line_unclear"),
        (
            "set_rota",
            {"table": "staff", "lines": [{"heads": 2, "weekday": "someday"}]},
            "weekday_unreadable",
        ),
        (
            "set_rota",
            {
                "table": "staff",
                "lines": [{"heads": 2, "weekday": "Monday"}, {"heads": 3, "weekday": "monday"}],
            },
            "rota_line_twice",
        ),
    ],
)
def test_what_cannot_be_so_is_refused_by_name(house, kind, body, code):
    assert house.refuses(kind, body).code == code


def test_SY3_a_stay_that_was_changed_meanwhile_is_not_decided_on_what_is_gone(house):
    first = house.do("say_stay", STAY)
    house.do("say_stay", STAY | {"heads": 3}, base=first)
    answer = house.give("say_stay", STAY | {"heads": 5}, base=first)
    assert (answer.outcome, answer.problem.code) == ("conflict", "base_moved")


def test_the_household_and_the_chef_say_who_comes_and_the_porter_does_not(house):
    assert house.refuses("say_stay", STAY, person=PORTER).code == "role_lacking"
    house.do("say_stay", STAY, person=APPROVER)
    ended = house.do("end_stay", {"stay": "hale"}, person=CHEF)
    house.do("correct", {"command": ended, "reason": "they come"}, person=APPROVER)


def test_the_household_takes_back_only_what_it_may_say(house):
    received = house.receive("m", "whole-milk", "4 l")
    taken_back = {"command": received, "reason": "no"}
    assert house.refuses("correct", taken_back, person=APPROVER).code == "role_lacking"
