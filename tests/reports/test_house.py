"""The house itself, against the demo house's sheets, and what a house begins with."""

from pantry.reports.house import house as house_report
from tests.commands.house import use_by
from tests.reports.asking import told
from tests.reports.demo_house import asked, sheet


def test_the_settings_are_those_of_the_book(house):
    (row,) = asked(house, house_report)
    (written,) = sheet("house")
    assert (row["name"], row["zone"], row["currency"], row["unit_system"]) == (
        written["name"],
        written["time_zone"],
        written["currency"],
        written["unit_system"],
    )
    assert (row["notice"], row["people"], row["decimal_mark"]) == ("PT72H", 14, ".")


def test_the_areas_stand_in_the_order_of_the_book_with_their_limits(house):
    (row,) = asked(house, house_report)
    written = [(r["area"], r["kind"], r["min_c"], r["max_c"]) for r in sheet("areas")]
    assert [(r["area"], r["kind"], r["min_c"], r["max_c"]) for r in row["areas"]] == written


def test_AL2_the_tables_stand_by_rank(house):
    (row,) = asked(house, house_report)
    assert [(t["table"], t["rank"], t["usual_covers"]) for t in row["tables"]] == [
        ("family", 1, 4),
        ("children", 2, 3),
        ("staff", 3, 7),
    ]


def test_it_has_as_many_of_everything_as_the_sheets(house):
    (row,) = asked(house, house_report)
    names = ("items", "batches", "recipes", "services", "suppliers", "people")
    assert row["has"] == {name: len(sheet(name)) for name in names}
    assert {each["supplier"] for each in row["suppliers"]} == {
        each["supplier"] for each in sheet("suppliers")
    }


def test_SL5_a_limit_below_nothing_and_one_that_nobody_set(lodge):
    (row,) = told(lodge, house_report)
    limits = {area["area"]: (area["min_c"], area["max_c"]) for area in row["areas"]}
    assert limits == {"Pantry": (None, None), "Cold room": (None, "5"), "Freezer": (None, "-15")}


def test_a_house_that_has_just_begun_says_what_it_has_not(lodge):
    (row,) = told(lodge, house_report)
    assert (row["has"]["batches"], row["has"]["services"]) == (0, 0)
    lodge.receive("m", "whole-milk", "2 l", use_by(12))
    lodge.menu("2027-03-10/dinner/family", "rice-pudding")
    (row,) = told(lodge, house_report)
    assert (row["has"]["batches"], row["has"]["services"]) == (1, 1)
