"""The allergen handbook against the lists that the law names (AL3).

Sources, read in the reprints named:
EU: Regulation (EU) No 1169/2011, Annex II, http://www.reading.ac.uk/foodlaw/label/allergens-list.htm
US: FDA, https://www.fda.gov/food/food-allergies/faster-act-sesame-ninth-major-food-allergen
Tree nuts: FDA, Questions and Answers Regarding Food Allergens, Edition 5 (January 2025), table 1,
as quoted by https://canr.msu.edu/news/fda_food_allergen_guidance
"""

import tomllib
from importlib.resources import files

import pytest

from pantry.handbook.allergens import (
    allergen_list,
    allergen_named,
    families_of,
    family_on,
    is_listed,
    kinds_of,
)
from pantry.refusals import NotThere

EU, US = allergen_list("eu14"), allergen_list("us9")
DATA = tomllib.loads(files("pantry.handbook").joinpath("allergens.toml").read_text("utf-8"))

# Annex II, points 1 to 14, by their leading words.
ANNEX_II = [
    "Cereals containing gluten",
    "Crustaceans",
    "Eggs",
    "Fish",
    "Peanuts",
    "Soybeans",
    "Milk",
    "Nuts",
    "Celery",
    "Mustard",
    "Sesame seeds",
    "Sulphur dioxide and sulphites",
    "Lupin",
    "Molluscs",
]
# The nine of the FDA's page, in its order, with the examples it gives.
FDA_NINE = {
    "Milk": [],
    "Eggs": [],
    "Fish": ["bass", "flounder", "cod"],
    "Crustacean shellfish": ["crab", "lobster", "shrimp"],
    "Tree nuts": ["almonds", "walnuts", "pecans"],
    "Peanuts": [],
    "Wheat": [],
    "Soybeans": [],
    "Sesame": [],
}
# Annex II, point 8; point 1.
EU_NUTS = (
    "almonds hazelnuts walnuts cashews pecan_nuts Brazil_nuts pistachio_nuts macadamia_nuts "
    "Queensland_nuts"
)
EU_CEREALS = "wheat spelt khorasan_wheat rye barley oats"
# Table 1 of the FDA's guidance.
US_NUTS = (
    "almond black_walnut brazil_nut california_walnut cashew filbert hazelnut heartnut "
    "japanese_walnut macadamia_nut bush_nut pecan pine_nut pinon_nut pistachio walnut"
)


def words(text: str) -> list[str]:
    return [word.replace("_", " ") for word in text.split()]


def test_AL3_the_fourteen_of_the_eu_are_annex_ii_in_its_order():
    assert [family_on(name, EU) for name in ANNEX_II] == [family.name for family in EU.families]
    assert "1169/2011" in EU.title
    assert "reading.ac.uk" in EU.source


def test_AL3_the_nine_of_the_united_states_are_the_fdas_in_its_order():
    assert [family_on(name, US) for name in FDA_NINE] == [family.name for family in US.families]
    assert [family.name for family in US.families] == [name.casefold() for name in FDA_NINE]
    for family, examples in FDA_NINE.items():
        assert {family_on(each, US) for each in examples} <= {family.casefold()}


@pytest.mark.parametrize("nut", words(EU_NUTS))
def test_AL3_every_nut_of_annex_ii_is_a_nut_on_both_lists(nut):
    assert (family_on(nut, EU), family_on(nut, US)) == ("nuts", "tree nuts")


@pytest.mark.parametrize("nut", words(US_NUTS))
def test_AL3_every_nut_of_table_1_is_a_tree_nut(nut):
    assert family_on(nut, US) == "tree nuts"
    assert "nuts" in families_of(allergen_named(nut))


def test_AL3_the_members_named_are_neither_more_nor_fewer_than_the_law_names():
    (eu_nuts,) = [family for family in EU.families if family.name == "nuts"]
    assert set(eu_nuts.members) == {allergen_named(nut) for nut in words(EU_NUTS)}
    (us_nuts,) = [family for family in US.families if family.name == "tree nuts"]
    assert set(us_nuts.members) == {allergen_named(nut) for nut in words(US_NUTS)}
    (cereals,) = [family for family in EU.families if family.members and family != eu_nuts]
    assert {allergen_named(each) for each in words(EU_CEREALS)} <= kinds_of(cereals.allergen)


@pytest.mark.parametrize(
    ("word", "in_the_eu", "in_the_us"),
    [
        # Molluscs are none of the nine: only crustacean shellfish is (FDA's page above).
        ("mussel", "molluscs", None),
        ("oysters", "molluscs", None),
        ("prawn", "crustaceans", "crustacean shellfish"),
        ("celeriac", "celery", None),
        ("mustard", "mustard", None),
        ("lupin", "lupin", None),
        ("sulfites", "sulphites", None),
        ("wheat", "cereals containing gluten", "wheat"),
        # Spelt and khorasan are wheat by Annex II, point 1, and were treated as wheat under the
        # United States' law too: https://www.wheat-free.org/blog/archives/news21022006.html
        ("spelt", "cereals containing gluten", "wheat"),
        ("Kamut", "cereals containing gluten", "wheat"),
        # Durum, emmer, einkorn are wheat: Food Standards Scotland, as quoted at
        # http://dgfoodanddrink.org/trading/updated-guidance-wheat-allergen-labelling
        ("durum", "cereals containing gluten", "wheat"),
        ("einkorn", "cereals containing gluten", "wheat"),
        ("barley", "cereals containing gluten", None),
        ("rye", "cereals containing gluten", None),
        ("oats", "cereals containing gluten", None),
        # Point 8 closes its list with eight nuts; table 1 has the pine nut besides.
        ("pine nut", None, "tree nuts"),
        # Taken off by Edition 5 (https://canr.msu.edu/news/fda_food_allergen_guidance); never on
        # Annex II.
        ("coconut", None, None),
        ("chestnut", None, None),
        ("lactose", "milk", "milk"),  # Annex II, point 7: milk, including lactose
        ("kiwi", None, None),
    ],
)
def test_AL3_the_crosswalk_between_the_two_lists(word, in_the_eu, in_the_us):
    assert family_on(word, EU) == in_the_eu
    assert family_on(word, US) == in_the_us


def test_AL3_a_shellfish_is_both_a_crustacean_and_a_mollusc_to_a_guest():
    assert {"crustaceans", "molluscs", "lobster", "squid"} <= kinds_of("shellfish")


def test_AL3_lists_are_found_by_the_names_people_write_and_others_are_refused():
    assert allergen_list("EU 14") == allergen_list("eu_14") == allergen_list("uk") == EU
    assert allergen_list("US 9") == US
    with pytest.raises(NotThere) as refused:
        allergen_list("atlantis")
    assert (refused.value.code, refused.value.value) == ("allergen_list_unknown", "atlantis")
    assert "eu14, us9" in refused.value.todo


def test_AL3_a_word_of_no_list_is_kept_as_it_is():
    assert allergen_named("  Kiwi   Fruit ") == "kiwi fruit"
    assert not is_listed("kiwi fruit")
    assert kinds_of("kiwi fruit") == families_of("kiwi fruit") == {"kiwi fruit"}


def test_AL3_every_entry_of_the_handbook_names_its_source_and_no_word_means_two_things():
    sources = set(DATA["sources"])
    entries = DATA["allergen"]
    names = {entry["name"] for entry in entries}
    assert {entry["source"] for entry in (*entries, *DATA["list"])} <= sources
    assert {family for entry in entries for family in entry.get("within", ())} <= names
    said = [word for entry in entries for word in (entry["name"], *entry.get("also", ()))]
    assert sorted(said) == sorted(set(said))
    on_lists = [line for each in DATA["list"] for line in each["families"]]
    assert {
        word for line in on_lists for word in (line["allergen"], *line.get("members", ()))
    } <= names
