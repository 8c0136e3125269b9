"""What the garden of the demo house gives all at once, and what could use it."""

from datetime import UTC, datetime

import pytest

from pantry.reports.coverage import coverage
from pantry.reports.use_first import use_first
from tests.reports.demo_house import one, only, value


def test_CH1_rhubarb_that_stands_there_names_the_dishes_that_use_it_in_time(told):
    row = one(told(use_first), item="Rhubarb")
    assert (row["label"], value(row["available"])) == ("B-0049", 600)
    assert row["good_until"] == "2027-03-14T23:59:59Z"
    assert row["could_use"][:2] == [
        {"dish": "Rhubarb fool", "service": "2027-03-10/dinner/family"},
        {"dish": "Rhubarb crumble with custard", "service": "2027-03-14/lunch/family"},
    ]
    assert {"dish": "Duck breast with rhubarb", "service": "2027-03-19/dinner/family"} in row[
        "could_use"
    ]


def test_PL1_the_garden_covers_the_rhubarb_and_the_broccoli_that_are_proposed(told):
    from_garden = {}
    for item in ("Rhubarb", "Purple sprouting broccoli"):
        for row in only(told(coverage), item=item, state="proposed"):
            assert value(row["short"]) == 0, row
            if any("harvest" in part for part in row["from"]):
                from_garden.setdefault(item, set()).add(row["dish"])
    assert from_garden == {
        "Rhubarb": {"Rhubarb crumble with custard"},
        "Purple sprouting broccoli": {"Purple sprouting broccoli with anchovy butter"},
    }


@pytest.mark.xfail(reason="use first tells what stands in the house, not what the garden will give")
def test_CH1_a_glut_to_come_names_the_dishes_that_use_it(told):
    rows = told(use_first, at=datetime(2027, 3, 13, 7, tzinfo=UTC))
    broccoli = only(rows, item="Purple sprouting broccoli")
    assert "Purple sprouting broccoli with anchovy butter" in {
        use["dish"] for row in broccoli for use in row["could_use"]
    }
