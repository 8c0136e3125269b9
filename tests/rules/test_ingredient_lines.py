"""Lines of somebody else's recipe: sure, doubtful or unknown, and never guessed."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.ingredient_lines import Doubt, Shelf, Sureness, read_line
from pantry.rules.measure import UnitSystem
from pantry.rules.stock import BaseUnit, Item

ITEMS = [
    Item("plain-flour", "Plain flour", BaseUnit.G, density=Fraction("0.53")),
    Item("butter-unsalted", "Butter, unsalted", BaseUnit.G),
    Item("butter-salted", "Butter, salted", BaseUnit.G),
    Item("eggs", "Eggs", BaseUnit.EACH, whole=True),
    Item("whole-milk", "Whole milk", BaseUnit.ML),
    Item("tinned-tomatoes", "Tinned tomatoes", BaseUnit.G),
    Item("potatoes", "Potatoes", BaseUnit.G),
    Item("salt", "Salt", BaseUnit.G, measured=False),
]
SHELF = Shelf({item.id: item for item in ITEMS}, {"tinned-tomatoes": {"tin": Fraction(400)}}, None)


def read(text, system=UnitSystem.US, *, said=True):
    return read_line(text, SHELF, system, system_said=said)


@pytest.mark.parametrize(
    ("text", "item", "in_item"),
    [
        ("250 g plain flour", "plain-flour", Fraction(250)),
        ("250g plain flour, sifted", "plain-flour", Fraction(250)),
        ("- 2 eggs", "eggs", Fraction(2)),
        ("1 egg, lightly beaten", "eggs", Fraction(1)),
        ("4 oz unsalted butter, softened", "butter-unsalted", Fraction("113.3980925")),
        ("½ l of whole milk", "whole-milk", Fraction(500)),
        ("2 tins tinned tomatoes", "tinned-tomatoes", Fraction(800)),
        ("Salt to taste", None, None),
        ("salt", "salt", None),
        ("salt, to taste", "salt", None),
    ],
)
def test_what_is_named_exactly_is_sure(text, item, in_item):
    line = read(text)
    if item is None:  # two words more than the name: it could be another salt
        assert (line.sureness, line.candidates) == (Sureness.DOUBTFUL, ("salt",))
        return
    assert (line.item, line.in_item, line.sureness) == (item, in_item, Sureness.SURE)


def test_MS2_a_us_cup_of_flour_is_what_density_and_cup_make_it():
    """1 US cup is 236.5882365 ml exactly (NIST SP 811, appendix B.8)."""
    line = read("1 1/2 cups plain flour")
    assert line.in_item == Fraction(3, 2) * Fraction("236.5882365") * Fraction("0.53")


@pytest.mark.parametrize(
    ("text", "doubts", "candidates"),
    [
        ("100 g butter", {Doubt.ITEM_NOT_NAMED}, {"butter-salted", "butter-unsalted"}),
        ("100 g butter or lard", {Doubt.ITEM_NOT_NAMED}, {"butter-salted", "butter-unsalted"}),
        ("plain flour", {Doubt.NO_AMOUNT}, {"plain-flour"}),
        ("1 c plain flour", {Doubt.ITEM_NOT_NAMED}, {"plain-flour"}),
        ("3 tins plain flour", {Doubt.NOT_MEASURABLE}, {"plain-flour"}),
        ("1 cup potatoes", {Doubt.NOT_MEASURABLE}, {"potatoes"}),
        ("1 (400 g) tin tinned tomatoes", {Doubt.BRACKETS, Doubt.NOTE}, {"tinned-tomatoes"}),
        ("500 g potatoes, cooked weight", {Doubt.NOTE}, {"potatoes"}),
        ("20 g plain flour, plus extra for dusting", {Doubt.NOTE}, {"plain-flour"}),
    ],
)
def test_what_is_not_certain_waits_for_a_person_with_what_it_could_be(text, doubts, candidates):
    line = read(text)
    assert line.sureness is Sureness.DOUBTFUL
    assert (set(line.doubts), set(line.candidates)) == (doubts, candidates)


def test_what_the_house_does_not_have_is_unknown():
    line = read("1 tbsp gochujang")
    assert (line.sureness, line.amount, line.item) == (Sureness.UNKNOWN, "1 tbsp", None)


def test_MS2_whose_cup_it_is_nobody_assumes():
    line = read("1 cup whole milk", said=False)
    assert line.doubts == (Doubt.SIZE_OF_UNIT,)
    assert read("100 ml whole milk", said=False).sureness is Sureness.SURE


def test_of_a_range_the_larger_is_planned_for():
    assert read("2-3 eggs").in_item == 3


def test_a_line_that_is_no_line_is_not_read():
    line = read("and then " * 100)
    assert (line.sureness, line.doubts) == (Sureness.UNKNOWN, (Doubt.TOO_LONG,))


PIECES = st.sampled_from(
    [
        "1",
        "1/2",
        "½",
        "2-3",
        "g",
        "cups",
        "tin",
        "(",
        ")",
        ",",
        "of",
        "or",
        "eggs",
        "plain",
        "flour",
        "butter",
        "salt",
        "1,500",
        "-",
        "x",
        "٣",
        "c",
        "T",
    ]
)
ANY = st.one_of(st.text(max_size=400), st.lists(PIECES, max_size=14).map(" ".join))


@given(ANY, st.sampled_from(UnitSystem), st.booleans())
def test_any_text_is_read_and_what_is_sure_can_be_written(text, system, said):
    line = read(text, system, said=said)
    if line.sureness is Sureness.SURE:
        item = SHELF.items[line.item]
        assert not item.measured or line.in_item > 0
    else:
        assert line.doubts
    assert set(line.candidates) <= SHELF.items.keys()
