"""Mass and volume through a density, against household weights that were measured.

Source of the weights: USDA National Nutrient Database for Standard Reference, Release 28 (2015,
revised May 2016), WEIGHT.txt, public domain; the NDB number stands beside each. A US cup is
236.5882365 ml (NIST Handbook 44, Appendix C), so that weight over volume is the density.
"""

from fractions import Fraction

import pytest

from pantry.rules.measure import UnitSystem, convert, in_base_units, read_amount
from pantry.rules.stock import BaseUnit

US = UnitSystem.US
CUP = Fraction("236.5882365")

CUPS = [
    # NDB, food, grams in one US cup, g/ml by division
    ("20081", "wheat flour, white, all-purpose", 125, "0.5283"),
    ("20080", "wheat flour, whole-grain", 120, "0.5072"),
    ("19335", "sugar, granulated", 200, "0.8454"),
    ("19296", "honey", 339, "1.4329"),
    ("01145", "butter, unsalted", 227, "0.9595"),
    ("01077", "milk, whole", 244, "1.0313"),
    ("01053", "cream, heavy whipping, fluid", 238, "1.0060"),
    ("01123", "egg, whole, raw", 243, "1.0271"),
    ("04053", "olive oil", 216, "0.9130"),
    ("02047", "salt, table", 292, "1.2342"),
    ("20027", "cornstarch", 128, "0.5410"),
    ("20044", "rice, white, long-grain, raw", 185, "0.7819"),
]


@pytest.mark.parametrize(("ndb", "food", "grams", "density"), CUPS)
def test_MS3_a_cup_weighs_what_was_measured(ndb: str, food: str, grams: int, density: str) -> None:
    assert round(grams / CUP, 4) == Fraction(density), (ndb, food)
    weighed = convert("1 cup", system=US, to="g", density=Fraction(grams) / CUP)
    assert weighed == {"value": str(grams), "unit": "g"}
    # four decimals of density keep a cup within a tenth of a gram
    rounded = convert("1 cup", system=US, to="g", density=Fraction(density))
    assert abs(Fraction(rounded["value"]) - grams) < Fraction(1, 10)


@pytest.mark.parametrize(
    ("ndb", "cup", "text", "grams", "within"),
    [
        # the same food measured by another measure; SR28 rounds each weight on its own
        ("01145 butter", 227, "1 tbsp", "14.2", "0.05"),
        ("01145 butter: a stick is half a cup", 227, "1/2 cup", "113", "0.5"),
        ("01077 milk", 244, "1 quart", "976", "0.5"),
        ("01077 milk", 244, "1 fl oz", "30.5", "0.05"),
        ("01077 milk", 244, "1 tbsp", "15", "0.5"),
        ("02047 salt", 292, "1 tsp", "6.0", "0.1"),
        ("02047 salt", 292, "1 tbsp", "18", "0.5"),
        ("19296 honey", 339, "1 tbsp", "21", "0.5"),
        ("19335 sugar", 200, "1 tsp", "4.2", "0.05"),
        ("04053 olive oil", 216, "1 tbsp", "13.5", "0.05"),
        ("04053 olive oil", 216, "1 tsp", "4.5", "0.05"),
        ("01053 cream", 238, "1 fl oz", "29.8", "0.06"),
    ],
)
def test_MS3_the_cups_density_gives_the_other_measures(
    ndb: str, cup: int, text: str, grams: str, within: str
) -> None:
    weight = in_base_units(read_amount(text, US), BaseUnit.G, density=cup / CUP)
    assert abs(weight - Fraction(grams)) <= Fraction(within), ndb


def test_MS3_a_cup_of_eggs_is_4_86_large_eggs() -> None:
    # NDB 01123: 1 cup (4.86 large eggs) = 243 g, 1 large = 50 g
    eggs = convert("1 cup", system=US, to="each", density=243 / CUP, piece_weight=Fraction(50))
    assert eggs == {"value": "4.86", "unit": "each"}
    back = convert("4.86 each", system=US, to="cup", density=243 / CUP, piece_weight=Fraction(50))
    assert back == {"value": "1", "unit": "us_cup"}


def test_MS3_the_size_of_a_clove_is_the_items() -> None:
    # NDB 11215: 1 clove of garlic = 3.0 g, 3 cloves = 9.0 g
    clove = {"clove": Fraction(3)}
    assert in_base_units(read_amount("3 cloves", US), BaseUnit.G, words=clove) == 9


def test_MS3_two_published_densities_of_honey_differ_so_a_density_is_given_never_built_in() -> None:
    # SR28 19296: 339 g a cup; FAO/INFOODS Density Database 2.0: 1.42 g/ml (from memory)
    measured = convert("1 cup", system=US, to="g", density=339 / CUP)
    listed = convert("1 cup", system=US, to="g", density=Fraction("1.42"))
    assert (measured["value"], listed["value"]) == ("339", "335.955")
