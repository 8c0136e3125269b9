"""The shapes that programs rely on, key by key, and what they say of Rookhope Lodge."""

import json
import re

import pytest

from tests.cli.commands import command, lines

INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
ENVELOPE = {"schema", "house", "zone", "as_of", "position", "rows"}
POSSET = "2027-03-13/dinner/family"


def is_quantity(value):
    return set(value) == {"value", "unit"} and re.fullmatch(r"-?\d+(\.\d+)?", value["value"])


def rows(terminal, *words):
    answer = terminal.json(*words)
    assert answer.keys() >= ENVELOPE
    assert answer["schema"] == 1
    assert answer["house"] == "Rookhope Lodge"
    assert answer["zone"] == "Europe/London"
    assert answer["as_of"] == "2027-03-10T07:00:00Z"
    return answer["rows"]


STOCK = {
    "item",
    "batch",
    "label",
    "area",
    "state",
    "date_mark",
    "usable_until",
    "good_until",
    "on_hand",
    "promised",
    "on_hold",
    "available",
    "lot",
}


def test_stock(asked):
    found = rows(asked, "stock")
    assert all(row.keys() >= STOCK for row in found)
    cream = next(row for row in found if row["label"] == "R-0001")
    assert cream["item"] == "Double cream"
    assert cream["area"] == "Cold room"
    assert cream["state"] == "sealed"
    assert cream["date_mark"] == {"kind": "use_by", "date": "2027-03-12"}
    assert cream["usable_until"] == "2027-03-12T23:59:59Z"
    assert cream["good_until"] is None
    assert cream["lot"] == "C11"
    for name in ("on_hand", "promised", "on_hold", "available"):
        assert is_quantity(cream[name])


def test_LG2_on_hand_is_what_is_available_promised_on_hold_and_kept_for_an_emergency(asked):
    for row in rows(asked, "stock"):
        parts = ("available", "promised", "on_hold", "emergency")
        total = sum(float(row[name]["value"]) for name in parts)
        assert total == pytest.approx(float(row["on_hand"]["value"]))
    trout = next(row for row in rows(asked, "stock") if row["label"] == "R-0003")
    assert trout["promised"] == {"value": "600", "unit": "g"}


def test_use_first(asked):
    found = rows(asked, "use-first")
    keys = {"item", "batch", "available", "usable_until", "could_use"}
    assert all(row.keys() >= keys for row in found)
    assert [row["label"] for row in found] == ["R-0004", "R-0005", "R-0001"]
    assert {use["dish"] for use in found[2]["could_use"]} == {"Honey cream", "Lemon posset"}


PLAN = {
    "item",
    "net",
    "wanted_by",
    "supplier",
    "pack",
    "packs",
    "order_by",
    "delivery",
    "alert",
    "because",
    "ways_out",
    "cost",
    "derivation",
}


def test_PL3_plan(asked):
    """The two litres die on Friday; Saturday's litre comes on Saturday, ordered by Friday."""
    found = rows(asked, "plan")
    assert all(row.keys() >= PLAN for row in found)
    cream = next(row for row in found if row["item"] == "Double cream")
    assert cream["net"] == {"value": "1000", "unit": "ml"}
    assert cream["supplier"] == "Weardale Dairy"
    assert (cream["pack"], cream["packs"]) == ("1 l tub", 1)
    assert cream["order_by"] == "2027-03-12T16:50:00Z"
    assert cream["delivery"] == "2027-03-13T06:45:00Z"
    assert cream["wanted_by"] == "2027-03-13T15:30:00Z"
    assert cream["alert"] in {"open", "last_call", "missed", "none"}
    assert cream["because"] == [POSSET]
    assert cream["cost"] == {"minor": 620, "currency": "GBP"}
    assert isinstance(cream["ways_out"], list)
    assert "PL3" in cream["derivation"]["rules"]


COVERAGE = {
    "service",
    "dish",
    "item",
    "need",
    "from",
    "short",
    "mend_until",
    "choose_by",
    "flags",
}


def test_coverage(asked):
    found = rows(asked, "coverage")
    assert all(row.keys() >= COVERAGE for row in found)
    trout = next(row for row in found if row["item"] == "Trout fillet")
    assert trout["service"] == "2027-03-11/dinner/family"
    assert [set(part) >= {"batch", "quantity"} for part in trout["from"]] == [True]
    assert trout["short"] == {"value": "0", "unit": "g"}
    assert trout["mend_until"] is None


def test_coverage_of_one_service(asked):
    found = rows(asked, "coverage", "--service", POSSET)
    assert {row["service"] for row in found} == {POSSET}
    cream = next(row for row in found if row["item"] == "Double cream")
    assert cream["short"] == {"value": "1000", "unit": "ml"}
    assert cream["mend_until"] == "2027-03-12T16:50:00Z"
    assert "contains:milk:Ann Weir" in cream["flags"]
    assert found == [row for row in rows(asked, "coverage") if row["service"] == POSSET]
    assert found == rows(asked, "coverage", "--service", "2027-03-13/Dinner/Family")


def test_a_service_that_is_not_ahead_is_refused_with_those_that_are(asked):
    result = asked.run("coverage", "--service", "2027-03-13/lunch/family", code=1)
    assert POSSET in result.stderr
    for name in ("2027-03-09/dinner/family", "Saturday"):
        assert "[service_not_ahead]" in asked.run("coverage", "--service", name, code=1).stderr


def test_PL6_notice(asked):
    answer = asked.json("notice")
    assert answer["needed_by_menu"].startswith("P")
    found = {row["item"]: row for row in answer["rows"]}
    keys = {"item", "needed", "verdict", "fails", "floor", "order_up_to"}
    assert all(row.keys() >= keys for row in found.values())
    assert found["Double cream"]["verdict"] == "bought_in"
    assert found["Double cream"]["fails"] == []
    assert found["Caster sugar"]["verdict"] == "kept_in"
    for fail in found["Caster sugar"]["fails"]:
        assert set(fail) == {"weekday", "meal", "by"}
    assert is_quantity(found["Caster sugar"]["floor"])


@pytest.mark.parametrize("name", ["R-0001", "C11"])
def test_trace(asked, name):
    found = rows(asked, "trace", name)
    keys = {"direction", "batch", "lot", "link"}
    assert all(row.keys() >= keys and ("to" in row or "from" in row) for row in found)
    assert [row["direction"] for row in found[:2]] == ["back", "forward"]
    assert {row["label"] for row in found[:2]} == {"R-0001"}
    assert {row["link"] for row in found} <= {"scanned", "assumed"}


def test_a_lot_that_nobody_knows_is_refused(asked):
    assert "[traced_nothing]" in asked.run("trace", "C99", code=1).stderr


def test_AL3_questions(asked):
    (question,) = rows(asked, "questions")
    keys = {"question", "kind", "owner", "about", "recorded", "against", "answers", "opened_at"}
    assert question.keys() >= keys
    assert question["about"] == POSSET
    assert len(question["answers"]) <= 3


def test_SY6_changes_since_a_number(asked):
    found = rows(asked, "changes")
    assert [row["number"] for row in found] == list(range(1, len(found) + 1))
    assert all(row.keys() == {"number", "position", "what", "key"} for row in found)
    later = rows(asked, "changes", "--since", 10)
    assert later == found[10:]
    asked.run("changes", "--since", "-1", code=2)


def test_a_question_that_was_settled_is_no_longer_asked(lodge):
    (question,) = rows(lodge, "questions")
    body = {"question": question["question"], "answer": question["answers"][0]}
    lodge.run("apply", "-", given=lines(command("settle", body)))
    assert rows(lodge, "questions") == []


def test_LG5_time_alone_raises_a_question(asked):
    later = {"CHOOSEBY_NOW": "2027-03-14T07:00:00Z"}
    answer = asked.json("questions", **later)
    assert answer["as_of"] == "2027-03-14T07:00:00Z"
    assert {row["about"] for row in answer["rows"]} >= {POSSET, "2027-03-11/dinner/family"}


def test_the_days_are_one_line_of_time(asked):
    """Thursday's sugar and trout, Friday's dead cream and the order for Saturday's."""
    found = [(row["day"], row["what"]) for row in rows(asked, "days")]
    for row in (
        ("2027-03-11", "delivery"),
        ("2027-03-11", "service"),
        ("2027-03-12", "cut_off"),
        ("2027-03-12", "dies"),
        ("2027-03-13", "service"),
        ("2027-03-16", "service"),
    ):
        assert row in found
    two = rows(asked, "days", "--days", 2)
    assert {row["day"] for row in two} == {"2027-03-10", "2027-03-11"}
    asked.run("days", "--days", "0", code=2)
    asked.run("days", "--days", "29", code=2)


def test_the_morning_has_today_and_what_was_left(asked):
    found = rows(asked, "morning")
    assert {row["what"] for row in found} >= {"dies", "left"}
    assert all(row["day"] == "2027-03-10" for row in found if row["what"] != "left")


def test_what_is_expected_and_what_a_code_says(asked):
    (order,) = rows(asked, "expected")
    assert (order["supplier"], order["at"]) == ("Alston Stores", "2027-03-11T12:00:00Z")
    (row,) = rows(asked, "code", "R-0001")
    assert [match["label"] for match in row["matches"]] == ["R-0001"]
    assert "[not_a_code]" in asked.run("code", "?!", code=1).stderr


def test_what_a_house_is_serves_and_stocks(asked):
    (house,) = rows(asked, "house")
    assert house["has"]["items"] == len(rows(asked, "items")) == 5
    assert {row["dish"] for row in rows(asked, "dishes")} == {
        "Grilled trout",
        "Honey cream",
        "Lemon posset",
    }
    services = [row["service"] for row in rows(asked, "menus")]
    assert services[0] == "2027-03-09/dinner/family"
    assert POSSET in services


REPORTS = [
    ("house",),
    ("days",),
    ("morning",),
    ("pull",),
    ("pick",),
    ("preparations",),
    ("serving",),
    ("served",),
    ("sheets",),
    ("menus",),
    ("dishes",),
    ("recipes",),
    ("expected",),
    ("items",),
    ("code", "R-0001"),
    ("stock",),
    ("wrong-places",),
    ("use-first",),
    ("plan",),
    ("coverage",),
    ("late-change", "2027-03-13/dinner/family", "--off"),
    ("dishes-for", "2027-03-14/dinner/family", "--time", "19:30", "--covers", "6"),
    ("notice",),
    ("notice", "--longer"),
    ("suppliers", "--record"),
    ("temperatures",),
    ("cooling",),
    ("checks", "--days", "30"),
    ("questions",),
    ("waste",),
    ("waste", "--without-batch"),
    ("changes",),
    ("trace", "C11"),
]


@pytest.mark.parametrize("words", REPORTS, ids="-".join)
def test_every_instant_is_utc_in_whole_seconds(asked, words):
    text = json.dumps(asked.json(*words))
    for instant in re.findall(r'"(\d{4}-\d\d-\d\dT[^"]*)"', text):
        assert INSTANT.fullmatch(instant)


@pytest.mark.parametrize("words", REPORTS, ids="-".join)
def test_without_a_house_every_report_says_what_to_do(empty, words):
    result = empty.run(*words, code=1)
    assert "chooseby import" in result.stderr
    assert "chooseby demo" in result.stderr
    assert not empty.data.exists()
