"""Reading somebody else's recipe, and amounts while one is written, over HTTP."""

import json

import pypdfium2
import pytest

from pantry.records.tables import RecipeRow
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER
from tests.http.site import code

RECIPE = {
    "@type": "Recipe",
    "name": "Baked custard",
    "recipeYield": "6",
    "recipeIngredient": [
        "1 pint whole milk",
        "4 eggs",
        "2 oz caster sugar",
        "50 g butter, softened",
    ],
    "recipeInstructions": [{"@type": "HowToStep", "text": "Warm the milk."}],
    "suitableForDiet": "https://schema.org/VegetarianDiet",
}


def read(site, who, **body):
    body = {"text": json.dumps(RECIPE)} | body
    return site.as_(who).post("/api/recipes/read", json=body)


@pytest.mark.parametrize("who", [CHEF, MANAGER])
def test_a_recipe_is_read_against_what_the_house_has_and_nothing_is_written(site, who):
    answer = read(site, who, unit_system="imperial").json()
    (found,) = answer["recipes"]
    assert (found["name"], found["yields"], found["method"]) == (
        "Baked custard",
        6,
        "Warm the milk.",
    )
    assert found["method"] == "Warm the milk."
    assert found["not_believed"] == ["VegetarianDiet"]
    assert [(each["item"], each["sureness"], each["in_item"]) for each in found["lines"]] == [
        ("Whole milk", "sure", {"value": "568.261", "unit": "ml"}),
        ("Eggs", "sure", {"value": "4", "unit": "each"}),
        (None, "unknown", None),
        ("Butter", "sure", {"value": "50", "unit": "g"}),
    ]
    assert not site.house.rows(RecipeRow, id="baked-custard")


def test_MS2_whose_pint_it_is_has_to_be_said(site):
    (found,) = read(site, CHEF).json()["recipes"]
    # in a metric house a pint has no size at all
    assert (found["lines"][0]["sureness"], found["lines"][0]["in_item"]) == ("doubtful", None)


def test_who_writes_no_recipes_reads_none(site):
    for who in (PORTER, APPROVER):
        assert code(read(site, who)) == (403, "no_recipes")
        assert code(site.as_(who).post("/api/amounts", json={})) == (403, "no_recipes")


def test_what_is_no_recipe_is_refused(site):
    assert code(read(site, CHEF, text="<p>Hello</p>")) == (422, "document_unreadable")
    assert code(read(site, CHEF, text=3)) == (400, "request_unreadable")


def test_amounts_are_understood_while_they_are_written(site):
    lines = [("Whole milk", "1 1/2 cups"), ("Eggs", "some"), ("Salt", "?"), ("Sea kale", "2 lb")]
    body = {
        "unit_system": "us",
        "lines": [{"item": item, "amount": amount} for item, amount in lines],
    }
    milk, eggs, salt, kale = site.as_(CHEF).post("/api/amounts", json=body).json()["lines"]
    # 1 US cup is 236.5882365 ml exactly (NIST SP 811, appendix B.8)
    assert milk["in_item"] == milk["measured"] == {"value": "354.882", "unit": "ml"}
    assert eggs["problem"]
    assert eggs["in_item"] is None
    assert salt == {"measured": None, "in_item": None, "problem": None, "todo": None}
    assert (kale["measured"]["value"], kale["in_item"]) == ("907.185", None)


def test_the_household_sees_the_picture_of_a_recipe_and_no_other(site):
    mine, other = (f"018f6b1e-0000-7000-8000-00000000000{n}" for n in (1, 2))
    chef = site.as_(CHEF)
    for picture in (mine, other):
        sent = chef.post(f"/api/pictures/{picture}", content=b"\xff\xd8\xff" + picture.encode())
        assert sent.status_code == 204
    lines = [{"ingredient": "Butter", "amount": "50 g"}]
    dish = {"recipe": "Toast", "yields": "2", "ingredients": lines, "picture": mine}
    site.house.do("write_recipe", dish)
    approver = site.as_(APPROVER)
    assert approver.get(f"/api/pictures/{mine}").status_code == 200
    assert code(approver.get(f"/api/pictures/{other}")) == (403, "no_pictures")


def test_a_recipe_on_paper_is_for_those_who_are_told_of_it(site):
    given = {"recipe": "pancakes", "covers": 3}
    answer = site.as_(APPROVER).get("/api/recipes.pdf", params=given)
    (page,) = pypdfium2.PdfDocument(answer.content)
    assert "For 3 covers" in page.get_textpage().get_text_range()
    assert code(site.as_(PORTER).get("/api/recipes.pdf")) == (403, "report_lacking")
    unknown = site.as_(CHEF).get("/api/recipes.pdf", params={"recipe": "x"})
    assert code(unknown) == (404, "recipe_not_there")
