"""Less is kept while few or none are in the house, and it is there when they come back (PL6)."""

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import HouseRow
from pantry.reports.notice import notice
from pantry.reports.plan import plan
from tests.commands.larkfield import CHEF, ID, MANAGER
from tests.reports.asking import told


@pytest.fixture
def kept(lodge):
    """Ten people, four of the family and six of the staff; butter is ordered a week ahead."""
    with writing(lodge.engine) as connection:
        change(connection, HouseRow, {"id": ID}, people=10)
    lodge.do("set_par", {"item": "butter", "floor": "500 g", "order_up_to": "2 kg"})
    rule = {"weekday": "friday", "time": "07:00", "cutoff_days_before": 4, "cutoff_time": "17:00"}
    body = {"supplier": "Hill Dairy", "deliveries": [rule], "closures": []}
    lodge.do("set_calendar", body, person=MANAGER)
    return lodge


def away(lodge, table, heads, first, last):
    body = {"away": lodge.new_id(), "who": f"All of {table}", "heads": heads, "table": table}
    lodge.do("say_away", body | {"first": first, "last": last}, person=CHEF)


def butter(lodge):
    return [
        (row["delivery"][:10], row["packs"], row["net"]["value"])
        for row in told(lodge, plan)
        if row["item"] == "Butter" and row["packs"]
    ]


def spells(lodge, item="Butter"):
    (row,) = [row for row in told(lodge, notice) if row["item"] == item]
    return row["spells"]


def test_PL6_an_occupied_house_is_kept_at_its_levels(kept):
    assert butter(kept) == [("2027-03-12", 8, "2000")]
    assert spells(kept) == []


def test_PL6_nothing_is_ordered_while_all_are_away_and_the_last_delivery_before_is_named(kept):
    away(kept, "family", 4, "2027-03-09", "2027-03-24")
    away(kept, "staff", 6, "2027-03-09", "2027-03-24")
    assert butter(kept) == [("2027-03-19", 4, "928.572")]
    assert spells(kept) == [
        {
            "house": "empty",
            "first": "2027-03-09",
            "last": "2027-03-24",
            "people": 0,
            "delivery": "2027-03-19T07:00:00Z",
            "order_by": "2027-03-15T17:00:00Z",
        }
    ]


def test_PL6_few_are_kept_for_as_few(kept):
    away(kept, "staff", 6, "2027-03-08", "2027-03-31")
    assert butter(kept)[0] == ("2027-03-12", 4, "933.334")
    (spell,) = spells(kept)
    assert (spell["house"], spell["people"], spell["last"]) == ("light", 4, "2027-03-31")


def test_PL6_what_has_no_level_has_no_spells(kept):
    away(kept, "family", 4, "2027-03-09", "2027-03-24")
    away(kept, "staff", 6, "2027-03-09", "2027-03-24")
    assert spells(kept, "Whole milk") == []


def test_PL7_the_derivation_names_who_is_there_on_each_day(kept):
    away(kept, "family", 4, "2027-03-09", "2027-03-24")
    away(kept, "staff", 6, "2027-03-09", "2027-03-24")
    (row,) = [row for row in told(kept, plan) if row["packs"]]
    assert "PL6" in row["derivation"]["rules"]
    reckoned = row["derivation"]["par"]["reckoned"]
    assert (reckoned["usual"], reckoned["floor"]) == (10, 500_000)
    assert reckoned["days"] == [
        *([f"2027-03-{day}", 0] for day in range(20, 25)),
        ["2027-03-25", 10],
        ["2027-03-26", 10],
    ]
