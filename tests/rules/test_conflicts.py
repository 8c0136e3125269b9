"""Who cannot eat a dish, why, and what they can eat instead (AL3)."""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.allergens import Certainty, Larder
from pantry.rules.conflicts import Conflict, SafeDish, conflicts, safe_alternatives
from pantry.rules.menu import Change, Constraint, Ingredient, Recipe, RecipeKind, VariantChange
from pantry.rules.stock import Declared
from pantry.rules.variants import with_variant

ON = date(2027, 3, 13)
ALL_CLEAR = frozenset(
    {"milk", "nuts", "gluten", "celery", "shellfish", "fish", "sulphites", "eggs"}
)


def free_but(*contains: str, may_contain: tuple[str, ...] = ()) -> Declared:
    named = frozenset(contains) | frozenset(may_contain)
    return Declared(frozenset(contains), frozenset(may_contain), ALL_CLEAR - named)


def recipe(id_: str, *items: str, makes: str | None = None, variants=(), approved=True) -> Recipe:
    kind = RecipeKind.PREPARATION if makes else RecipeKind.DISH
    lines = tuple(Ingredient(item, Fraction(100)) for item in items)
    return Recipe(
        id_, id_, kind, Fraction(4), lines, makes=makes, variants=variants, approved=approved
    )


DECLARED = {
    "i1": free_but("milk"),
    "i2": free_but("sulphites"),
    "i3": free_but(),
    "i4": Declared(),
    "i5": free_but("almond", may_contain=("milk",)),
    "i6": free_but("gluten"),
}
NAMES = {
    "i1": "Double cream",
    "i2": "White wine",
    "i3": "Leek",
    "i4": "Sausage",
    "i5": "Almond milk",
    "i6": "Flour",
    "p1": "Leek base",
    "p2": "Velouté",
}
LARDER = Larder(
    DECLARED,
    NAMES,
    {
        "p1": recipe("make base", "i3", "i2", makes="p1"),
        "p2": recipe("make velouté", "p1", "i1", makes="p2"),
    },
)
SOUP = recipe(
    "soup",
    "p2",
    "i3",
    variants=(
        ("with almond milk", (VariantChange(Change.REPLACE, "p2", "i5"),)),
        ("plain", (VariantChange(Change.LEAVE_OUT, "p2"),)),
        ("with base", (VariantChange(Change.REPLACE, "p2", "p1"),)),
    ),
)


def constraint(*cannot_eat: str, person: str = "Ida", table: str = "family", **dates) -> Constraint:
    return Constraint(person, table, frozenset(cannot_eat), **dates)


def found(*constraints: Constraint, dish: Recipe = SOUP, table: str = "family", on: date = ON):
    return conflicts(constraints, dish, table, on, LARDER)


def test_AL3_a_conflict_names_person_allergen_certainty_and_the_chain():
    assert found(constraint("Dairy")) == (
        Conflict("Ida", "Dairy", Certainty.CONTAINS, ("soup", "p2", "i1")),
    )
    assert found(constraint("sulphites"), constraint("milk", person="Otto")) == (
        Conflict("Ida", "sulphites", Certainty.CONTAINS, ("soup", "p2", "p1", "i2")),
        Conflict("Otto", "milk", Certainty.CONTAINS, ("soup", "p2", "i1")),
    )


def test_AL3_the_worst_comes_first_and_unknown_is_a_conflict():
    breakfast = recipe("breakfast", "i4", "i5", "i1")
    assert [
        (each.certainty, each.chain[-1]) for each in found(constraint("milk"), dish=breakfast)
    ] == [
        (Certainty.CONTAINS, "i1"),
        (Certainty.MAY_CONTAIN, "i5"),
        (Certainty.UNKNOWN, "i4"),
    ]


def test_AL3_a_kind_belongs_to_its_family():
    breakfast = recipe("breakfast", "i5")
    (conflict,) = found(constraint("Tree Nuts"), dish=breakfast)
    assert conflict.certainty is Certainty.CONTAINS
    (conflict,) = found(constraint("wheat"), dish=recipe("roux", "i6"))
    assert conflict.certainty is Certainty.MAY_CONTAIN  # the label says gluten, not of what


def test_AL3_an_item_by_name_or_id_is_a_conflict_in_any_case_and_its_absence_is_none():
    for word in ("double  CREAM", "i1"):
        (conflict,) = found(constraint(word))
        assert (conflict.certainty, conflict.chain) == (Certainty.CONTAINS, ("soup", "p2", "i1"))
    assert found(constraint("Sausage")) == ()
    (conflict,) = found(constraint("leek base"))
    assert conflict.chain == ("soup", "p2", "p1")


def test_AL3_a_word_that_is_neither_allergen_nor_item_is_never_passed_over():
    """`Peenuts` is nobody's item: nothing bought says that it is free of it."""
    hits = found(constraint("peenuts"))
    assert {each.certainty for each in hits} == {Certainty.UNKNOWN}
    assert {each.chain[-1] for each in hits} == {"i1", "i2", "i3"}


def test_AL3_a_food_of_no_list_that_is_an_item_is_found_where_something_declares_it():
    declared = {**DECLARED, "i4": Declared(may_contain=frozenset({"leek"}))}
    known = Larder(declared, NAMES, LARDER.preparations)
    hits = conflicts([constraint("Leek")], recipe("plate", "i4", "i1"), "family", ON, known)
    assert [(each.certainty, each.chain[-1]) for each in hits] == [(Certainty.MAY_CONTAIN, "i4")]


def test_AL3_a_dish_or_preparation_of_which_nothing_is_written_is_unknown():
    known = Larder(DECLARED, {**NAMES, "p3": "Mystery"}, {"p3": recipe("make it", makes="p3")})
    for word in ("milk", "Leek"):
        for dish, chain in ((recipe("blank"), ("blank",)), (recipe("pie", "p3"), ("pie", "p3"))):
            (conflict,) = conflicts([constraint(word)], dish, "family", ON, known)
            assert (conflict.certainty, conflict.chain) == (Certainty.UNKNOWN, chain)


def test_AL3_a_substitute_is_checked_in_place_of_what_it_replaces():
    known = Larder(DECLARED, NAMES, LARDER.preparations, {"i1": "i5"})
    assert [
        (each.certainty, each.chain)
        for each in conflicts([constraint("milk")], SOUP, "family", ON, known)
    ] == [(Certainty.MAY_CONTAIN, ("soup", "p2", "i5"))]


def test_AL3_a_changed_product_is_checked_by_what_it_declares_now():
    changed = Larder({**DECLARED, "i3": free_but("celery")}, NAMES, LARDER.preparations)
    person = constraint("celery")
    assert found(person) == ()
    (conflict,) = conflicts([person], SOUP, "family", ON, changed)
    assert conflict.chain == ("soup", "i3")


@pytest.mark.parametrize(
    ("on", "expected"),
    [
        (date(2027, 3, 12), 0),
        (date(2027, 3, 13), 1),
        (date(2027, 3, 20), 1),
        (date(2027, 3, 21), 0),
    ],
)
def test_AL3_a_constraint_holds_on_its_first_and_last_date_and_between(on, expected):
    visit = constraint("milk", first=date(2027, 3, 13), last=date(2027, 3, 20))
    assert len(found(visit, on=on)) == expected


def test_AL3_a_constraint_is_of_one_table():
    assert found(constraint("milk", table="staff")) == ()
    assert len(found(constraint("milk", table="staff"), table="staff")) == 1


def test_AL3_the_same_dish_in_another_variant_is_offered_first():
    salad, pie = recipe("salad", "i3"), recipe("pie", "i1")
    draft = recipe("draft", "i3", approved=False)
    people = [constraint("milk"), constraint("sulphites", person="Otto")]
    offered = safe_alternatives(
        "Ida",
        people,
        SOUP,
        [LARDER.preparations["p1"], salad, pie, draft, SOUP],
        table="family",
        on=ON,
        larder=LARDER,
    )
    assert offered == (
        SafeDish("soup", "plain"),
        SafeDish("soup", "with base"),
        SafeDish("salad", None),
    )


def test_AL3_whoever_has_two_constraints_is_offered_what_is_safe_by_both():
    people = [constraint("milk"), constraint("sulphites")]
    offered = safe_alternatives("Ida", people, SOUP, [], table="family", on=ON, larder=LARDER)
    assert offered == (SafeDish("soup", "plain"),)


@given(
    st.lists(
        st.sampled_from(["i1", "i2", "i3", "i4", "i5", "i6", "p1", "p2"]), min_size=1, max_size=4
    ),
    st.sampled_from(
        ["milk", "nuts", "gluten", "sulphites", "White wine", "Leek", "plain chocolate"]
    ),
    st.sampled_from([None, "plain", "with base", "with almond milk"]),
)
def test_AL3_what_is_offered_has_no_conflict_and_what_is_left_out_has_one(items, word, variant):
    changes = {
        "plain": Change.LEAVE_OUT,
        "with base": Change.REPLACE,
        "with almond milk": Change.REPLACE,
    }
    takes = {"plain": None, "with base": "p1", "with almond milk": "i5"}
    variants = tuple(
        (name, (VariantChange(change, items[0], takes[name]),)) for name, change in changes.items()
    )
    dish = recipe("dish", *items, variants=variants)
    person = [constraint(word)]
    offered = safe_alternatives("Ida", person, dish, [], table="family", on=ON, larder=LARDER)
    hits = conflicts(person, with_variant(dish, variant), "family", ON, LARDER)
    assert (SafeDish("dish", variant) in offered) == (hits == ())
    assert all(each.chain[0] == "dish" and each.certainty != Certainty.FREE_OF for each in hits)
