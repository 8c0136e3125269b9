"""Every recipe for so many covers: amounts, allergens, cost, menus; and the same on paper."""

import io
from fractions import Fraction

import pypdfium2
import pytest
from PIL import Image

from pantry.paper.recipe import recipe_sheet
from pantry.records import pictures
from pantry.records.database import reading, writing
from pantry.refusals import NotThere
from pantry.reports.recipes import recipes
from pantry.reports.view import view
from tests.commands.house import NOW, use_by
from tests.commands.larkfield import CHEF, ID
from tests.reports.asking import told

DINNER = "2027-03-12/dinner/family"


def one(lodge, recipe, covers=None):
    (row,) = told(lodge, recipes, recipe, covers)
    return row


def line(ingredient, amount, **more):
    return {"ingredient": ingredient, "amount": amount} | more


def tart(**more):
    return {
        "recipe": "Rhubarb tart",
        "yields": "8 portions",
        "ingredients": [
            line("Rhubarb", "800 g", trimmed=True),
            line("Butter", "8 oz"),
            line("Eggs", "3"),
            line("Salt", "a pinch"),
            line("Whole milk", "1 cup", scaling="fixed"),
        ],
        "unit_system": "us",
        "method": "Line the tin.\nFill and bake.",
    } | more


def test_RQ1_it_is_told_for_the_covers_that_are_asked_for(lodge):
    lodge.do("write_recipe", tart())
    row = one(lodge, "Rhubarb tart", covers=12)
    assert (row["yields"], row["covers"], row["unit"]) == ("8", "12", None)
    assert [(each["amount"], each["scaled"]["value"]) for each in row["lines"]] == [
        ("800 g", "1200"),
        ("8 oz", "340.194"),
        ("3", "4.5"),
        ("a pinch", "0"),
        ("1 cup", "236.588"),
    ]
    taken = {each["item_id"]: each["quantity"]["value"] for each in row["needs"]}
    # of rhubarb 75 % are kept (USDA SR28, 09307); 4 1/2 eggs are five
    assert taken == {"rhubarb": "1600", "butter": "340.194", "eggs": "5", "whole-milk": "236.588"}
    assert row["lines"][0]["handbook"]["source"] == "USDA SR28, 09307"


def test_a_cost_per_cover_worked_out_by_hand(lodge):
    """Worked out by hand.

    Bones 2 kg at 1.50 a kg are 3.00 for 2 l of stock, 0.0015 a ml. A cover of broth has 250 ml:
    37.5 p. Butter 20 g at 2.30 for 250 g: 18.4 p. Milk 100 ml of the crate, 12.00 for 12 l: 10 p.
    Together 65.9 p a cover; six covers are 395.4 p.
    """
    stock = {
        "recipe": "Chicken stock",
        "kind": "preparation",
        "yields": "2 l",
        "ingredients": [line("Chicken bones", "2 kg"), line("Salt", "some")],
    }
    lodge.do("write_recipe", stock, base=1)
    soup = {
        "recipe": "Broth",
        "yields": "4",
        "ingredients": [
            line("Chicken stock", "1 l"),
            line("Butter", "80 g"),
            line("Whole milk", "400 ml"),
            line("Eggs", "4"),
        ],
    }
    lodge.do("write_recipe", soup, base=1)
    cost = one(lodge, "broth", covers=6)["cost"]
    assert cost["per_cover"] == {"minor": 66, "currency": "GBP"}
    assert cost["in_all"]["minor"] == 395
    assert cost["unknown"] == ["Eggs"]
    by_item = {each["item"]: each for each in cost["lines"]}
    assert by_item["Chicken stock"]["made_by"] == "chicken-stock"
    assert by_item["Chicken stock"]["cost"]["minor"] == 225
    assert by_item["Whole milk"]["pack"]["pack"] == "crate of 6 x 2 l"
    assert by_item["Eggs"]["cost"] is None
    assert one(lodge, "chicken-stock")["cost"]["in_all"]["minor"] == 300


def test_AL3_a_line_says_what_it_brings_and_the_dish_has_the_worst_of_all(lodge):
    row = one(lodge, "pancakes")
    brings = {each["item"]: each["contains"] for each in row["lines"]}
    assert brings["Plain flour"] == ["cereals containing gluten"]
    assert row["contains"] == ["cereals containing gluten", "eggs", "milk"]
    assert "fish" in row["unknown"]


def test_AL3_a_dish_names_who_cannot_eat_it_now_or_on_days_to_come_with_their_own(lodge):
    lodge.do("add_guest", {"person": "Bo", "table": "staff", "cannot_eat": ["milk"]})
    fish = {"person": "Edda", "table": "family", "cannot_eat": ["fish"]}
    lodge.do("add_guest", fish | {"first": "2027-03-20", "last": "2027-03-22"})
    lodge.do("add_guest", fish | {"person": "Ib", "first": "2027-03-01", "last": "2027-03-02"})
    found = one(lodge, "baked-salmon")["conflicts"]
    assert [
        (each["person"], each["table"], each["cannot_eat"], each["first"]) for each in found
    ] == [
        ("Edda", "Family", "fish", "2027-03-20"),
        ("Bo", "Staff", "milk", None),
    ]
    assert one(lodge, "walnut-salad")["conflicts"][0]["safe"]["variant"] == "without nuts"
    assert one(lodge, "chicken-stock")["conflicts"] == []
    assert {row["conflicts"] for row in told(lodge, recipes)} == {None}


def test_it_says_which_menus_follow_it_and_which_are_begun(lodge):
    lodge.receive("m", "whole-milk", "3 l", use_by(14))
    lodge.menu(DINNER, "broth")
    assert one(lodge, "chicken-stock")["confirmed"] == [{"service": DINNER, "begun": False}]
    assert one(lodge, "chicken-stock")["used_in"] == ["Broth"]
    lodge.menu("2027-03-13/dinner/family", "rice-pudding")
    taken = {"batch": "m", "quantity": "1 l", "service": "2027-03-13/dinner/family"}
    lodge.do("take_out", taken)
    (row,) = one(lodge, "rice-pudding")["confirmed"]
    assert row["begun"]


def test_substitutes_stand_with_the_line_and_their_condition(lodge):
    two = [{"substitute": "Rhubarb", "ratio": "1/2", "when": "not for baking"}]
    lodge.do("set_substitutes", {"item": "Butter", "substitutes": two})
    (_, butter) = one(lodge, "rice-pudding")["lines"]
    assert butter["substitutes"] == [{"item": "Rhubarb", "ratio": "1/2", "when": "not for baking"}]
    assert butter["item_version"] == 2


def test_what_is_not_there_is_said(lodge):
    with pytest.raises(NotThere):
        one(lodge, "unicorn pie")


def test_every_recipe_of_the_demo_house_costs_something(house):
    from tests.reports.demo_house import asked

    rows = asked(house, recipes)
    assert {row["kind"] for row in rows} == {"dish", "preparation"}
    dishes = [row for row in rows if row["kind"] == "dish"]
    assert {row["unit"] for row in dishes} == {None}
    assert all(Fraction(row["covers"]) > 0 and row["cost"]["in_all"]["minor"] > 0 for row in rows)


def pages(lodge, **given):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        pdf = recipe_sheet(seen, recipes(seen, **given))
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]


def test_on_paper_it_has_its_amounts_its_method_and_the_cautions(lodge):
    picture = "018f6b1e-0000-7000-8000-000000000001"
    content = io.BytesIO()
    Image.new("RGB", (40, 30), "tan").save(content, "JPEG")
    with writing(lodge.engine) as connection:
        taken = pictures.Taken(picture, content.getvalue(), CHEF, None, NOW)
        pictures.keep(connection, ID, taken)
    lodge.do("write_recipe", tart(picture=picture))
    (page,) = pages(lodge, recipe="rhubarb-tart", covers=12)
    for said in ("Rhubarb tart", "For 12 covers", "1.6 kg", "trimmed 1.2 kg", "Line the tin."):
        assert said in page
    assert "a pinch" in page
    assert "traces can never be ruled out" in page
    assert "£" not in page


def test_AL3_on_paper_it_says_for_whom_it_is_not(lodge):
    (page,) = pages(lodge, recipe="walnut-salad")
    said = "For Ottilie (Family): not Walnut salad, it contains nuts (Walnuts); safe: Walnut salad"
    assert said in " ".join(page.split())


def test_on_paper_a_long_recipe_goes_on_overleaf(lodge):
    lodge.do("write_recipe", tart(method="\n".join(["Stir it well and wait."] * 90)))
    found = pages(lodge, recipe="rhubarb-tart")
    assert len(found) == 3
    assert len(pages(lodge)) >= 10
