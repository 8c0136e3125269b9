"""Allergens: what flows into what (AL3)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.allergens import allergen_list, allergen_named, families_of, kinds_of
from pantry.rules.allergens import (
    WORST_FIRST,
    Certainty,
    Larder,
    Made,
    by_list,
    certainty_of,
    of_batch,
    of_recipe,
    together,
)
from pantry.rules.menu import Change, Ingredient, Recipe, RecipeKind, VariantChange
from pantry.rules.stock import Declared
from pantry.rules.variants import with_variant

CONTAINS, MAY_CONTAIN, UNKNOWN, FREE_OF = WORST_FIRST


def declared(contains: str = "", may_contain: str = "", free_of: str = "") -> Declared:
    """The words of a label, parted by commas."""
    return Declared(
        *(
            frozenset(word.strip() for word in words.split(",") if word.strip())
            for words in (contains, may_contain, free_of)
        )
    )


def recipe(name: str, *items: str, makes: str | None = None, variants=()) -> Recipe:
    kind = RecipeKind.PREPARATION if makes else RecipeKind.DISH
    lines = tuple(Ingredient(item, Fraction(100)) for item in items)
    return Recipe(name, name, kind, Fraction(4), lines, makes=makes, variants=variants)


def larder(known: dict[str, Declared], *preparations: Recipe, **facts) -> Larder:
    made = {each.makes: each for each in preparations if each.makes}
    return Larder(known, {name: name for name in (*known, *made)}, made, **facts)


@pytest.mark.parametrize(
    ("label", "allergen", "expected"),
    [
        (declared("milk"), "milk", CONTAINS),
        (declared("MILK "), "Dairy", CONTAINS),
        (declared(may_contain="milk"), "milk", MAY_CONTAIN),
        (declared("milk", may_contain="milk", free_of="milk"), "milk", CONTAINS),
        (declared(free_of="milk"), "milk", FREE_OF),
        (declared("eggs"), "milk", UNKNOWN),
        (declared(), "milk", UNKNOWN),
        # a kind counts for its family
        (declared("spelt"), "wheat", CONTAINS),
        (declared("spelt"), "gluten", CONTAINS),
        (declared(may_contain="almonds"), "nuts", MAY_CONTAIN),
        (declared("prawns"), "shellfish", CONTAINS),
        # a family named whole may be any of its kinds
        (declared("nuts"), "hazelnut", MAY_CONTAIN),
        (declared(may_contain="nuts"), "hazelnut", MAY_CONTAIN),
        (declared("nuts", free_of="hazelnut"), "hazelnut", FREE_OF),
        # a kind says nothing of its brothers
        (declared("almond"), "hazelnut", UNKNOWN),
        # free of a family is free of its kinds, and not the other way round
        (declared(free_of="gluten"), "barley", FREE_OF),
        (declared(free_of="wheat"), "gluten", UNKNOWN),
        # a declaration that speaks against itself is free of nothing it speaks of
        (declared("almond", free_of="nuts"), "hazelnut", UNKNOWN),
        (declared(may_contain="wheat", free_of="gluten"), "rye", UNKNOWN),
        # a crossing belongs to both
        (declared("triticale"), "rye", CONTAINS),
        (declared("triticale"), "wheat", CONTAINS),
        # a word of nobody's list is kept as it is
        (declared("Kiwi"), "kiwi", CONTAINS),
        (declared("milk"), "kiwi", UNKNOWN),
    ],
)
def test_AL3_what_a_declaration_says_of_an_allergen(label, allergen, expected):
    assert certainty_of(label, allergen) is expected


def test_AL3_made_of_all_of_these_is_free_only_if_all_are():
    flour, butter = (
        declared("wheat", free_of="milk, eggs"),
        declared("milk", "nuts", "gluten, eggs"),
    )
    assert together([flour, butter]) == declared("wheat, milk", "nuts", "eggs")
    assert together([declared(free_of="nuts"), declared(free_of="almond")]).free_of == {"almond"}
    assert together([]) == declared()


def test_AL3_what_may_be_in_one_and_is_in_another_is_in_the_whole():
    assert together([declared(may_contain="nuts"), declared("nuts")]) == declared("nuts")


def test_AL3_allergens_flow_through_preparations_also_through_what_nobody_counts():
    known = larder(
        {
            "bones": declared(free_of="celery, milk"),
            "celery salt": declared("celery", free_of="milk"),
            "cream": declared("milk"),
            "leek": declared(free_of="celery, milk, gluten"),
        },
        recipe("make stock", "bones", "celery salt", makes="stock"),
        recipe("make base", "stock", "leek", makes="base"),
    )
    found = of_recipe(recipe("soup", "base", "leek"), known)
    assert found == declared("celery", free_of="milk")
    with_cream = of_recipe(recipe("cream soup", "base", "cream"), known)
    assert certainty_of(with_cream, "celery") is CONTAINS
    assert certainty_of(with_cream, "milk") is CONTAINS


def test_AL3_one_ingredient_of_which_nothing_is_known_makes_the_dish_unknown():
    known = larder({"leek": declared(free_of="milk"), "sausage": declared("wheat")})
    found = of_recipe(recipe("hotpot", "leek", "sausage", "gravy"), known)
    assert certainty_of(found, "milk") is UNKNOWN
    assert certainty_of(found, "wheat") is CONTAINS


def test_AL3_a_recipe_without_ingredients_is_free_of_nothing():
    known = larder({"leek": declared(free_of="milk")}, recipe("make mystery", makes="mystery"))
    assert of_recipe(recipe("blank"), known) == declared()
    assert certainty_of(of_recipe(recipe("soup", "leek", "mystery"), known), "milk") is UNKNOWN


def test_AL3_what_a_preparation_itself_declares_is_added_but_frees_it_of_nothing():
    known = larder(
        {
            "flour": declared("wheat"),
            "pastry": declared("", "nuts", "milk, wheat"),
            "leek": declared(free_of="nuts, almond, gluten"),
        },
        recipe("make pastry", "flour", makes="pastry"),
    )
    assert of_recipe(recipe("tart", "pastry", "leek"), known) == declared("wheat", "nuts")
    assert of_recipe(known.preparations["pastry"], known) == declared("wheat", "nuts")
    plain = larder(
        {"flour": declared(free_of="nuts, milk"), "pastry": declared(may_contain="almond")},
        recipe("make pastry", "flour", makes="pastry"),
    )
    assert of_recipe(recipe("tart", "pastry"), plain) == declared("", "almond", "milk")


def test_AL3_a_preparation_that_says_nuts_may_hold_a_hazelnut_whatever_its_flour_is_free_of():
    known = larder(
        {"flour": declared(free_of="hazelnut, milk"), "pastry": declared("nuts")},
        recipe("make pastry", "flour", makes="pastry"),
    )
    found = of_recipe(recipe("tart", "pastry"), known)
    assert certainty_of(found, "hazelnut") is MAY_CONTAIN
    assert certainty_of(found, "milk") is FREE_OF


def test_AL3_a_variant_and_a_substitute_bring_their_own():
    known = {
        "cream": declared("milk"),
        "oat cream": declared("oats", free_of="milk"),
        "leek": declared(free_of="milk, gluten"),
    }
    change = VariantChange(Change.REPLACE, "cream", "oat cream")
    soup = recipe("soup", "cream", "leek", variants=(("oat", (change,)),))
    assert of_recipe(with_variant(soup, "oat"), larder(known)) == declared("oats", free_of="milk")
    instead = larder(known, substitutes={"cream": "oat cream"})
    assert of_recipe(soup, instead) == declared("oats", free_of="milk")


def test_AL3_a_substitute_made_of_what_it_takes_the_place_of_keeps_its_allergens():
    known = larder(
        {"butter": declared("milk"), "oil": declared(free_of="milk")},
        recipe("make ghee", "butter", makes="ghee"),
        recipe("make roux", "butter", "oil", makes="roux"),
        substitutes={"butter": "ghee", "oil": "roux"},
    )
    for dish in (recipe("fry", "butter"), recipe("bake", "roux"), recipe("toast", "oil")):
        assert certainty_of(of_recipe(dish, known), "milk") is CONTAINS


def test_AL3_a_circle_of_preparations_ends_and_is_free_of_nothing():
    known = larder({}, recipe("make a", "b", makes="a"), recipe("make b", "a", makes="b"))
    assert of_recipe(recipe("dish", "a"), known) == declared()


def test_AL3_each_allergen_of_the_houses_list_is_said_to_be_in_or_not_or_unknown():
    label = declared("spelt, mussels", "hazelnut", "milk, eggs, fish")
    eu = by_list(label, allergen_list("eu14"))
    assert list(eu)[:3] == ["cereals containing gluten", "crustaceans", "eggs"]
    assert len(eu) == 14
    assert eu["cereals containing gluten"] is CONTAINS
    assert eu["molluscs"] is CONTAINS
    assert eu["nuts"] is MAY_CONTAIN
    assert eu["milk"] is FREE_OF
    assert eu["celery"] is UNKNOWN
    us = by_list(label, allergen_list("us9"))
    assert len(us) == 9
    assert us["wheat"] is CONTAINS
    assert us["tree nuts"] is MAY_CONTAIN
    assert us["crustacean shellfish"] is UNKNOWN


def test_AL3_a_pine_nut_is_a_tree_nut_of_one_list_and_no_nut_of_the_other():
    label = declared(
        "pine kernels",
        free_of="almond, hazelnut, walnut, cashew, pecan, brazil nut, pistachio, macadamia",
    )
    assert by_list(label, allergen_list("EU 14"))["nuts"] is FREE_OF
    assert by_list(label, allergen_list("US 9"))["tree nuts"] is CONTAINS
    assert by_list(declared("nuts"), allergen_list("EU 14"))["nuts"] is CONTAINS
    assert certainty_of(label, "nuts") is CONTAINS  # a person who cannot eat nuts is kept from it


# --- batches --------------------------------------------------------------------------------------

STOCK = recipe("make stock", "bones", "celery salt", makes="stock")
KNOWN = larder(
    {
        "bones": declared(free_of="celery, milk"),
        "celery salt": declared("celery", free_of="milk"),
        "stock cube": declared("wheat"),
        "stock": declared(free_of="celery"),
    },
    STOCK,
)


def test_AL3_a_made_batch_has_what_its_parents_have_and_what_was_cooked_with_them_uncounted():
    made = {"b": Made("bones"), "s": Made("stock", ("b",), STOCK)}
    assert of_batch("s", made, {}, KNOWN) == declared("celery", free_of="milk")


def test_AL3_the_product_in_hand_counts_and_not_the_item_it_is_called():
    made = {"b": Made("bones"), "s": Made("stock", ("b",), STOCK), "part": Made("stock", ("s",))}
    smoked = {"b": declared(may_contain="mustard", free_of="milk")}
    for batch in ("s", "part"):
        assert of_batch(batch, made, smoked, KNOWN) == declared("celery", "mustard", "milk")


def test_AL3_a_jar_of_two_lots_has_what_either_has():
    made = {"one": Made("flour"), "two": Made("flour"), "jar": Made("flour", ("one", "two"))}
    lots = {
        "one": declared("wheat", free_of="milk, soya"),
        "two": declared("wheat", "soya", "milk"),
    }
    assert of_batch("jar", made, lots, larder({})) == declared("wheat", "soybeans", "milk")


def test_AL3_a_batch_of_unknown_origin_has_what_its_recipe_has_and_is_free_of_nothing():
    found = of_batch("found", {"found": Made("stock")}, {}, KNOWN)
    assert certainty_of(found, "celery") is CONTAINS
    assert certainty_of(found, "milk") is UNKNOWN
    lost_parent = {"s": Made("stock", ("gone",), STOCK)}
    found = of_batch("s", lost_parent, {}, KNOWN)
    assert certainty_of(found, "celery") is CONTAINS
    assert certainty_of(found, "milk") is UNKNOWN


def test_AL3_an_unrecorded_preparation_in_a_batch_is_followed_to_its_own_ingredients():
    soup = recipe("make soup", "stock", "bones", makes="soup")
    made = {"b": Made("bones"), "soup": Made("soup", ("b",), soup)}
    assert certainty_of(of_batch("soup", made, {}, KNOWN), "celery") is CONTAINS


# --- properties -----------------------------------------------------------------------------------

WORDS = ["milk", "nuts", "almond", "hazelnuts", "gluten", "wheat", "spelt", "Soya", "fish", "kiwi"]
WORD_SETS = st.frozensets(st.sampled_from(WORDS), max_size=3)
LABELS = st.builds(Declared, WORD_SETS, WORD_SETS, WORD_SETS)
BOUGHT = [f"bought {n}" for n in range(6)]
MADE = [f"made {n}" for n in range(5)]


@st.composite
def kitchens(draw):
    """Labelled items, preparations of preparations, a dish with a variant, substitutes."""
    known = {item: draw(LABELS) for item in BOUGHT}
    known.update(
        {item: draw(LABELS) for item in draw(st.lists(st.sampled_from(MADE), unique=True))}
    )
    book = []
    for n, item in enumerate(MADE):
        below = BOUGHT + MADE[n + 1 :]
        parts = draw(st.lists(st.sampled_from(below), min_size=1, max_size=3))
        book.append(recipe(f"make {item}", *parts, makes=item))
    substitutes = draw(
        st.dictionaries(st.sampled_from(BOUGHT), st.sampled_from(BOUGHT + MADE), max_size=3)
    )
    parts = draw(st.lists(st.sampled_from(BOUGHT + MADE), min_size=1, max_size=4, unique=True))
    change = VariantChange(Change.REPLACE, parts[0], draw(st.sampled_from(BOUGHT + MADE)))
    dish = recipe("dish", *parts, variants=(("other", (change,)),))
    variant = draw(st.sampled_from([None, "other"]))
    return with_variant(dish, variant), larder(known, *book, substitutes=substitutes)


def eaten(dish: Recipe, known: Larder) -> set[str]:
    """Every item that may end up on the plate, going down again until nothing is new."""
    found: set[tuple[str, bool]] = set()
    lines = [(line.item, False) for line in dish.ingredients]
    while lines:
        item, below = lines.pop()
        substitute = known.substitutes.get(item)
        plates = {(item, below)} if substitute is None or below else set()
        if substitute is not None:
            plates.add((substitute, True))
        for plate in plates - found:
            found.add(plate)
            made_by = known.preparations.get(plate[0])
            lines += [(line.item, plate[1]) for line in made_by.ingredients] if made_by else []
    return {item for item, _ in found}


@given(kitchens())
def test_AL3_an_allergen_is_never_lost_through_preparations_variants_and_substitutes(kitchen):
    dish, known = kitchen
    found = of_recipe(dish, known)
    for item in eaten(dish, known):
        label = known.declared.get(item, Declared())
        for word in WORDS:
            here, whole = certainty_of(label, word), certainty_of(found, word)
            if here in {CONTAINS, MAY_CONTAIN}:
                assert WORST_FIRST.index(whole) <= WORST_FIRST.index(here)
            if here is UNKNOWN and item not in known.preparations:
                assert whole is not FREE_OF


@given(kitchens())
def test_AL3_nothing_is_said_to_be_in_a_dish_that_is_in_nothing_of_it(kitchen):
    dish, known = kitchen
    found = of_recipe(dish, known)
    labels = [known.declared.get(item, Declared()) for item in eaten(dish, known)]
    for word in WORDS:
        if certainty_of(found, word) is CONTAINS:
            assert any(certainty_of(label, word) is CONTAINS for label in labels)
        if certainty_of(found, word) is MAY_CONTAIN:
            named = {
                allergen_named(each)
                for label in labels
                for each in label.contains | label.may_contain
            }
            name = allergen_named(word)
            assert named & (kinds_of(name) | families_of(name))


@given(kitchens())
def test_AL3_a_dish_is_free_of_what_everything_in_it_is_free_of(kitchen):
    dish, known = kitchen
    found = of_recipe(dish, known)
    on_the_plate = eaten(dish, known)
    made = [known.declared[item] for item in on_the_plate & set(MADE) if item in known.declared]
    bought = [known.declared[item] for item in on_the_plate & set(BOUGHT)]
    for word in WORDS:
        silent = not any(label.contains | label.may_contain for label in made)
        if silent and bought and all(certainty_of(label, word) is FREE_OF for label in bought):
            assert certainty_of(found, word) is FREE_OF


@given(st.lists(LABELS, min_size=1, max_size=4), st.randoms(use_true_random=False))
def test_AL3_it_does_not_matter_in_what_order_or_in_how_many_steps_things_come_together(
    labels, random
):
    shuffled = random.sample(labels, len(labels))
    whole, stepwise = together(labels), labels[0]
    for label in labels[1:]:
        stepwise = together([stepwise, label])
    for word in WORDS:
        assert certainty_of(together(shuffled), word) is certainty_of(whole, word)
        if len(labels) > 1:
            assert certainty_of(stepwise, word) is certainty_of(whole, word)


def test_AL3_certainty_is_ordered_from_the_worst():
    assert WORST_FIRST == (
        Certainty.CONTAINS,
        Certainty.MAY_CONTAIN,
        Certainty.UNKNOWN,
        Certainty.FREE_OF,
    )
