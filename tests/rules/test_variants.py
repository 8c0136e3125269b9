"""Variants of a recipe (RQ1)."""

from fractions import Fraction

import pytest

from pantry.refusals import NotThere, UnreadableInput
from pantry.rules.menu import (
    Change,
    Ingredient,
    Recipe,
    RecipeKind,
    Scaling,
    VariantChange,
)
from pantry.rules.variants import with_variant


def stew(*changes: VariantChange) -> Recipe:
    return Recipe(
        id="stew",
        name="Winter stew",
        kind=RecipeKind.DISH,
        yields=Fraction(4),
        ingredients=(
            Ingredient("wine", Fraction(300)),
            Ingredient("leek", Fraction(200), trimming_yield=Fraction(44, 100)),
            Ingredient("oil", Fraction(50), scaling=Scaling.FIXED),
            Ingredient("leek", Fraction(100)),
        ),
        variants=(("Without alcohol", changes),),
    )


def test_RQ1_no_variant_is_the_dish_as_it_stands():
    recipe = stew()
    assert with_variant(recipe, None) is recipe


def test_RQ1_replacing_keeps_the_amount_the_scaling_and_the_trimming_unless_one_is_given():
    recipe = with_variant(
        stew(VariantChange(Change.REPLACE, "wine", "stock")), "  without ALCOHOL "
    )
    assert recipe.ingredients[0] == Ingredient("stock", Fraction(300))
    kept = with_variant(stew(VariantChange(Change.REPLACE, "leek", "onion")), "without alcohol")
    assert kept.ingredients[1] == Ingredient(
        "onion", Fraction(200), trimming_yield=Fraction(44, 100)
    )
    assert kept.ingredients[3] == Ingredient("onion", Fraction(100))


def test_RQ1_an_amount_given_for_another_item_is_as_bought_and_stands_for_all_its_lines():
    change = VariantChange(Change.REPLACE, "leek", "onion", Fraction(150))
    recipe = with_variant(stew(change), "Without alcohol")
    assert recipe.ingredients == (
        Ingredient("wine", Fraction(300)),
        Ingredient("onion", Fraction(150)),
        Ingredient("oil", Fraction(50), scaling=Scaling.FIXED),
    )


def test_RQ1_an_amount_given_for_the_same_item_keeps_its_trimming_and_scaling():
    changes = (
        VariantChange(Change.REPLACE, "oil", None, Fraction(20)),
        VariantChange(Change.REPLACE, "leek", "leek", Fraction(90)),
    )
    recipe = with_variant(stew(*changes), "Without alcohol")
    assert Ingredient("oil", Fraction(20), scaling=Scaling.FIXED) in recipe.ingredients
    assert [line for line in recipe.ingredients if line.item == "leek"] == [
        Ingredient("leek", Fraction(90), trimming_yield=Fraction(44, 100))
    ]


def test_RQ1_leaving_out_and_adding():
    changes = (
        VariantChange(Change.LEAVE_OUT, "leek"),
        VariantChange(Change.ADD, "carrot", None, Fraction(80)),
    )
    recipe = with_variant(stew(*changes), "Without alcohol")
    assert [line.item for line in recipe.ingredients] == ["wine", "oil", "carrot"]
    assert recipe.ingredients[-1].amount == Fraction(80)
    assert recipe.id == "stew"


def test_RQ1_changes_apply_in_their_order():
    changes = (
        VariantChange(Change.REPLACE, "wine", "stock"),
        VariantChange(Change.LEAVE_OUT, "stock"),
    )
    recipe = with_variant(stew(*changes), "Without alcohol")
    assert [line.item for line in recipe.ingredients] == ["leek", "oil", "leek"]


def test_RQ1_an_unknown_variant_is_refused_by_name():
    with pytest.raises(NotThere) as refused:
        with_variant(stew(), "for children")
    assert refused.value.code == "variant_unknown"
    assert refused.value.value == "for children"
    assert "Without alcohol" in refused.value.todo


@pytest.mark.parametrize("change", [Change.REPLACE, Change.LEAVE_OUT])
def test_RQ1_a_change_of_an_ingredient_the_recipe_lacks_is_refused_by_name(change):
    with pytest.raises(NotThere) as refused:
        with_variant(stew(VariantChange(change, "cream", "oat cream")), "Without alcohol")
    assert refused.value.code == "variant_line_missing"
    assert refused.value.value == "cream"
    assert "Winter stew" in refused.value.problem


@pytest.mark.parametrize(
    "change", [VariantChange(Change.ADD, "carrot"), VariantChange(Change.REPLACE, "wine")]
)
def test_RQ1_a_change_that_says_too_little_is_refused(change):
    with pytest.raises(UnreadableInput) as refused:
        with_variant(stew(change), "Without alcohol")
    assert refused.value.code == "variant_unclear"
