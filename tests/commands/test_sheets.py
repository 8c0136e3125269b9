"""Showing proposed menus to the household, and their answer (SY3)."""

import hashlib
import json
from datetime import date

import pytest

from pantry.records.database import writing
from pantry.records.read.menu import recipes, services
from pantry.records.rows import change
from pantry.records.tables import MenuAnswerRow, RecipeRow, SheetLinkRow, SheetRow
from pantry.rules.new_dishes import Served, is_new
from tests.commands.house import DAY, HOUR, at
from tests.commands.larkfield import APPROVER, CHEF, ID, MANAGER

DINNER = "2027-03-12/dinner/family"
LUNCH = "2027-03-12/lunch/staff"
LINK = hashlib.sha256(b"what only the link has").hexdigest()


@pytest.fixture
def shown(house):
    """The family's dinner with two dishes to choose from, shown by a link; the sheet's id."""
    house.propose(DINNER, "rice-pudding", "pancakes")
    return house.do("send_sheet", {"services": [DINNER], "link": LINK})


def picks(dish, **more):
    return {"courses": [{"course": "main", "dish": dish}]} | more


def answered(house):
    """The answers, the first first, each with what it says of its first course."""
    rows = sorted(house.rows(MenuAnswerRow), key=lambda row: row.number)
    return [(row, next(iter(json.loads(row.courses)), None)) for row in rows]


@pytest.mark.usefixtures("shown")
def test_a_sheet_is_of_proposed_services_until_the_last_of_them(house):
    row = house.row(SheetRow)
    assert (row.dining_table, row.recipient, row.sent_by) == ("family", "lady", CHEF)
    assert row.expires_at == at(12, 19, 30)
    assert house.row(SheetLinkRow).id == LINK


def test_a_sheet_of_several_tables_is_no_tables_own(house):
    house.propose(DINNER, "pancakes")
    house.propose(LUNCH, "broth", time="12:15")
    house.do("send_sheet", {"services": [DINNER, LUNCH]})
    assert house.row(SheetRow).dining_table is None
    assert house.rows(SheetLinkRow) == []


def test_what_is_chosen_or_over_is_not_shown_to_be_chosen_from(house):
    house.menu(DINNER, "pancakes")
    assert house.refuses("send_sheet", {"services": [DINNER]}).code == "service_state"
    house.propose(LUNCH, "broth", time="12:15")
    house.now += 5 * DAY
    assert house.refuses("send_sheet", {"services": [LUNCH]}).code == "service_state"


def test_a_new_dish_is_not_sent_up_without_its_recipe(house):
    house.propose(DINNER, "new-dish")
    problem = house.refuses("send_sheet", {"services": [DINNER]})
    assert problem.code == "sheet_recipe_missing"
    assert "New dish" in problem.detail
    assert "its method" in problem.detail
    writes(house, "new-dish", method="Melt it.")
    house.do("send_sheet", {"services": [DINNER]})


def writes(house, recipe, **columns):
    with writing(house.engine) as connection:
        change(connection, RecipeRow, {"house": ID, "id": recipe}, **columns)


def test_a_dish_is_new_unless_approved_and_once_served_in_a_year_of_records(house):
    with house.books() as connection:
        known = recipes(connection, ID)
    today = date(2027, 3, 8)
    nothing = Served({}, {})
    assert is_new(known["new-dish"], "family", nothing, today)
    assert not is_new(known["pancakes"], "family", nothing, today)
    young = Served({}, {"family": date(2026, 3, 9)})
    assert not is_new(known["pancakes"], "family", young, today)
    old = Served({"broth": {"family": date(2026, 9, 1)}}, {"family": date(2026, 3, 8)})
    assert is_new(known["pancakes"], "family", old, today)
    assert not is_new(known["broth"], "family", old, today)
    assert not is_new(known["pancakes"], "staff", old, today)


@pytest.mark.parametrize("until", ["2027-03-08T06:00:00Z", "2027-03-12T19:30:01Z"])
def test_a_link_ends_before_the_last_of_what_it_shows(house, until):
    house.propose(DINNER, "pancakes")
    problem = house.refuses("send_sheet", {"services": [DINNER], "until": until})
    assert problem.code == "sheet_time"


def test_a_sheet_is_sent_to_somebody_who_chooses(house):
    house.propose(DINNER, "pancakes")
    problem = house.refuses("send_sheet", {"services": [DINNER], "to": MANAGER})
    assert problem.code == "approver_unknown"
    assert APPROVER in problem.todo


@pytest.mark.usefixtures("shown")
def test_no_two_sheets_have_one_link(house):
    problem = house.refuses("send_sheet", {"services": [DINNER], "link": LINK})
    assert problem.code == "link_taken"


def test_an_answer_is_kept_and_confirms_nothing(house, shown):
    house.do("answer_menu", picks("pancakes", service=DINNER, sheet=shown), person=APPROVER)
    ((row, course),) = answered(house)
    assert (row.sheet, row.person, row.version) == (shown, APPROVER, 1)
    assert course == {
        "course": "main",
        "dish": "pancakes",
        "variant": None,
        "any": False,
        "instead": None,
        "not_these": [],
    }
    with house.books() as connection:
        (service,) = services(connection, ID, at(12), at(13))
    assert service.state == "proposed"


@pytest.mark.usefixtures("shown")
def test_an_answer_says_whom_how_many_and_a_wish(house):
    body = {"service": DINNER, "covers": 6, "wish": " No candles. ", "by": "Ottilie"}
    house.do("answer_menu", body, person=APPROVER)
    ((row, _),) = answered(house)
    assert (row.covers, row.wish, row.said_by) == (6, "No candles.", "Ottilie")


def test_the_last_of_two_answers_stands(house, shown):
    house.do("answer_menu", picks("pancakes", service=DINNER, sheet=shown), person=APPROVER)
    house.do("answer_menu", picks("rice pudding", service=DINNER, sheet=shown), person=APPROVER)
    assert [course["dish"] for _, course in answered(house)] == ["pancakes", "rice-pudding"]


@pytest.mark.usefixtures("shown")
def test_any_another_and_struck_dishes(house):
    course = {"course": "main", "instead": "broth", "not_these": ["pancakes", "rice pudding"]}
    house.do("answer_menu", {"service": DINNER, "courses": [course]})
    course = {"course": "Main", "any": True, "not_these": ["pancakes"]}
    house.do("answer_menu", {"service": DINNER, "courses": [course]})
    first, second = (course for _, course in answered(house))
    assert first["instead"] == "broth"
    assert first["not_these"] == ["pancakes", "rice-pudding"]
    assert (second["any"], second["course"]) == (True, "main")


@pytest.mark.usefixtures("shown")
@pytest.mark.parametrize(
    ("course", "code"),
    [
        ({"course": "main", "dish": "broth"}, "dish_not_proposed"),
        ({"course": "pudding", "dish": "pancakes"}, "course_unknown"),
        ({"course": "main", "dish": "pancakes", "any": True}, "answer_unclear"),
        ({"course": "main", "dish": "pancakes", "not_these": ["pancakes"]}, "answer_unclear"),
        ({"course": "main", "instead": "new-dish"}, "recipe_unapproved"),
        ({"course": "main", "instead": "chicken-stock"}, "dish_not_a_dish"),
        ({"course": "main", "instead": "caviar"}, "recipe_unknown"),
    ],
)
def test_what_cannot_be_meant_is_refused(house, course, code):
    problem = house.refuses("answer_menu", {"service": DINNER, "courses": [course]})
    assert problem.code == code


@pytest.mark.usefixtures("shown")
def test_an_answer_says_something(house):
    assert house.refuses("answer_menu", {"service": DINNER}).code == "answer_empty"


def test_an_answer_to_another_menu_than_what_stands_is_a_conflict(house, shown):
    house.propose(DINNER, "broth", "pancakes")
    body = picks("pancakes", service=DINNER, sheet=shown)
    answer = house.give("answer_menu", body, base=1, person=APPROVER)
    assert (answer.outcome, answer.problem.code) == ("conflict", "base_moved")
    house.do("answer_menu", body, base=2, person=APPROVER)


def test_what_is_settled_is_told_to_whoever_sent_the_sheet(house, shown):
    house.do("confirm", {"service": DINNER, "dishes": [{"dish": "pancakes"}]})
    body = picks("pancakes", service=DINNER, sheet=shown)
    problem = house.refuses("answer_menu", body, person=APPROVER)
    assert problem.code == "menu_settled"
    assert CHEF in problem.todo


def test_a_sheet_that_was_withdrawn_or_is_over_is_not_answered(house, shown):
    body = picks("pancakes", service=DINNER, sheet=shown)
    house.now = at(12, 19, 31)
    assert house.refuses("answer_menu", body).code == "sheet_over"
    house.now = at(12, 19, 30) - HOUR
    house.do("withdraw_sheet", {"sheet": shown})
    assert house.refuses("answer_menu", body).code == "sheet_over"
    assert house.refuses("withdraw_sheet", {"sheet": shown}).code == "sheet_over"
    assert house.refuses("withdraw_sheet", {"sheet": "none"}).code == "sheet_unknown"


def test_only_what_is_on_a_sheet_is_answered_by_it(house, shown):
    house.propose(LUNCH, "broth", time="12:15")
    problem = house.refuses("answer_menu", picks("broth", service=LUNCH, sheet=shown))
    assert problem.code == "sheet_unknown"


def test_a_new_dish_picked_from_a_sheet_is_approved_by_that(house):
    writes(house, "new-dish", method="Melt it.")
    house.propose(DINNER, "new-dish", "pancakes")
    sheet = house.do("send_sheet", {"services": [DINNER]})
    house.do("answer_menu", picks("new-dish", service=DINNER))
    assert not house.row(RecipeRow, id="new-dish").approved
    house.do("answer_menu", picks("new-dish", service=DINNER, sheet=sheet), person=APPROVER)
    assert house.row(RecipeRow, id="new-dish").approved
    house.do("confirm", {"service": DINNER, "dishes": [{"dish": "new-dish"}]})
