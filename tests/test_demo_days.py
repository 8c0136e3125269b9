"""The demo house's days hold together: batches, services, orders, and what is wrong on purpose.

Read with the csv module alone, so that a fault of the importer cannot hide one of the sheets.
"""

import csv
import re
from collections import Counter, defaultdict
from datetime import date, time, timedelta
from fractions import Fraction
from pathlib import Path

HOUSE = Path(__file__).parent.parent / "seed"
TODAY = date(2027, 3, 10)
Row = dict[str, str]


def sheet(name: str) -> list[Row]:
    with (HOUSE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def by(name: str, column: str) -> dict[str, Row]:
    return {row[column]: row for row in sheet(name)}


def service_of(row: Row) -> tuple[str, str, str]:
    return row["date"], row["meal"], row["table"]


def test_a_batch_has_a_state_that_can_be():
    items = by("items", "item")
    for row in sheet("batches"):
        assert re.fullmatch(r"B-\d{4}", row["label"])
        assert bool(row["date"]) == (row["date_kind"] != "none")
        assert bool(row["state_date"]) == (row["state"] != "sealed")
        assert row["state"] == "sealed" or date.fromisoformat(row["state_date"]) <= TODAY
        assert row["date_kind"] != "use_by" or date.fromisoformat(row["date"])
        if row["state"] == "frozen":
            assert "freezer" in row["area"]
            assert row["date_kind"] != "use_by" or row["state_date"] <= row["date"]
        elif row["date_kind"] == "use_by":
            assert row["date"] >= TODAY.isoformat()
        if row["state"] == "opened":
            life = timedelta(days=int(items[row["item"]]["opened_life_days"]) - 1)
            assert date.fromisoformat(row["state_date"]) + life >= TODAY


def test_what_the_kitchen_made_ends_with_the_life_of_its_recipe():
    recipes = by("recipes", "recipe")
    for row in sheet("batches"):
        if row["state"] == "made":
            life = timedelta(days=int(recipes[row["item"]]["life_days"]) - 1)
            end = date.fromisoformat(row["state_date"]) + life
            assert row["date"] == end.isoformat()


def test_services_run_from_a_fortnight_ago_to_a_fortnight_ahead():
    assert TODAY.strftime("%A") == "Wednesday"
    days = sorted({row["date"] for row in sheet("services")})
    assert date.fromisoformat(days[0]) == TODAY - timedelta(days=14)
    assert date.fromisoformat(days[-1]) == TODAY + timedelta(days=14)
    for row in sheet("services"):
        assert time.fromisoformat(row["time"])
        ahead = (date.fromisoformat(row["date"]) - TODAY).days
        state = "served" if ahead < 0 else "confirmed" if ahead < 5 else "proposed"
        assert row["state"] in {state, "taken_off"}


def test_choices_are_approved_dishes_of_a_service_and_add_up_to_its_covers():
    services = {service_of(row): row for row in sheet("services")}
    approved = {
        row["recipe"]
        for row in sheet("recipes")
        if row["kind"] == "dish" and row["approved"] == "yes"
    }
    variants = {(row["recipe"], row["variant"]) for row in sheet("variants")}
    portions: dict[tuple[str, ...], int] = Counter()
    for row in sheet("choices"):
        service = services[service_of(row)]
        assert row["dish"] in approved
        assert not row["variant"] or (row["dish"], row["variant"]) in variants
        assert row["chosen"] == ("" if service["state"] == "proposed" else "yes")
        if row["portions"]:
            portions[(*service_of(row), row["course"])] += int(row["portions"])
    for (*service, _course), total in portions.items():
        assert total == int(services[tuple(service)]["covers"])
    chosen_for = {service_of(row) for row in sheet("choices")}
    assert {key for key, row in services.items() if row["state"] != "taken_off"} == chosen_for


def test_orders_are_for_packs_that_are_sold_on_days_that_are_delivered():
    packs = {(row["supplier"], row["item"], row["pack"]) for row in sheet("packs")}
    days = {(row["supplier"], row["weekday"]) for row in sheet("deliveries")}
    closed = {(r["supplier"], r["date"]) for r in sheet("closures") if r["what"] == "no_delivery"}
    for row in sheet("orders"):
        assert (row["supplier"], row["item"], row["pack"]) in packs
        assert (row["supplier"], f"{date.fromisoformat(row['delivery_date']):%A}") in days
        assert (row["supplier"], row["delivery_date"]) not in closed
        assert row["delivery_date"] >= TODAY.isoformat()


def test_an_order_reaches_the_least_its_supplier_takes():
    price = {(r["supplier"], r["item"], r["pack"]): Fraction(r["price"]) for r in sheet("packs")}
    total: dict[tuple[str, str], Fraction] = defaultdict(Fraction)
    for row in sheet("orders"):
        cost = price[row["supplier"], row["item"], row["pack"]] * int(row["packs"])
        total[row["supplier"], row["delivery_date"]] += cost
    suppliers = by("suppliers", "supplier")
    for (supplier, _), cost in total.items():
        assert cost >= Fraction(suppliers[supplier]["minimum"] or 0)


def test_the_labels_named_in_the_story_are_those_of_the_sheets():
    story = (HOUSE / "SOURCES.md").read_text(encoding="utf-8").split("## What is wrong")[1]
    batches = by("batches", "label")
    named = {batches[label]["item"].split(",")[0] for label in re.findall(r"B-\d{4}", story)}
    expected = {"Double cream", "Buttermilk", "Island fudge", "Venison shoulder", "Arborio rice"}
    assert named == expected | {"Redcurrant jelly", "Raspberries", "Chicken stock"}


def test_the_story_holds():
    batches, orders = sheet("batches"), sheet("orders")
    cream = {row["date"] for row in batches if row["item"] == "Double cream"}
    assert cream == {"2027-03-12"}
    assert not any(row["item"] == "Double cream" for row in orders)
    posset = [r for r in sheet("choices") if r["dish"].startswith("Lemon posset") and r["chosen"]]
    assert [row["date"] for row in posset] == ["2027-03-13"]
    assert [row["packs"] for row in orders if row["item"] == "Leg of lamb"] == ["1"]
    assert not any(row["item"] == "Leg of lamb" for row in batches)
    past = [
        r["item"] for r in batches if r["date_kind"] == "best_before" and r["date"] == "2027-02"
    ]
    assert past == ["Redcurrant jelly"]
    unknown = {
        row["item"]
        for row in sheet("items")
        if not row["contains"] and row["group"] != "preparations"
    }
    assert unknown == {"Island fudge"}
