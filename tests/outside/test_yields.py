"""Handbook yields through a recipe to a need (RQ1).

`SR28`: USDA National Nutrient Database for Standard Reference, Release 28, FOOD_DES, column Refuse:
the per cent of a food as bought that is thrown away.
`ERS`: USDA Economic Research Service, Fruit and Vegetable Prices 2022, columns RetailPrice, Yield,
CupEquivalentSize, CupEquivalentPrice: what one pound costs, what is left of it when it is prepared,
what one cup of it weighs prepared, and what that cup costs.
"""

from datetime import UTC, date, datetime
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest

from pantry.rules.menu import (
    DiningTable,
    Ingredient,
    Recipe,
    RecipeKind,
    Service,
    ServiceState,
    Serving,
)
from pantry.rules.recipes import direct_needs
from pantry.rules.stock import BaseUnit, Item

AT = datetime(2027, 3, 13, 19, tzinfo=UTC)
POUND = Fraction("453.59237")  # grams, exact by definition


def as_bought(prepared: Fraction, trimming_yield: Fraction, portions: int = 1) -> int:
    """Milligrams that a dish needs for so many portions of so much prepared food (g)."""
    line = Ingredient("food", prepared, trimming_yield=trimming_yield)
    dish = Recipe("dish", "Dish", RecipeKind.DISH, Fraction(1), (line,))
    service = Service(
        "2027-03-13/dinner/family",
        date(2027, 3, 13),
        "dinner",
        "family",
        AT,
        portions,
        ServiceState.CONFIRMED,
        (Serving("main", "dish"),),
    )
    (need,) = direct_needs(
        service,
        {"dish": dish},
        {"food": Item("food", "Food", BaseUnit.G)},
        {"family": DiningTable("family", "Family", 1)},
        ZoneInfo("Europe/London"),
    )
    return need.quantity


# SR28, NDB number: food, refuse in per cent.
SR28 = {
    "11124": ("Carrots, raw", 11),
    "11282": ("Onions, raw", 10),
    "11246": ("Leeks, (bulb and lower leaf-portion), raw", 56),
    "11135": ("Cauliflower, raw", 61),
    "11090": ("Broccoli, raw", 39),
    "11304": ("Peas, green, raw", 62),
    "09266": ("Pineapple, raw, all varieties", 49),
    "01123": ("Egg, whole, raw, fresh", 12),
}

# ERS: food, form, retail price of a pound, yield, pounds of a cup, price of a cup (dollars).
ERS = [
    ("Acorn squash", "Fresh", "1.2136", "0.4586", "0.4519", "1.1961"),
    ("Artichoke", "Fresh", "2.4703", "0.375", "0.3858", "2.5415"),
    ("Cauliflower heads", "Fresh", "2.1841", "0.8926", "0.2756", "0.6743"),
    ("Corn", "Fresh", "2.2281", "0.54", "0.3638", "1.5009"),
    ("Cucumbers without peel", "Fresh", "1.2473", "0.73", "0.2646", "0.4520"),
    ("Onions", "Fresh", "1.1062", "0.9", "0.3527", "0.4335"),
    ("Potatoes", "Fresh", "0.8166", "0.8113", "0.2646", "0.2663"),
    ("Apples", "Fresh", "1.8541", "0.9", "0.2425", "0.4996"),
    ("Grapefruit", "Fresh", "1.4444", "0.49", "0.463", "1.3647"),
    ("Pineapple", "Fresh", "0.617", "0.51", "0.3638", "0.4401"),
    # Dried pulses take up water: a pound bought is more than two pounds cooked.
    ("Black beans", "Dried", "1.5250", "2.4692", "0.3858", "0.2383"),
    ("Lentils", "Dried", "1.8390", "2.4692", "0.3858", "0.2873"),
    ("Blackeye peas", "Dried", "1.9265", "2.5397", "0.3858", "0.2926"),
]


@pytest.mark.parametrize(("food", "form", "price", "yields", "cup", "cup_price"), ERS)
def test_RQ1_a_cup_costs_what_the_ers_says_it_does(food, form, price, yields, cup, cup_price):
    """What has to be bought for a cup, at the price of what is bought, is the price of the cup."""
    bought = as_bought(Fraction(cup) * POUND, Fraction(yields))
    cost = Fraction(bought, 1000) / POUND * Fraction(price)
    # Every column is rounded to four places; the size of a cup is the coarsest of them.
    coarse = Fraction("0.00005") / Fraction(cup) + Fraction("0.00005") / Fraction(yields)
    assert abs(cost / Fraction(cup_price) - 1) < coarse + Fraction("0.0003"), (food, form)


@pytest.mark.parametrize(("ndb", "food", "refuse"), [(n, *each) for n, each in SR28.items()])
def test_RQ1_what_is_bought_less_the_refuse_of_sr28_is_what_the_recipe_wants(ndb, food, refuse):
    bought = as_bought(Fraction(1000), 1 - Fraction(refuse, 100), portions=7)
    thrown_away = bought * refuse / 100
    assert bought - thrown_away == pytest.approx(7_000_000, abs=1), (ndb, food)


def test_RQ1_twelve_large_eggs_weigh_what_a_dozen_large_eggs_weigh():
    """SR28: a large egg is 50 g without its shell (WEIGHT, 01123), the shell is 12 %.

    A dozen large eggs weigh at least 24 ounces (United States Standards, Grades, and Weight Classes
    for Shell Eggs, AMS 56; from memory).
    """
    dozen = as_bought(Fraction(50), Fraction(88, 100), portions=12)
    assert dozen / 1000 == pytest.approx(24 * float(POUND) / 16, rel=0.01)


def test_RQ1_twenty_pounds_of_shredded_cabbage_at_79_per_cent_are_25_3_pounds():
    """The worked example of a text on as-purchased quantities by yield per cent.

    Its address was not recorded; 20 / 0.79 = 25.316, worked out by hand.
    """
    pounds = Fraction(as_bought(20 * POUND, Fraction(79, 100)), 1000) / POUND
    assert round(float(pounds), 1) == 25.3


def test_RQ1_two_kilograms_of_trimmed_leeks_are_4_545_kilograms_to_buy():
    """SR28, 11246: 56 % refuse. 2 / 0.44 = 4.5454..., worked out by hand."""
    assert as_bought(Fraction(2000), Fraction(44, 100)) == 4_545_455


def test_RQ1_a_yield_above_one_needs_less_than_the_recipe_has():
    """ERS, dried beans: 2.4692 pounds cooked of one pound dry. Nothing may cut it to 1."""
    assert as_bought(Fraction(24692, 10), Fraction("2.4692")) == 1_000_000


def test_RQ1_a_kitchens_own_yield_decides_where_handbooks_disagree():
    """Cauliflower: SR28 (11135) has 61 % refuse, ERS a yield of 0.8926: other ideas of prepared."""
    by_sr28 = as_bought(Fraction(1000), Fraction(39, 100))
    by_ers = as_bought(Fraction(1000), Fraction("0.8926"))
    in_this_house = as_bought(Fraction(1000), Fraction(6, 10))
    assert (by_sr28, by_ers) == (2_564_103, 1_120_323)
    assert by_ers < in_this_house == 1_666_667 < by_sr28
