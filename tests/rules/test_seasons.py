"""When a dish is in season."""

from datetime import date
from fractions import Fraction

import pytest

from pantry.rules.menu import Recipe, RecipeKind
from pantry.rules.seasons import in_season


def dish(season):
    return Recipe("tart", "Tart", RecipeKind.DISH, Fraction(4), (), season=season)


@pytest.mark.parametrize(
    ("season", "day", "answer"),
    [
        (None, date(2027, 1, 1), True),
        (((5, 1), (8, 31)), date(2027, 4, 30), False),
        (((5, 1), (8, 31)), date(2027, 5, 1), True),
        (((5, 1), (8, 31)), date(2027, 8, 31), True),
        (((5, 1), (8, 31)), date(2027, 9, 1), False),
        (((11, 15), (2, 28)), date(2027, 11, 14), False),
        (((11, 15), (2, 28)), date(2027, 12, 31), True),
        (((11, 15), (2, 28)), date(2028, 2, 28), True),
        (((11, 15), (2, 28)), date(2028, 2, 29), False),
        (((11, 15), (2, 29)), date(2028, 2, 29), True),
        (((12, 25), (12, 25)), date(2027, 12, 25), True),
        (((12, 25), (12, 25)), date(2027, 12, 26), False),
    ],
)
def test_CH1_a_season_has_both_its_ends_and_may_run_over_the_new_year(season, day, answer):
    assert in_season(dish(season), day) is answer
