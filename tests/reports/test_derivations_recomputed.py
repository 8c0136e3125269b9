"""Every figure of the plan and of the coverage, recomputed with pencil and paper (PL7).

The plan's from what stands in `derivation` alone; the coverage's from its own rows and the recipe
as it is written down. None of it calls what the product computes them with.
"""

from datetime import UTC, datetime, timedelta
from fractions import Fraction
from math import ceil
from zoneinfo import ZoneInfo

import pytest

from pantry.records.database import reading
from pantry.reports.coverage import coverage
from pantry.reports.plan import plan
from pantry.reports.view import view
from tests.reports.demo_house import NOW, value

LONDON = ZoneInfo("Europe/London")
SEND = {"PT5M": 5, "PT10M": 10, "PT15M": 15, "PT20M": 20, "PT30M": 30}
MARGIN = timedelta(hours=2)
MORNINGS = [
    NOW,
    datetime(2027, 3, 12, 14, 46, tzinfo=UTC),
    datetime(2027, 3, 12, 17, tzinfo=UTC),
    datetime(2027, 3, 24, 7, tzinfo=UTC),
]


def instant(written):
    return datetime.fromisoformat(written)


def thousandths(quantity):
    return int(value(quantity) * 1000)


def of_par(derived):
    """What par wants of a row: up to its level from what is free, or else up to its floor."""
    par = derived["par"]
    if par is None:
        return 0
    assert par["lowest"] < par["floor"]
    free = sum(quantity for _, quantity in par["free"])
    level = par["order_up_to"]
    to_floor = par["floor"] - par["lowest"]
    wanted = to_floor if level is None else level - free
    if par["reckoned"]:
        wanted = max(wanted, to_floor)
    assert par["quantity"] == wanted + par["over"]
    return par["quantity"]


def check_lines(lines):
    for line in lines:
        given = sum(quantity for _, quantity in line["given"])
        assert line["lacking"] == line["need"]["quantity"] - given
        assert 0 <= line["covered"] <= line["lacking"]


def check_missed(row):
    derived = row["derivation"]
    lacking = sum(line["lacking"] for line in derived["lines"])
    assert thousandths(row["net"]) == lacking + of_par(derived)
    assert (row["packs"], row["cost"]["minor"]) == (0, 0)


def check_ordered(row):
    derived = row["derivation"]
    counted = [line for line in derived["lines"] if line["counts"]]
    covered = sum(line["covered"] for line in counted)
    daily = [quantity for _, quantity in derived["daily"]]
    par = of_par(derived)
    assert thousandths(row["net"]) == covered + par + derived["used_up"] + sum(daily)
    pack = derived["pack_quantity"]
    menu = ceil(Fraction(covered, pack))
    assert derived["menu_packs"] >= menu if derived["opened"] else derived["menu_packs"] == menu
    over = derived["par"]["over"] if derived["par"] else 0
    assert derived["par_packs"] == ceil(Fraction(par - over, pack))
    assert derived["daily_packs"] == sum(ceil(Fraction(short, pack)) for short in daily)
    parts = ("menu_packs", "par_packs", "daily_packs")
    assert row["packs"] == sum(derived[part] for part in parts)
    assert row["cost"]["minor"] == row["packs"] * derived["price"]
    check_hours(row, counted)


def check_hours(row, counted):
    derived = row["derivation"]
    send = timedelta(minutes=SEND[derived["send"]])
    assert instant(row["order_by"]) == instant(derived["cutoff"]) - send
    assert row["delivery"] == derived["at"]
    assert derived["margin"] == "PT2H"
    wanted = [instant(line["need"]["wanted_by"]) for line in counted]
    assert all(instant(derived["at"]) <= at - MARGIN for at in wanted)
    assert instant(row["wanted_by"]) == min(wanted, default=instant(derived["at"]))
    services = [line["need"]["service"] for line in counted if line["need"]["service"]]
    named = [why for why in row["because"] if why not in ("par", "daily use")]
    assert named == list(dict.fromkeys(services))
    assert ("par" in row["because"]) == (derived["par"] is not None)


@pytest.mark.parametrize("at", MORNINGS)
def test_PL7_every_row_of_the_plan_follows_from_its_derivation(told, at):
    rows = told(plan, at=at)
    assert rows
    for row in rows:
        assert row["derivation"]["rules"]
        check_lines(row["derivation"]["lines"])
        if row["alert"] == "missed":
            check_missed(row)
        else:
            check_ordered(row)


@pytest.fixture(scope="module")
def books(house):
    """What is written down of the demo house: recipes and items by name, services by id."""
    engine, found = house
    with reading(engine) as connection:
        seen = view(connection, found, NOW)
        recipes = {recipe.name: recipe for recipe in seen.recipes.values()}
        items = {item.name: item for item in seen.items.values()}
        services = {service.id: service for service in seen.services}
        return recipes, items, services, {item.id: item.name for item in items.values()}


def dishes(rows):
    """The rows of each dish as it is served, by service, course, dish and variant."""
    found = {}
    for row in rows:
        key = (row["service"], row["course"], row["dish"], row["variant"])
        found.setdefault(key, []).append(row)
    return found


def lines_of(recipe, variant, item):
    """As (amount, trimming yield, scaling) each line of an item, the variant's changes made."""
    lines = [
        (line.item, line.amount, line.trimming_yield, line.scaling) for line in recipe.ingredients
    ]
    for change in dict(recipe.variants).get(variant, ()):
        kept = [line for line in lines if line[0] != change.item]
        taken = [line for line in lines if line[0] == change.item]
        match change.change:
            case "leave_out":
                lines = kept
            case "replace":
                lines = kept + [
                    (change.with_item, change.amount or amount, Fraction(1), scaling)
                    for _, amount, _, scaling in taken
                ]
            case "add":
                lines = [*lines, (change.item, change.amount, Fraction(1), "per_portion")]
    return [line[1:] for line in lines if line[0] == item]


def exact(recipe, variant, item, many):
    """Thousandths of an item for so many portions, or so much of a preparation (RQ1)."""
    return sum(
        amount / trimming * 1000 * (Fraction(many) / recipe.yields if scaling != "fixed" else 1)
        for amount, trimming, scaling in lines_of(recipe, variant, item)
    )


def served(service, row, recipe):
    """How many portions of a dish are cooked together."""
    return sum(
        (serving.portions or service.covers) * serving.portion_factor
        for serving in service.servings
        if (serving.course, serving.dish, serving.variant)
        == (row["course"], recipe.id, row["variant"])
    )


def test_RQ1_every_need_of_a_dish_follows_from_its_recipe_and_its_portions(told, books):
    recipes, items, services, _ = books
    checked = 0
    for row in told(coverage):
        recipe, item = recipes[row["dish"]], items[row["item"]]
        if row["for"] or item.whole:
            continue
        service = services[row["service"]]
        wanted = exact(recipe, row["variant"], item.id, served(service, row, recipe))
        assert abs(thousandths(row["need"]) - wanted) < 1, row
        checked += 1
    assert checked > 800


def test_RQ1_whole_pieces_are_rounded_up_once_over_what_is_made_together(told, books):
    recipes, items, services, _ = books
    together = {}
    for row in told(coverage):
        item = items[row["item"]]
        if row["for"] or not item.whole or row["state"] != "confirmed":
            continue
        recipe, service = recipes[row["dish"]], services[row["service"]]
        wanted = exact(recipe, row["variant"], item.id, served(service, row, recipe))
        sums = together.setdefault((row["service"], item.id), [0, Fraction(0), item])
        sums[0] += thousandths(row["need"])
        sums[1] += wanted
    assert together
    for need, wanted, item in together.values():
        weighed = item.base_unit.value != "each"
        piece = round(item.piece_weight / (item.density or 1) * 1000) if weighed else 1000
        assert need == ceil(wanted / piece) * piece, item.name


def test_RQ1_what_a_proposals_preparation_wants_follows_from_how_much_is_made(told, books):
    recipes, items, _, _ = books
    checked = 0
    for rows in dishes(told(coverage)).values():
        for row in rows:
            making = recipes.get(row["for"])
            if making is None or making.full_recipes or row["state"] != "proposed":
                continue
            made = [
                thousandths(part["quantity"])
                for other in rows
                if other["item"] == row["for"]
                for part in other["from"]
                if "making" in part
            ]
            item = items[row["item"]]
            if item.whole or len(made) != 1:
                continue
            wanted = exact(making, None, item.id, Fraction(made[0], 1000))
            assert abs(thousandths(row["need"]) - wanted) < 1, row
            checked += 1
    assert checked > 20


def test_PL5_every_choose_by_is_the_lead_time_or_the_last_order_by_of_what_is_lacking(told, books):
    recipes, _, services, _ = books
    for (service, _, dish, _), rows in dishes(told(coverage)).items():
        lead = recipes[dish].lead
        local = services[service].at.astimezone(LONDON) - timedelta(days=lead.days)
        ends = [local.astimezone(UTC) - lead.exact]
        lacking = [row["mend_until"] for row in rows if value(row["short"])]
        ends += [instant(each) for each in lacking if each]
        chosen = None if None in lacking else min(ends)
        for row in rows:
            assert (row["choose_by"] and instant(row["choose_by"])) == chosen, row
            assert (row["mend_until"] is None) or value(row["short"]) > 0


def test_RQ1_every_shortage_is_the_need_less_what_is_given_and_taken_out(told):
    for row in told(coverage):
        given = sum(thousandths(part["quantity"]) for part in row["from"])
        there = given + thousandths(row["taken_out"])
        assert thousandths(row["short"]) == thousandths(row["need"]) - there
