"""The worked example of the guide: every number there is what the program says.

Each figure was derived by hand in `pantry/guide/worked-example.md`; nothing here is computed.
"""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from pantry.cli import main

HERE = Path(__file__).parent
THURSDAY, SATURDAY = "2027-03-11/dinner/family", "2027-03-13/lunch/family"


def chooseby(data: Path, now: str, *words: str) -> str:
    """What the real program answers; that it does so in a process of its own is shown elsewhere."""
    environment = {"CHOOSEBY_DATA": str(data), "CHOOSEBY_NOW": now}
    ended = CliRunner().invoke(main, words, env=environment)
    assert ended.exit_code == 0, ended.output
    return ended.stdout


@pytest.fixture(scope="module")
def answers(tmp_path_factory):
    """The house after the twenty commands: its answers, and the reports by name."""
    data = tmp_path_factory.mktemp("withy")
    chooseby(data, "2027-03-08T08:00:00Z", "import", str(HERE / "book"))
    later = "2027-03-09T08:00:00Z"
    given = chooseby(data, later, "apply", str(HERE / "commands.jsonl"))
    reports = {
        name: json.loads(chooseby(data, later, name, "--json"))["rows"]
        for name in ("plan", "coverage", "stock", "questions")
    }
    chooseby(data, later, "verify")
    return [json.loads(line) for line in given.splitlines()], reports


def test_all_twenty_commands_are_applied_and_the_last_gets_the_first_answer(answers):
    given, _ = answers
    assert [answer["outcome"] for answer in given] == ["applied"] * 20
    assert given[19] == given[9]


def test_the_plan_is_what_pencil_and_paper_give(answers):
    rows = answers[1]["plan"]
    found = [
        (
            row["item"],
            row["net"]["value"],
            row["supplier"],
            row["packs"],
            row["order_by"],
            row["delivery"],
            row["alert"],
            row["because"],
            row["cost"]["minor"],
        )
        for row in rows
    ]
    greens, dairy = "Orchard Greens", "Combe Dairy"
    assert found == [
        ("leeks", "700", greens, 0, "2027-03-08T12:00:00Z", "2027-03-09T09:00:00Z", "missed",
         [THURSDAY], 0),
        ("eggs", "7", dairy, 2, "2027-03-10T17:30:00Z", "2027-03-11T07:00:00Z", "none",
         ["par"], 420),
        ("leeks", "2000", greens, 2, "2027-03-11T12:00:00Z", "2027-03-12T09:00:00Z", "none",
         [SATURDAY], 560),
        ("double cream", "200", dairy, 1, "2027-03-12T17:30:00Z", "2027-03-13T07:00:00Z", "none",
         [SATURDAY], 480),
    ]  # fmt: skip


def test_the_ways_out_of_what_is_missed_are_five_portions_or_a_shop_run(answers):
    ways = answers[1]["plan"][0]["ways_out"]
    assert [way["kind"] for way in ways] == ["fewer_portions", "shop_run"]
    assert ways[0]["portions"] == 5
    assert ways[1]["quantity"] == {"value": "700", "unit": "g"}


def covered(rows, service):
    """Item, need, what was taken out, from where, short."""
    return [
        (
            row["item"],
            row["need"]["value"],
            row["taken_out"]["value"],
            [(part.get("label", "made"), part["quantity"]["value"]) for part in row["from"]],
            row["short"]["value"],
        )
        for row in rows
        if row["service"] == service
    ]


def test_thursday_is_covered_as_derived(answers):
    assert covered(answers[1]["coverage"], THURSDAY) == [
        ("butter", "120", "0", [("B-4", "120")], "0"),
        ("double cream", "400", "0", [("B-1", "400")], "0"),
        ("eggs", "4", "0", [("B-3", "4")], "0"),
        ("flour", "240", "240", [], "0"),
        ("leeks", "2000", "0", [("B-2", "800"), ("B-8", "500")], "700"),
    ]


def test_saturday_is_covered_as_derived(answers):
    assert covered(answers[1]["coverage"], SATURDAY) == [
        ("chicken stock", "1200", "0", [("made", "1200")], "0"),
        ("double cream", "200", "0", [], "200"),
        ("leeks", "2000", "0", [], "2000"),
        ("chicken bones", "1500", "0", [("B-6", "1500")], "0"),
    ]


def test_each_dish_has_its_choose_by(answers):
    rows = answers[1]["coverage"]
    choose_by = {row["service"]: row["choose_by"] for row in rows}
    assert choose_by == {THURSDAY: "2027-03-08T12:00:00Z", SATURDAY: "2027-03-11T12:00:00Z"}


def test_on_hand_is_available_promised_on_hold_and_emergency(answers):
    for row in answers[1]["stock"]:
        parts = ("available", "promised", "on_hold", "emergency")
        total = sum(float(row[part]["value"]) for part in parts)
        assert total == float(row["on_hand"]["value"]), row["label"]


def test_the_chef_is_asked_about_the_missing_egg_and_nothing_else(answers):
    assert [row["kind"] for row in answers[1]["questions"]] == ["count_difference"]
