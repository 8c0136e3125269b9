"""Recipes in documents, as https://schema.org/Recipe defines them; the recipes are our own."""

import json
from contextlib import suppress

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pantry.refusals import UnreadableInput
from pantry.rules.recipe_documents import recipes_in

SOUP = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Nettle &amp; potato soup",
    "recipeYield": "Serves 4",
    "prepTime": "PT15M",
    "cookTime": "PT1H10M",
    "recipeIngredient": ["200 g nettle tops", "<b>3</b> potatoes"],
    "recipeInstructions": "Sweat the onion.<br>Add the nettles.",
    "suitableForDiet": ["https://schema.org/VeganDiet", "GlutenFreeDiet"],
}


def one(document):
    (found,) = recipes_in(document if isinstance(document, str) else json.dumps(document))
    return found


def test_a_recipe_is_read_as_it_is_defined():
    soup = one(SOUP)
    assert (soup.name, soup.yields, soup.yields_written) == ("Nettle & potato soup", 4, "Serves 4")
    assert soup.ingredients == ("200 g nettle tops", "3 potatoes")
    assert soup.method == "Sweat the onion.\nAdd the nettles."
    assert soup.lead == "PT1H25M"


def test_AL3_what_it_says_of_diets_is_not_believed():
    assert one(SOUP).not_believed == ("VeganDiet", "GlutenFreeDiet")


@pytest.mark.parametrize(
    ("written", "yields"),
    [
        (6, 6),
        ("6", 6),
        (6.0, 6),
        ("6 servings", 6),
        (["6", "6 servings"], 6),
        (["6", "1 loaf"], 6),
        ("for 6 people", 6),
        ({"@type": "QuantitativeValue", "value": 6, "unitText": "portions"}, 6),
        ("4 to 6 servings", None),
        (["4", "6 servings"], None),
        ("1 loaf of 900 g", None),
        ("24 biscuits", None),
        (0, None),
        (None, None),
    ],
)
def test_for_how_many_is_one_whole_number_of_people_or_nobody_knows(written, yields):
    assert one(SOUP | {"recipeYield": written}).yields == yields


@pytest.mark.parametrize(
    ("total", "lead"),
    [("PT90M", "PT1H30M"), ("P1DT2H", "P1DT2H"), ("an hour", "PT1H25M"), ("P1Y", "PT1H25M")],
)
def test_how_long_it_takes_is_iso_8601(total, lead):
    assert one(SOUP | {"totalTime": total}).lead == lead


def test_a_method_of_sections_and_steps_keeps_their_order():
    step = {"@type": "HowToStep", "text": "Boil the water."}
    named = {"@type": "HowToStep", "name": "Season."}
    section = {"@type": "HowToSection", "name": "Soup", "itemListElement": [step, named]}
    listed = {"@type": "ItemList", "itemListElement": [{"@type": "ListItem", "item": step}]}
    method = one(SOUP | {"recipeInstructions": [section, "Serve.", listed]}).method
    assert method.splitlines() == [
        "Soup:",
        "Boil the water.",
        "Season.",
        "Serve.",
        "Boil the water.",
    ]


@pytest.mark.parametrize(
    "around",
    [
        lambda node: [node],
        lambda node: {"@context": "https://schema.org", "@graph": [{"@type": "WebPage"}, node]},
        lambda node: {"@type": "WebPage", "mainEntity": node},
        lambda node: node | {"@type": ["Recipe", "NewsArticle"]},
        lambda node: node | {"@type": "https://schema.org/Recipe"},
    ],
)
def test_it_is_found_wherever_it_stands(around):
    assert one(around(SOUP)).yields == 4


def test_it_is_found_in_a_saved_page_and_no_script_of_it_is_run():
    page = f"""<!doctype html><html><head><script>throw 1</script>
    <script type="application/ld+json">not json</script>
    <script type='application/ld+json'>{json.dumps(SOUP)}</script></head><body>x</body></html>"""
    assert one(page).name == "Nettle & potato soup"


def test_rows_copied_from_a_sheet_are_lines_with_their_amounts_first():
    assert one("Plain flour\t250 g\n\n2 eggs\n").ingredients == ("250 g Plain flour", "2 eggs")


@pytest.mark.parametrize("text", ["", "{}", "<p>no</p>", '{"@type": "Person"}', "[" * 5000])
def test_where_there_is_none_it_says_so(text):
    with pytest.raises(UnreadableInput) as refused:
        recipes_in(text)
    assert refused.value.code == "document_unreadable"


KEYS = ["@type", "name", "text", "itemListElement", "item", "value", "@graph", "x"]
JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=20),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=3)
    ),
    max_leaves=5,
)
PROPERTIES = ["name", "recipeYield", "totalTime", "prepTime", "recipeIngredient"]
PROPERTIES += ["recipeInstructions", "suitableForDiet", "ingredients"]
PAGES = st.text().map('<script type="application/ld+json">'.__add__)


@settings(suppress_health_check=[HealthCheck.too_slow])  # JSON as deep as it comes
@given(st.dictionaries(st.sampled_from(PROPERTIES), JSON, max_size=4))
def test_whatever_stands_in_a_recipe_it_is_read_to_texts(node):
    found = one(node | {"@type": "Recipe"})
    assert all(isinstance(line, str) and line for line in found.ingredients)
    assert found.yields is None or found.yields > 0


@settings(suppress_health_check=[HealthCheck.too_slow])  # as above
@given(st.text() | JSON.map(json.dumps) | PAGES)
def test_any_document_is_read_or_refused(text):
    with suppress(UnreadableInput):
        assert recipes_in(text)
