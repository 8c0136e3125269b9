"""A recipe is written whole, by one reader with the house book's sheets, and menus follow it."""

import pytest

from pantry.handbook.trimming_yields import trimming_yield
from pantry.records.tables import (
    IngredientRow,
    ItemRow,
    RecipeRow,
    SubstituteRow,
    VariantRow,
)
from tests.commands.house import use_by
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER

DINNER = "2027-03-12/dinner/family"


def line(ingredient, amount="100 g", **more):
    return {"ingredient": ingredient, "amount": amount} | more


def soup(**more):
    body = {
        "recipe": "Salmon soup",
        "yields": "4 portions",
        "ingredients": [
            line("Salmon", "1 lb"),
            line("Whole milk", "1 1/2 pints"),
            line("Salt", "to taste"),
        ],
        "unit_system": "imperial",
        "method": "Poach the salmon in the milk.",
    }
    return body | more


def pudding(**more):
    """Rice pudding as Larkfield Lodge has it, written anew."""
    body = {
        "recipe": "Rice pudding",
        "yields": "1",
        "ingredients": [line("Whole milk", "250 ml"), line("Butter", "10 g")],
    }
    return body | more


def test_MS2_a_new_recipe_is_kept_as_written_and_exactly(house):
    house.do("write_recipe", soup())
    row = house.row(RecipeRow, id="salmon-soup")
    assert (row.name, row.yields, row.approved, row.version) == ("Salmon soup", "4", False, 1)
    lines = house.rows(IngredientRow, recipe="salmon-soup")
    # an imperial pint is 568.26125 ml exactly (Weights and Measures Act 1985, schedule 1)
    assert [(each.written, each.amount) for each in lines] == [
        ("1 lb", "45359237/100000"),
        ("1 1/2 pints", "1363827/1600"),
        ("to taste", "0"),
    ]


def test_a_new_dish_is_approved_before_it_is_chosen(house):
    house.do("write_recipe", soup())
    house.propose(DINNER, "salmon-soup")
    body = {"service": DINNER, "dishes": [{"dish": "salmon-soup"}]}
    assert house.refuses("confirm", body).code == "recipe_unapproved"
    house.do("approve_recipe", {"recipe": "salmon-soup"}, person=APPROVER)
    house.do("confirm", body)


def test_every_fault_is_told_at_once_by_line_and_column_and_nothing_is_taken(house):
    body = soup(
        yields="2 kg",
        ingredients=[line("Salmon", "a lot"), line("Sea kale"), line("Butter", "3 tins")],
        variants=[{"variant": "plain", "change": "leave_out", "ingredient": "Eggs"}],
        life_days=2,
        area="Attic",
    )
    said = house.refuses("write_recipe", body)
    assert said.code == "recipe_faulty"
    assert [(each.file, each.row, each.column, each.code) for each in said.faults] == [
        ("recipes", 1, "yield", "yield_not_portions"),
        ("recipes", 1, "area", "area_unknown"),
        ("ingredients", 1, "amount", "unit_unknown"),
        ("ingredients", 2, "ingredient", "item_unknown"),
        ("ingredients", 3, "amount", "word_size_missing"),
        ("variants", 1, "ingredient", "variant_line_missing"),
    ]
    assert not house.rows(RecipeRow, id="salmon-soup")


def test_a_recipe_brings_the_items_that_the_house_lacks(house):
    new = {"item": "Sea kale", "base_unit": "g", "area": "Cold room", "contains": "none"}
    body = soup(ingredients=[line("Sea kale", "2 oz")], items=[new])
    house.do("write_recipe", body)
    assert house.row(ItemRow, id="sea-kale").area == "cold-room"
    said = house.refuses("write_recipe", body | {"recipe": "Kale soup"})
    assert [each.code for each in said.faults] == ["already_there"]


def test_SY3_a_recipe_is_written_anew_on_the_version_that_was_looked_at(house):
    assert house.refuses("write_recipe", pudding()).code == "recipe_there"
    house.do("write_recipe", pudding(method="Stir."), base=1)
    answer = house.give("write_recipe", pudding(), base=1)
    assert (answer.outcome, answer.problem.code) == ("conflict", "base_moved")
    assert house.refuses("write_recipe", soup(), base=1).code == "recipe_gone"
    assert house.refuses("write_recipe", pudding(kind="preparation"), base=2).code == (
        "recipe_kind_fixed"
    )
    nothing = house.refuses("write_recipe", pudding(ingredients=[]), base=2)
    assert nothing.code == "recipe_of_nothing"


def test_LG2_what_is_confirmed_and_not_begun_follows_the_recipe(house):
    house.receive("m", "whole-milk", "3 l", use_by(14))
    house.receive("e", "eggs", "6")
    house.menu(DINNER, "rice-pudding")
    assert house.promised("m") == {DINNER: 1_000_000}
    house.do(
        "write_recipe",
        pudding(ingredients=[line("Whole milk", "500 ml"), line("Eggs", "1")]),
        base=1,
    )
    assert (house.promised("m"), house.promised("e")) == ({DINNER: 2_000_000}, {DINNER: 4_000})
    assert not house.needs(item="butter")
    assert not house.disagreements()


def test_LG2_what_is_being_cooked_already_keeps_the_recipe_it_was_begun_by(house):
    house.receive("m", "whole-milk", "3 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "1 l", "service": DINNER})
    house.do("write_recipe", pudding(ingredients=[line("Whole milk", "500 ml")]), base=1)
    (need,) = house.needs(item="whole-milk")
    assert (need.quantity, need.settled) == (1_000_000, 1_000_000)
    assert not house.disagreements()


def test_RQ1_a_preparation_written_anew_is_made_otherwise_for_what_is_confirmed(house):
    house.menu(DINNER, "broth")
    assert house.needs(item="chicken-bones")[0].quantity == 500_000
    body = {
        "recipe": "Chicken stock",
        "kind": "preparation",
        "yields": "2 l",
        "life_days": 3,
        "ingredients": [
            line("Chicken bones", "3 kg"),
            line("Butter", "10 g"),
            line("Salt", "to taste"),
        ],
    }
    house.do("write_recipe", body, base=1)
    assert house.needs(item="chicken-bones")[0].quantity == 1_500_000
    assert house.needs(item="butter")[0].quantity == 5_000


def test_RQ1_a_preparation_made_from_itself_is_refused_by_name(house):
    body = {
        "recipe": "Chicken stock",
        "kind": "preparation",
        "yields": "2 l",
        "ingredients": [line("Chicken bones"), line("Chicken stock", "100 ml")],
    }
    said = house.refuses("write_recipe", body, base=1)
    assert [(each.row, each.code) for each in said.faults] == [(2, "recipe_cycle")]
    assert "Chicken stock → Chicken stock" in said.faults[0].problem


def test_another_amount_is_no_other_dish(house):
    house.do("write_recipe", pudding(ingredients=[line("Whole milk", "1 l")]), base=1)
    assert house.row(RecipeRow, id="rice-pudding").approved


def test_a_dish_with_another_thing_in_it_is_shown_again(house):
    lines = [line("Whole milk", "250 ml"), line("Walnuts", "10 g")]
    house.do("write_recipe", pudding(ingredients=lines), base=1)
    assert not house.row(RecipeRow, id="rice-pudding").approved
    house.do("write_recipe", pudding(approved=True), base=2)
    assert house.row(RecipeRow, id="rice-pudding").approved


def test_AL3_a_dish_is_shown_again_when_its_preparation_contains_more(house):
    body = {
        "recipe": "Chicken stock",
        "kind": "preparation",
        "yields": "2 l",
        "ingredients": [line("Chicken bones", "1 kg"), line("Walnuts", "5 g")],
    }
    house.menu(DINNER, "broth")
    house.do("write_recipe", body, base=1)
    assert not house.row(RecipeRow, id="broth").approved
    assert house.row(RecipeRow, id="chicken-stock").approved
    assert "the recipe of Chicken stock was changed" in house.question("allergen").recorded


def test_a_variant_that_is_on_a_menu_is_not_left_out(house):
    part = {"date": "2027-03-12", "meal": "dinner", "table": "family", "time": "19:30", "covers": 4}
    dish = {"dish": "walnut-salad", "variant": "without nuts"}
    house.do("propose", {"service": part, "courses": [{"course": "main", "dishes": [dish]}]})
    salad = {
        "recipe": "Walnut salad",
        "yields": "1",
        "ingredients": [line("Salad leaves", "40 g"), line("Walnuts", "20 g")],
    }
    assert house.refuses("write_recipe", salad, base=1).code == "variant_on_menu"
    without = {"variant": "Without nuts", "change": "leave_out", "ingredient": "Walnuts"}
    house.do("write_recipe", salad | {"variants": [without]}, base=1)
    assert house.row(VariantRow).variant == "Without nuts"


def test_a_recipe_has_the_picture_it_is_written_with_and_a_book_leaves_it(house):
    picture = "018f6b1e-0000-7000-8000-000000000001"
    house.do("write_recipe", pudding(picture=picture), base=1)
    row = {"recipe": "Rice pudding", "kind": "dish", "yield": "2", "dates": "cooked"}
    house.do("import_book", {"sheets": {"recipes": [row]}}, person=MANAGER)
    kept = house.row(RecipeRow, id="rice-pudding")
    assert (kept.picture, kept.yields) == (picture, "2")
    house.do("write_recipe", pudding(), base=3)
    assert house.row(RecipeRow, id="rice-pudding").picture is None


@pytest.mark.parametrize(("own", "kept"), [(None, "3/4"), ("0.8", "4/5")])
def test_RQ1_a_kitchens_own_trimming_comes_before_the_handbooks(house, own, kept):
    """USDA SR28, 09307: of rhubarb 25 % are ends and leaves."""
    lines = [line("Rhubarb", "300 g", trimmed=True, trimming_yield=own)]
    house.do("write_recipe", soup(ingredients=lines))
    assert house.row(IngredientRow, recipe="salmon-soup").trimming_yield == kept


def test_RQ1_no_trimming_is_guessed_from_a_part_of_a_name(house):
    assert trimming_yield("Spring onions") is None
    lines = [line("Salmon", "300 g", trimmed=True)]
    said = house.refuses("write_recipe", soup(ingredients=lines))
    assert [(each.column, each.code) for each in said.faults] == [
        ("trimming_yield", "cell_missing")
    ]


def test_what_may_stand_in_for_an_item_is_said_whole(house):
    two = [{"substitute": "Walnuts", "ratio": "1/2"}, {"substitute": "Rhubarb", "when": "in tarts"}]
    house.do("set_substitutes", {"item": "Butter", "substitutes": two})
    rows = house.rows(SubstituteRow, item="butter")
    assert [(each.substitute, each.ratio, each.condition) for each in rows] == [
        ("rhubarb", "1", "in tarts"),
        ("walnuts", "1/2", ""),
    ]
    said = house.refuses("set_substitutes", {"item": "Butter", "substitutes": [two[0], two[0]]})
    assert [(each.row, each.code) for each in said.faults] == [(2, "name_twice")]
    house.do("set_substitutes", {"item": "Butter", "substitutes": []}, base=2)
    assert not house.rows(SubstituteRow)


def test_recipes_are_written_by_the_kitchen(house):
    for person in (PORTER, APPROVER):
        assert house.refuses("write_recipe", soup(), person=person).code == "role_lacking"
    house.do("write_recipe", soup(), person=CHEF)


def test_AL3_what_is_only_proposed_is_held_against_a_changed_recipe_too(house):
    house.propose("2027-03-12/dinner/family", "rice-pudding")
    with_nuts = [line("Whole milk", "250 ml"), line("Walnuts", "20 g")]
    house.do("write_recipe", pudding(ingredients=with_nuts), base=1)
    asked = house.question("allergen")
    assert "the recipe of Rice pudding was changed" in asked.recorded
    assert "Ottilie cannot eat nuts: Rice pudding contains it" in asked.against
