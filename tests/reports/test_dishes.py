"""Every dish of the demo house against its sheets."""

import pytest

from pantry.reports.dishes import dishes
from tests.commands.house import at, use_by
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, sheet

RANKS = ["family", "children", "staff"]


@pytest.fixture(scope="module")
def known(house):
    return asked(house, dishes)


def test_every_dish_and_no_preparation_is_there_by_name(known):
    written = {row["recipe"]: row for row in sheet("recipes") if row["kind"] == "dish"}
    assert [row["dish"] for row in known] == sorted(written)
    for row in known:
        line = written[row["dish"]]
        assert f"{row['yields']} portions" == line["yield"]
        assert row["approved"] == (line["approved"] == "yes")
        assert row["season_from"] == (line["season_from"] or None)
        assert row["season_to"] == (line["season_to"] or None)
        assert row["lead"] == (line["lead"] or "PT0S")
        assert row["method"] == line["method"]


def test_its_lines_are_as_they_were_written_and_in_their_order(known):
    written = {}
    for row in sheet("ingredients"):
        line = (row["ingredient"], row["amount"])
        written.setdefault(row["recipe"], []).append(line)
    for row in known:
        found = [(line["item"], line["amount"]) for line in row["lines"]]
        assert found == written[row["dish"]]


def test_its_variants_are_those_of_the_sheet(known):
    written = {}
    for row in sheet("variants"):
        written.setdefault(row["recipe"], set()).add(row["variant"])
    for row in known:
        assert set(row["variants"]) == written.get(row["dish"], set())


def test_it_says_when_which_table_last_had_it(known):
    served = {
        (row["date"], row["meal"], row["table"])
        for row in sheet("services")
        if row["state"] == "served"
    }
    last = {}
    for row in sheet("choices"):
        if (row["date"], row["meal"], row["table"]) in served:
            of_dish = last.setdefault(row["dish"], {})
            of_dish[row["table"]] = max(of_dish.get(row["table"], ""), row["date"])
    for row in known:
        tables = [each["table"] for each in row["last_served"]]
        assert tables == sorted(tables, key=RANKS.index)
        found = {each["table"]: each["date"] for each in row["last_served"]}
        assert found == last.get(row["dish"], {})


def test_AL3_a_dish_contains_what_its_preparations_contain(known):
    """Sweet pastry brings wheat, egg and butter; ground and flaked almonds bring almond."""
    tart = one(known, dish="Almond and pear tart")
    assert tart["contains"] == ["almond", "eggs", "milk", "wheat"]
    assert (tart["may_contain"], tart["unknown"]) == ([], [])


def test_AL3_what_is_not_known_of_an_ingredient_is_not_known_of_the_dish(known):
    """Nobody knows what the fudge contains; that the ice cream contains milk and egg is known."""
    unknown = {row["dish"]: row for row in known if row["unknown"]}
    assert unknown.keys() == {"Ice cream with island fudge"}
    ice_cream = unknown["Ice cream with island fudge"]
    assert "nuts" in ice_cream["unknown"]
    assert "milk" not in ice_cream["unknown"]


def test_a_dish_that_is_taken_off_was_not_served(lodge):
    lodge.receive("m", "whole-milk", "4 l", use_by(20))
    lodge.receive("b", "butter", "250 g")
    for day in ("2027-03-08", "2027-03-09"):
        lodge.menu(f"{day}/dinner/family", "rice-pudding")
    lodge.now = at(9, 22)
    lodge.do("serve", {"service": "2027-03-08/dinner/family"})
    lodge.do("take_off", {"service": "2027-03-09/dinner/family", "reason": "all were out"})
    pudding = one(told(lodge, dishes), dish="Rice pudding")
    assert pudding["last_served"] == [{"table": "Family", "date": "2027-03-08"}]
