"""Recipes, tables, constraints, services, settings and lives, as the rules see them."""

from datetime import date, timedelta
from fractions import Fraction

import pytest

from pantry.handbook.allergens import allergen_list
from pantry.handbook.policies import policy
from pantry.records.database import reading, writing
from pantry.records.read import house as read_house
from pantry.records.read import menu, stock
from pantry.records.read.larder import larder, product
from pantry.records.read.lives import house_lives, house_policy
from pantry.records.rows import add
from pantry.records.tables import (
    ConstraintRow,
    IngredientRow,
    PackRow,
    PersonRow,
    PolicyOverrideRow,
    RecipeRow,
    ServingRow,
    SubstituteRow,
    VariantRow,
)
from pantry.rules.house_time import Span
from pantry.rules.menu import Change, Dating, RecipeKind, Scaling, ServiceState
from tests.hazel_court import DINNER, HOUR, ID, LUNCH, NOW, need_row, service_row


@pytest.fixture
def told(house):
    """Write rows into Hazel Court, and read by what a test says."""

    def tell(*rows):
        with writing(house.database) as connection:
            add(connection, *rows)

        def ask(read, *arguments):
            with reading(house.database) as connection:
                return read(connection, ID, *arguments)

        return ask

    return tell


def recipe_row(identity, **more):
    more = {"kind": "dish", "yields": "4", "dating": "cooked", "unit_system": "metric"} | more
    return RecipeRow(house=ID, id=identity, name=identity.replace("-", " ").title(), **more)


def line(recipe, number, item, amount, **more):
    more = {"scaling": "per_portion"} | more
    return IngredientRow(
        house=ID, recipe=recipe, line=number, item=item, written=amount, amount=amount, **more
    )


def variant(number, change, item, **more):
    return VariantRow(
        house=ID,
        recipe="trifle",
        variant="for children",
        line=number,
        change=change,
        item=item,
        **more,
    )


def test_RQ1_a_recipe_is_read_with_its_lines_and_variants(told):
    ask = told(
        recipe_row("trifle", approved=True, lead="P1DT2H", season_from="11-15", season_to="02-01"),
        line("trifle", 0, "sherry", "100"),
        line("trifle", 1, "raspberries", "1000/3", trimming_yield="9/10"),
        line("trifle", 2, "frying-oil", "500", scaling="fixed"),
        variant(0, "leave_out", "sherry"),
        variant(1, "replace", "raspberries", with_item="apples", amount="250"),
        recipe_row(
            "custard",
            kind="preparation",
            yields="1000",
            dating="assembled",
            makes="custard",
            life_days=2,
            full_recipes=True,
        ),
        line("custard", 0, "whole-milk", "800"),
    )
    recipes = ask(menu.recipes)
    trifle, custard = recipes["trifle"], recipes["custard"]
    assert trifle.kind is RecipeKind.DISH
    assert trifle.approved
    assert trifle.lead == Span(1, timedelta(hours=2))
    assert trifle.season == ((11, 15), (2, 1))
    assert [each.item for each in trifle.ingredients] == ["sherry", "raspberries", "frying-oil"]
    assert trifle.ingredients[1].amount == Fraction(1000, 3)
    assert trifle.ingredients[1].trimming_yield == Fraction(9, 10)
    assert trifle.ingredients[2].scaling is Scaling.FIXED
    ((name, changes),) = trifle.variants
    assert name == "for children"
    assert [each.change for each in changes] == [Change.LEAVE_OUT, Change.REPLACE]
    assert (changes[1].with_item, changes[1].amount) == ("apples", Fraction(250))
    assert (custard.makes, custard.life_days, custard.full_recipes) == ("custard", 2, True)
    assert custard.dating is Dating.ASSEMBLED
    assert (custard.season, custard.variants) == (None, ())


def test_RQ1_lines_stand_in_the_order_in_which_they_were_written(told):
    ask = told(recipe_row("soup"), *(line("soup", n, f"item-{n}", "1") for n in range(12)))
    (soup,) = ask(menu.recipes).values()
    assert [each.item for each in soup.ingredients] == [f"item-{n}" for n in range(12)]


def test_AL3_constraints_and_substitutes_are_read(told):
    ask = told(
        ConstraintRow(
            house=ID,
            id="family|ottilie",
            person="Ottilie",
            dining_table="family",
            cannot_eat='["nuts", "sesame"]',
            first=date(2027, 3, 1),
        ),
        SubstituteRow(
            house=ID,
            item="whole-milk",
            substitute="oat-milk",
            ratio="11/10",
            condition="not for whipping",
        ),
    )
    (constraint,) = ask(menu.constraints)
    assert constraint.cannot_eat == {"nuts", "sesame"}
    assert (constraint.first, constraint.last) == (date(2027, 3, 1), None)
    (substitute,) = ask(menu.substitutes)
    assert (substitute.ratio, substitute.when) == (Fraction(11, 10), "not for whipping")
    assert ask(menu.tables)["family"].rank == 1


def test_services_between_two_instants_are_read_with_their_dishes(told):
    ask = told(
        service_row(DINNER),
        service_row(LUNCH, state="proposed"),
        ServingRow(house=ID, service=DINNER, line=1, course="main", dish="trout", portions=3),
        ServingRow(house=ID, service=DINNER, line=0, course="first", dish="soup", chosen=True),
        ServingRow(house=ID, service=LUNCH, line=0, course="main", dish="pie"),
    )
    at = NOW + 84 * HOUR
    dinner, lunch = ask(menu.services, at, at)
    assert (dinner.id, dinner.state, dinner.date) == (
        DINNER,
        ServiceState.CONFIRMED,
        date(2027, 3, 13),
    )
    assert [(each.dish, each.portions) for each in dinner.servings] == [
        ("soup", None),
        ("trout", 3),
    ]
    assert dinner.servings[0].chosen
    assert [each.dish for each in lunch.servings] == ["pie"]
    assert ask(menu.services, at + HOUR, at + 2 * HOUR) == []
    assert ask(menu.service, service_row(DINNER)) == dinner


def serving_row(service, dish):
    return ServingRow(house=ID, service=service, line=0, course="main", dish=dish, chosen=True)


def test_a_dish_was_last_served_to_each_table_on_a_date_that_was_served(told):
    menus = {
        "2027-03-06/dinner/family": ("pie", "served"),
        "2027-03-08/dinner/family": ("pie", "served"),
        "2027-03-07/lunch/staff": ("pie", "served"),
        "2027-03-09/dinner/family": ("pie", "taken_off"),
        "2027-03-10/dinner/family": ("tart", "confirmed"),
    }
    services = [service_row(service, state) for service, (_, state) in menus.items()]
    servings = [serving_row(service, dish) for service, (dish, _) in menus.items()]
    assert told(*services, *servings)(menu.last_served) == {
        "pie": {"family": date(2027, 3, 8), "staff": date(2027, 3, 7)}
    }


def test_a_house_is_counted_by_what_it_has_and_only_people_who_are_still_there(told):
    ask = told(
        recipe_row("pie"),
        service_row(DINNER),
        PersonRow(house=ID, id="una", name="Una Aske", role="chef", active=False),
    )
    assert ask(read_house.numbers_of) == {
        "items": 2,
        "batches": 2,
        "recipes": 1,
        "services": 1,
        "suppliers": 1,
        "people": 1,
    }


def test_LG2_what_a_need_still_wants_is_what_was_not_taken_out():
    row = need_row("need", DINNER, quantity=1_000)
    assert menu.need(row).quantity == 1_000
    row.settled = 400
    assert menu.need(row).quantity == 600
    row.settled = 1_400
    assert menu.need(row).quantity == 0


def pack_row(name, item="whole-milk", **more):
    return PackRow(
        house=ID,
        id=f"dale-dairy/{item}/{name}",
        supplier="dale-dairy",
        item=item,
        name=name,
        quantity=1,
        sealed_quantity=1,
        price=1,
        **more,
    )


def test_AL3_an_item_is_as_the_worst_of_its_products(told, house):
    other = pack_row("own brand", contains='["milk"]', may_contain='["nuts"]')
    ask = told(other, pack_row("plain"), pack_row("of no item", item="gone", contains='["x"]'))
    items = ask(stock.items)
    found = ask(larder, items, [])
    assert "nuts" in found.declared["whole-milk"].may_contain
    assert found.names["whole-milk"] == "Whole milk"
    assert "gone" not in found.declared
    label = product(other, allergen_list("uk"))
    assert label.contains == {"milk"}
    assert "fish" in label.free_of
    assert "nuts" not in label.free_of
    assert house.disagreements() == []


def test_the_settings_are_read_as_spans(house):
    settings = read_house.settings(house.heads())
    assert (settings.notice, settings.last_call) == (
        Span(0, timedelta(hours=72)),
        Span(0, timedelta(hours=2)),
    )
    with reading(house.database) as connection:
        assert read_house.area_names(connection, ID) == {
            "cold-room": "Cold room",
            "freezer": "Freezer",
            "pantry": "Pantry",
        }


def test_SL5_a_number_the_house_set_otherwise_stands_in_its_policy_by_name(told, house):
    name, number = next(iter(policy("uk").numbers.items()))
    with reading(house.database) as connection:
        assert house_policy(connection, house.heads()).number(name) == number
    told(
        PolicyOverrideRow(
            house=ID, name=name, value=number.amount + 1, person="Wilf Aske", reason="as agreed"
        )
    )
    with reading(house.database) as connection:
        ours = house_policy(connection, house.heads()).number(name)
        assert house_lives(connection, house.heads())
    assert ours.amount == number.amount + 1
    assert "Wilf Aske: as agreed" in ours.edition
