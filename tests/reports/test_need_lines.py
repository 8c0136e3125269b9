"""PL7: a person can work out again, from the recipe's own lines, how much a dish needs."""

from fractions import Fraction

import pytest

from pantry.reports.coverage import coverage
from tests.reports.demo_house import asked, sheet, value


@pytest.fixture(scope="module")
def covered(house):
    return asked(house, coverage)


def _worked_out(derivation):
    """The sum over the lines, exact, in the item's base unit."""
    portions, yields = Fraction(derivation["portions"]), Fraction(derivation["yields"])
    return sum(
        (portions / yields if line["scales"] else 1)
        * Fraction(value(line["amount"]))
        / Fraction(line["trimming_yield"])
        for line in derivation["lines"]
    )


def test_PL7_every_need_of_a_dish_is_worked_out_again_from_its_lines(covered):
    """To a thousandth of the base unit, for a need is rounded once (MS1)."""
    told = [row for row in covered if row["derivation"] and not row["derivation"]["whole"]]
    assert len(told) > 400
    for row in told:
        off = abs(_worked_out(row["derivation"]) - Fraction(value(row["need"])))
        assert off <= Fraction(1, 1000), (row["service"], row["dish"], row["item"])


def test_RQ1_whole_pieces_are_no_fewer_than_the_sum_of_the_lines(covered):
    needed, worked_out = {}, {}
    for row in covered:
        if row["derivation"] and row["derivation"]["whole"] and row["state"] == "confirmed":
            key = row["service"], row["item"]
            needed[key] = needed.get(key, 0) + Fraction(value(row["need"]))
            worked_out[key] = worked_out.get(key, 0) + _worked_out(row["derivation"])
    assert needed
    assert all(needed[key] >= worked_out[key] - Fraction(1, 1000) for key in needed)


def test_what_goes_into_something_made_for_the_dish_has_no_lines_of_its_own(covered):
    assert {row["derivation"] is None for row in covered if row["for"]} == {True}
    assert {row["derivation"] is None for row in covered if not row["for"]} == {False}


def test_RQ1_trimming_is_on_the_line_as_the_sheet_has_it(covered):
    """Swede for 7 of a recipe for 8: 7 / 8 x 400 g / 0.85 = 411.765 g, by hand from the sheet."""
    (line,) = [
        row
        for row in sheet("ingredients")
        if (row["recipe"], row["ingredient"]) == ("Mince and potatoes", "Swede")
    ]
    assert (line["amount"], line["trimming_yield"]) == ("400 g", "0.85")
    (row,) = [
        row
        for row in covered
        if (row["service"], row["item"], row["dish"])
        == ("2027-03-15/lunch/staff", "Swede", "Mince and potatoes")
    ]
    assert row["derivation"] == {
        "portions": "7",
        "yields": "8",
        "lines": [
            {
                "amount": {"value": "400", "unit": "g"},
                "trimming_yield": "17/20",
                "scales": True,
            }
        ],
        "whole": False,
    }
    assert row["need"] == {"value": "411.765", "unit": "g"}
