"""What is told of shop runs, and of what the back door asks for."""

from pantry.reports.asked_for import asked_for
from pantry.reports.house import house as house_report
from pantry.reports.questions import questions
from pantry.reports.shop_runs import shop_runs
from tests.commands.house import DAY, at, use_by
from tests.commands.larkfield import PORTER
from tests.reports.asking import told

DINNER = "2027-03-09/dinner/family"
RECEIPT = "0196f000-0000-7000-8000-00000000abcd"


def pounds(minor):
    return {"minor": minor, "currency": "GBP"}


def test_a_shop_run_is_told_with_its_receipt_and_no_cost_is_made_up(lodge):
    lines = [
        {"batch": "b", "item": "butter", "quantity": "250 g", "cost": pounds(310)},
        {"batch": "f", "item": "plain-flour", "quantity": "1 kg"},
    ]
    body = {"shop": "Corner shop", "total": pounds(900), "lines": lines, "others": ["ice"]}
    command = lodge.do("shop_run", body | {"photos": [RECEIPT]}, person=PORTER)
    (row,) = told(lodge, shop_runs)
    assert (row["run"], row["shop"], row["person"]) == (command, "Corner shop", PORTER)
    assert (row["total"], row["others"], row["photos"]) == (pounds(900), ["ice"], [RECEIPT])
    costs = [(line["item"], line["quantity"], line["cost"]) for line in row["lines"]]
    assert costs == [
        ("Butter", {"value": "250", "unit": "g"}, pounds(310)),
        ("Plain flour", {"value": "1000", "unit": "g"}, None),
    ]


def test_weeks_begin_on_the_house_s_monday_and_the_last_run_comes_first(lodge):
    """ISO 8601, 3.1.1.23: a calendar week begins on Monday."""
    for day in (7, 8, 14):
        lodge.do("shop_run", {"shop": f"Shop {day}"}, at=at(day))
    weeks = [(row["shop"], row["week"]) for row in told(lodge, shop_runs)]
    assert weeks == [
        ("Shop 14", "2027-03-08"),
        ("Shop 8", "2027-03-08"),
        ("Shop 7", "2027-03-01"),
    ]


def test_a_quarter_is_told_and_every_shop_is_remembered_once(lodge):
    lodge.do("shop_run", {"shop": "Corner shop"})
    lodge.now += 92 * DAY
    lodge.do("shop_run", {"shop": "Sandnes Stores"})
    lodge.do("shop_run", {"shop": "Sandnes Stores"})
    assert [row["shop"] for row in told(lodge, shop_runs)] == ["Sandnes Stores"] * 2
    (row,) = told(lodge, house_report)
    assert row["shops"] == ["Sandnes Stores", "Corner shop"]


def test_what_is_asked_for_says_what_the_books_have_and_who_wants_it_first(lodge):
    lodge.do("ask_for", {"words": "bin liners"}, person=PORTER)
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.menu(DINNER, "rice-pudding")
    lodge.do("run_out", {"item": "whole-milk"}, person=PORTER)
    milk, liners = told(lodge, asked_for)
    assert (milk["item"], milk["on_hand"]) == ("Whole milk", {"value": "2000", "unit": "ml"})
    assert (milk["wanted_for"], milk["wanted_by"] is not None) == (DINNER, True)
    assert (liners["words"], liners["item"], liners["wanted_by"]) == ("bin liners", None, None)


def test_PL5_the_chef_is_told_who_goes_without_whatever_the_books_say(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.menu(DINNER, "rice-pudding")
    lodge.do("run_out", {"item": "whole-milk"}, person=PORTER)
    (row,) = told(lodge, questions)
    (line,) = row["short"]
    assert (row["kind"], line["item"]) == ("run_out", "Whole milk")
    (dish,) = line["dishes"]
    assert (dish["service"], dish["lacking"]) == (DINNER, line["missing"])
    assert dish["wanted_by"] <= "2027-03-09T19:30:00Z"
    assert "shop_run" in {way["kind"] for way in dish["ways_out"]}


def test_PL5_what_was_taken_out_already_is_not_lacking(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.menu(DINNER, "rice-pudding")
    lodge.do("take_out", {"batch": "m", "quantity": "2 l", "service": DINNER})
    lodge.do("run_out", {"item": "whole-milk"}, person=PORTER)
    (row,) = [row for row in told(lodge, questions) if row["kind"] == "run_out"]
    assert row["short"][0]["dishes"] == []


def test_MS3_of_what_nobody_counts_the_dishes_that_ask_for_it_are_told(lodge):
    lodge.menu(DINNER, "pancakes")
    lodge.do("run_out", {"item": "salt"}, person=PORTER)
    (row,) = [row for row in told(lodge, questions) if row["kind"] == "run_out"]
    (line,) = row["short"]
    assert line["missing"] == {"value": "0", "unit": "g"}
    (dish,) = line["dishes"]
    assert (dish["dish"], dish["service"], dish["ways_out"]) == ("Pancakes", DINNER, [])
