"""The check digit of numbered labels against python-stdnum, which has Damm's algorithm of its own.

Source: H. M. Damm, Total anti-symmetrische Quasigruppen (dissertation, Marburg 2004); its worked
example, 572 with the check digit 4, as python-stdnum documents it.
"""

from itertools import pairwise

import pytest
from stdnum import damm

from pantry.refusals import UnreadableInput
from pantry.rules.label_numbers import FIRST, as_printed, number_in, numbered

NUMBERS = [FIRST, 1002, 4827, 9999, 10_000, 123_456, 999_999_999]


def test_the_worked_example_of_the_algorithm():
    assert damm.calc_check_digit("572") == "4"


@pytest.mark.parametrize("number", NUMBERS)
def test_a_number_is_written_with_the_check_digit_that_another_library_computes(number):
    assert numbered(number) == f"{number}-{damm.calc_check_digit(str(number))}"
    assert number_in(numbered(number)) == number


@pytest.mark.parametrize("number", NUMBERS)
def test_one_misread_figure_and_two_neighbours_swapped_are_always_noticed(number):
    figures = numbered(number).replace("-", "")
    wrong = {
        figures[:at] + other + figures[at + 1 :]
        for at in range(len(figures))
        for other in "0123456789"
    }
    for at, (one, two) in enumerate(pairwise(figures)):
        wrong.add(figures[:at] + two + one + figures[at + 2 :])
    for misread in wrong - {figures}:
        with pytest.raises(UnreadableInput) as refused:
            number_in(f"{misread[:-1]}-{misread[-1]}")
        assert refused.value.code == "label_misread"
        assert as_printed(misread) is None


def test_a_label_may_be_typed_without_its_hyphen():
    assert as_printed(f" {numbered(1001).replace('-', '')} ") == numbered(1001)


@pytest.mark.parametrize("text", ["", "KQ7PM", "B-0004", "100-1", "Milk of Monday", "1001"])
def test_what_is_no_numbered_label_has_no_number(text):
    assert number_in(text) is None
