"""The demo house is whole: every name is known, every figure is of its kind, the story holds.

Read with the csv module alone, so that a fault of the importer cannot hide one of the sheets.
"""

import csv
import re
from collections import Counter, defaultdict
from fractions import Fraction
from pathlib import Path

import pytest
from stdnum import ean

HOUSE = Path(__file__).parent.parent / "seed"
WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
Row = dict[str, str]

COLUMNS = {
    "house": "name time_zone currency unit_system notice warning last_call receiving_margin policy "
    "allergen_list people",
    "areas": "area kind min_c max_c",
    "items": "item base_unit group area counted density_g_per_ml piece_weight_g opened_life_days "
    "thawed_life_hours frozen_life_days high_risk whole contains may_contain gtin floor "
    "order_up_to daily_per_head",
    "suppliers": "supplier email minimum charge may_fail send_minutes",
    "deliveries": "supplier weekday time cutoff_days_before cutoff_time",
    "closures": "supplier date what instead",
    "packs": "supplier item pack quantity price gtin life_on_arrival_days",
    "batches": "label item quantity area date_kind date lot state state_date cost supplier",
    "recipes": "recipe kind yield dates life_days lead full_recipes area approved season_from "
    "season_to unit_system method",
    "ingredients": "recipe ingredient amount as trimming_yield scaling",
    "variants": "recipe variant change ingredient with amount",
    "substitutes": "item substitute ratio when",
    "tables": "table rank usual_covers",
    "constraints": "person table cannot_eat from to",
    "services": "date meal time table covers state",
    "choices": "date meal table course dish variant portions chosen",
    "orders": "supplier delivery_date item pack packs",
    "harvest": "item from to quantity",
    "people": "name role email",
    "stays": "who table heads from from_at to to_at said_by said_at",
}
AT_LEAST = {"items": 120, "packs": 150, "batches": 250, "services": 120, "recipes": 50}
REFERENCES = [
    ("items", "area", "areas", "area"),
    ("deliveries", "supplier", "suppliers", "supplier"),
    ("closures", "supplier", "suppliers", "supplier"),
    ("packs", "supplier", "suppliers", "supplier"),
    ("packs", "item", "items", "item"),
    ("batches", "item", "items", "item"),
    ("batches", "area", "areas", "area"),
    ("batches", "supplier", "suppliers", "supplier"),
    ("recipes", "area", "areas", "area"),
    ("ingredients", "recipe", "recipes", "recipe"),
    ("ingredients", "ingredient", "items", "item"),
    ("variants", "recipe", "recipes", "recipe"),
    ("variants", "ingredient", "items", "item"),
    ("variants", "with", "items", "item"),
    ("substitutes", "item", "items", "item"),
    ("substitutes", "substitute", "items", "item"),
    ("constraints", "table", "tables", "table"),
    ("services", "table", "tables", "table"),
    ("choices", "dish", "recipes", "recipe"),
    ("stays", "table", "tables", "table"),
    ("stays", "said_by", "people", "name"),
    ("harvest", "item", "items", "item"),
]
KEYS = [
    ("areas", "area"),
    ("items", "item"),
    ("suppliers", "supplier"),
    ("packs", "supplier item pack"),
    ("deliveries", "supplier weekday time"),
    ("batches", "label"),
    ("recipes", "recipe"),
    ("tables", "table"),
    ("services", "date meal table"),
    ("choices", "date meal table course dish variant"),
    ("orders", "supplier delivery_date item pack"),
    ("people", "name"),
    ("stays", "who table from"),
]
WORDS = [
    ("areas", "kind", {"ambient", "chilled", "frozen"}),
    ("items", "base_unit", {"g", "ml", "each"}),
    ("items", "counted", {"yes", "no"}),
    ("suppliers", "may_fail", {"yes", "no"}),
    ("deliveries", "weekday", set(WEEKDAYS)),
    ("closures", "what", {"no_delivery", "no_orders"}),
    ("batches", "date_kind", {"use_by", "best_before", "none"}),
    ("batches", "state", {"sealed", "opened", "frozen", "thawed", "made"}),
    ("recipes", "kind", {"dish", "preparation"}),
    ("recipes", "dates", {"cooked", "preserved", "assembled"}),
    ("recipes", "unit_system", {"metric", "imperial", "us"}),
    ("ingredients", "as", {"as_bought", "trimmed"}),
    ("ingredients", "scaling", {"per_portion", "fixed"}),
    ("variants", "change", {"replace", "leave_out", "add"}),
    ("services", "state", {"proposed", "confirmed", "served", "taken_off"}),
    ("people", "role", {"manager", "chef", "porter", "approver"}),
]


def sheet(name: str) -> list[Row]:
    with (HOUSE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def by(name: str, column: str) -> dict[str, Row]:
    return {row[column]: row for row in sheet(name)}


@pytest.mark.parametrize("name", COLUMNS)
def test_a_sheet_has_the_columns_of_the_house_book(name):
    with (HOUSE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        heading, *rows = csv.reader(file, strict=True)
    assert heading == COLUMNS[name].split()
    assert {len(row) for row in rows} == {len(heading)}
    assert len(rows) >= AT_LEAST.get(name, 1)
    assert all(cell == cell.strip() for row in rows for cell in row)


def test_there_are_no_other_sheets():
    assert {path.stem for path in HOUSE.glob("*.csv")} == set(COLUMNS)


@pytest.mark.parametrize(("name", "column", "target", "key"), REFERENCES)
def test_every_name_is_known(name, column, target, key):
    assert {row[column] for row in sheet(name)} - {""} <= set(by(target, key))


@pytest.mark.parametrize(("name", "columns"), KEYS)
def test_nothing_is_there_twice(name, columns):
    keys = Counter(tuple(row[column] for column in columns.split()) for row in sheet(name))
    assert [key for key, count in keys.items() if count > 1] == []


@pytest.mark.parametrize(("name", "column", "words"), WORDS)
def test_words_are_those_of_the_trade(name, column, words):
    assert {row[column] for row in sheet(name)} <= words


def test_enough_dishes_and_preparations():
    kinds = Counter(row["kind"] for row in sheet("recipes"))
    assert kinds["dish"] >= 38
    assert kinds["preparation"] >= 12
    assert sum(row["approved"] == "no" for row in sheet("recipes")) == 2


def test_gtins_are_demonstration_numbers_with_their_check_digit():
    # Check digits by an independent library, python-stdnum; prefix 952 is for demonstrations
    # (GS1 General Specifications, sections 1.4 and 7.9).
    numbers = [row["gtin"] for row in [*sheet("items"), *sheet("packs")] if row["gtin"]]
    assert len(numbers) > 60
    for number in numbers:
        assert ean.is_valid(number)
        assert number[-13:].startswith("952")
    cases = [row["gtin"] for row in sheet("packs") if row["gtin"]]
    assert len(cases) == len(set(cases))


def test_addresses_belong_to_nobody():
    # RFC 2606, section 2: .example is reserved for documentation.
    addresses = [row["email"] for row in [*sheet("suppliers"), *sheet("people")]]
    assert all(address.endswith(".example") for address in addresses)


def test_densities_weights_and_yields_are_those_of_the_database_named():
    # USDA SR28 as quoted in the table of SOURCES.md; sizes of measures by NIST Handbook 44, app. C.
    size = {"cup": "236.5882365", "tbsp": "14.78676478125", "tsp": "4.92892159375"}
    size["fl oz"] = "29.5735295625"
    items, yields = by("items", "item"), defaultdict(set)
    for line in sheet("ingredients"):
        if line["as"] == "trimmed":
            yields[line["ingredient"]].add(line["trimming_yield"])
    facts = re.findall(
        r"^\| (.+?) \| (density|piece weight|trimming yield) \| (.+?) \| \d{5} \| .+? \| (.+?) \|$",
        (HOUSE / "SOURCES.md").read_text(encoding="utf-8"),
        re.MULTILINE,
    )
    assert len(facts) > 100
    for item, fact, value, measure in facts:
        if fact == "density":
            unit, grams = re.fullmatch(r"1 (.+) = ([\d.]+) g", measure).groups()
            assert f"{float(Fraction(grams) / Fraction(size[unit])):.4f}" == value
            assert items[item]["density_g_per_ml"] == value
        elif fact == "piece weight":
            assert items[item]["piece_weight_g"] == value
        else:
            refuse = int(re.match(r"refuse (\d+) %", measure).group(1))
            assert Fraction(value) == 1 - Fraction(refuse, 100)
            assert yields.get(item, {value}) == {value}
    named = {item for item, fact, *_ in facts if fact == "density"}
    assert named == {name for name, row in items.items() if row["density_g_per_ml"]}
    assert set(yields) <= {item for item, fact, *_ in facts if fact == "trimming yield"}


def test_a_preparation_is_an_item_and_nothing_else_is_made():
    preparations = {row["recipe"] for row in sheet("recipes") if row["kind"] == "preparation"}
    assert preparations == {row["item"] for row in sheet("items") if row["group"] == "preparations"}


def test_preparations_go_two_levels_deep_and_never_in_a_circle():
    parts = defaultdict(set)
    for line in sheet("ingredients"):
        parts[line["recipe"]].add(line["ingredient"])

    def depth(recipe, above=()):
        assert recipe not in above
        inside = [depth(part, (*above, recipe)) for part in parts[recipe] if part in parts]
        return 1 + max(inside, default=0)

    assert max(depth(recipe) for recipe in list(parts)) >= 3


def test_trimmed_lines_say_their_yield_and_others_have_none():
    for line in sheet("ingredients"):
        assert (line["as"] == "trimmed") == bool(line["trimming_yield"])


def test_a_variant_changes_what_its_recipe_has():
    lines = {(line["recipe"], line["ingredient"]) for line in sheet("ingredients")}
    bases = {row["item"]: row["base_unit"] for row in sheet("items")}
    for row in sheet("variants"):
        assert ((row["recipe"], row["ingredient"]) in lines) == (row["change"] != "add")
        assert bool(row["with"]) == (row["change"] == "replace")
        # An amount that is kept must mean the same of the other item.
        assert row["amount"] or not row["with"] or bases[row["with"]] == bases[row["ingredient"]]


def test_herbs_spices_and_salt_are_not_counted_and_stand_in_no_batch():
    loose = {row["item"] for row in sheet("items") if row["counted"] == "no"}
    seasoning = {row["item"] for row in sheet("items") if row["group"] in {"herbs", "spices"}}
    assert seasoning <= loose
    assert not loose & {row["item"] for row in sheet("batches")}


def test_all_fourteen_allergens_occur():
    # Regulation (EU) No 1169/2011, Annex II.
    named = set()
    for row in sheet("items"):
        named |= set(row["contains"].split("; ")) | set(row["may_contain"].split("; "))
    kinds = {"wheat", "barley", "oats", "almond", "walnut", "none", ""}
    families = "crustaceans eggs fish peanuts soya milk celery mustard sesame sulphites lupin"
    assert named - kinds == {*families.split(), "nuts", "molluscs"}
