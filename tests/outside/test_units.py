"""The table of units against exact definitions, published roundings and an independent library.

Sources stand beside the values. The exact definitions: the international yard and pound agreement
of 1959 (1 lb = 453.59237 g, 1 in = 2.54 cm) and 1 US gallon = 231 cubic inches, both in NIST
Handbook 44, Appendix C; 1 imperial gallon = 4.54609 l, Units of Measurement Regulations 1995
(S.I. 1995/1804). These and the figures of NIST SP 811 are from memory of the publications; the pint
library, whose table is its own, agrees with them.
"""

import json
import subprocess
import sys
from fractions import Fraction
from importlib.resources import files

import pytest

from pantry.rules.measure import UnitSystem, convert, in_base_units, read_amount
from pantry.rules.stock import BaseUnit
from pantry.rules.units import UNITS, check_units

US, METRIC, IMPERIAL = UnitSystem.US, UnitSystem.METRIC, UnitSystem.IMPERIAL
CUBIC_INCH = Fraction("2.54") ** 3


def millilitres(text: str, system: UnitSystem) -> Fraction:
    return in_base_units(read_amount(text, system), BaseUnit.ML)


def grams(text: str) -> Fraction:
    return in_base_units(read_amount(text, IMPERIAL), BaseUnit.G)


def test_MS2_the_pint_library_agrees_exactly_with_every_factor() -> None:
    assert check_units() == ()


def test_MS2_a_wrong_factor_would_be_found(monkeypatch: pytest.MonkeyPatch) -> None:
    cup = UNITS["us_cup"]
    wrong = type(cup)(cup.code, cup.dimension, Fraction(240), cup.definition)
    monkeypatch.setattr("pantry.rules.units.UNITS", {"us_cup": wrong})
    assert check_units() == ("us_cup is 240 in the table and 473176473/2000000 by definition",)


def test_MS2_reading_an_amount_does_not_load_the_library() -> None:
    program = "import sys, pantry.rules.measure; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0


@pytest.mark.parametrize(
    ("text", "system", "exact"),
    [
        ("1 gallon", US, 231 * CUBIC_INCH),
        ("1 quart", US, 231 * CUBIC_INCH / 4),
        ("1 pint", US, 231 * CUBIC_INCH / 8),
        ("1 cup", US, 231 * CUBIC_INCH / 16),
        ("1 gill", US, 231 * CUBIC_INCH / 32),
        ("1 fl oz", US, 231 * CUBIC_INCH / 128),
        ("1 tbsp", US, 231 * CUBIC_INCH / 256),
        ("1 tsp", US, 231 * CUBIC_INCH / 768),
        ("1 gallon", IMPERIAL, Fraction("4546.09")),
        ("1 quart", IMPERIAL, Fraction("4546.09") / 4),
        ("1 pint", IMPERIAL, Fraction("4546.09") / 8),
        ("1 gill", IMPERIAL, Fraction("4546.09") / 32),
        ("1 fl oz", IMPERIAL, Fraction("4546.09") / 160),
        # GNU Units, definitions.units: metriccup, brtablespoon, brteaspoon, dessertspoon, brcup
        ("1 cup", METRIC, Fraction(250)),
        ("1 tbsp", METRIC, Fraction(15)),
        ("1 tsp", METRIC, Fraction(5)),
        ("1 dessertspoon", METRIC, Fraction(10)),
        ("1 tbsp", IMPERIAL, Fraction(15)),
        ("1 cup", IMPERIAL, Fraction("4546.09") / 16),
        ("1 australian tbsp", METRIC, Fraction(20)),
    ],
)
def test_MS2_volumes_are_exact_by_definition(
    text: str, system: UnitSystem, exact: Fraction
) -> None:
    assert millilitres(text, system) == exact


@pytest.mark.parametrize(
    ("text", "system", "published"),
    [
        # NIST SP 811 (2008), Appendix B.8, in litres to seven figures
        ("1 gallon", US, "3.785412"),
        ("1 quart", US, "0.9463529"),
        ("1 pint", US, "0.4731765"),
        ("1 cup", US, "0.2365882"),
        ("1 fl oz", US, "0.02957353"),
        ("1 tbsp", US, "0.01478676"),
        ("1 tsp", US, "0.004928922"),
        ("1 gallon", IMPERIAL, "4.54609"),
        ("1 fl oz", IMPERIAL, "0.02841306"),
    ],
)
def test_MS2_volumes_round_to_the_published_figures(
    text: str, system: UnitSystem, published: str
) -> None:
    decimals = len(published.partition(".")[2])
    litres = millilitres(text, system) / 1000
    assert round(litres, decimals) == Fraction(published)


def test_MS2_the_pound_is_453_59237_grams_exactly() -> None:
    assert grams("1 lb") == Fraction("453.59237")
    assert grams("1 oz") == Fraction("28.349523125")
    assert grams("2 lb 4 oz") == Fraction("453.59237") * 9 / 4
    assert grams("16 oz") == grams("1 lb")


def test_MS2_published_ratios() -> None:
    # 1 kg = 2.2046226218 lb and 1 US pint = 0.832674 imperial pint follow from the definitions
    assert round(1000 / grams("1 lb"), 10) == Fraction("2.2046226218")
    assert round(millilitres("1 us pint", US) / millilitres("1 uk pint", US), 6) == Fraction(
        "0.832674"
    )
    assert millilitres("3 tsp", US) == millilitres("1 tbsp", US)
    assert millilitres("16 tbsp", US) == millilitres("1 cup", US)
    assert millilitres("2 cups", US) == millilitres("1 pint", US)
    assert millilitres("20 fl oz", IMPERIAL) == millilitres("1 pint", IMPERIAL)
    assert convert("6 x 0.75 l", system=METRIC, to="l") == {"value": "4.5", "unit": "l"}


def test_MS2_three_different_cups() -> None:
    # 21 CFR 101.9(b)(5)(viii): for food labels only, a cup means 240 ml, a tablespoon 15, a
    # teaspoon 5, a fluid ounce 30. A recipe's cup is none of these labels'.
    cups = {system: convert("1 cup", system=system)["value"] for system in UnitSystem}
    assert cups == {US: "236.588", METRIC: "250", IMPERIAL: "284.131"}
    assert "240" not in cups.values()


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        # what a general parser of units reads silently wrong (seen with pint 0.25.3)
        ("1 1/2 cup", ("354.882", "ml")),  # read there as half a cup
        ("1,5 kg", ("1500", "g")),  # read there as 15 kg
        ("½ cup", ("118.294", "ml")),  # refused there
        ("750 ML", ("750", "ml")),  # read there as megalitres
        ("5 G", ("5", "g")),  # read there as gauss
        ("12", ("12", "each")),  # read there as a bare number that adds to anything
    ],
)
def test_MS2_traps_of_a_general_parser(text: str, answer: tuple[str, str]) -> None:
    converted = convert(text, system=US)
    assert (converted["value"], converted["unit"]) == answer


def test_MS2_every_unit_of_the_table_names_its_source() -> None:
    table = json.loads(files("pantry.handbook").joinpath("units.json").read_text(encoding="utf-8"))
    assert table["units"].keys() == UNITS.keys()
    assert all(len(row["source"]) > 5 for row in table["units"].values())
