"""MS2: numbers are read by our own grammar, fractions exactly, marks by the house's locale."""

from fractions import Fraction

import pytest

from pantry.refusals import UnreadableInput
from pantry.rules.numbers import leading_number, read_numeral, tokens_of


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12", "12"),
        ("1/2", "1/2"),
        ("½", "1/2"),
        ("1⁄2", "1/2"),
        ("1 1/2", "3/2"),
        ("1 ½", "3/2"),
        ("1½", "3/2"),
        ("1-1/2", "3/2"),
        ("1 and 1/2", "3/2"),
        ("1 & 1/2", "3/2"),
        ("2 ⅔", "8/3"),
        ("⅞", "7/8"),
        ("⅓", "1/3"),
        ("3/2", "3/2"),
        (".5", "1/2"),
        ("0.1", "1/10"),
        ("a", "1"),
        ("an", "1"),
        ("two", "2"),
        ("Twelve", "12"),
        ("half", "1/2"),
        ("half a", "1/2"),
        ("a half", "1/2"),
        ("a quarter", "1/4"),
        ("three quarters", "3/4"),
        ("two thirds", "2/3"),
        ("one and a half", "3/2"),
        ("2 and a half", "5/2"),
        ("dozen", "12"),
        ("a dozen", "12"),
        ("2 dozen", "24"),
        ("half a dozen", "6"),
        ("1 1/2 doz.", "18"),
        ("a brace", "2"),
        ("a pair", "2"),
    ],
)
def test_MS2_numbers_are_read_exactly(text: str, number: str) -> None:
    read, rest = leading_number(tokens_of(text))
    assert read == Fraction(number)
    assert list(rest) == []


@pytest.mark.parametrize("text", ["1/0", "1 3/2", "nan", "inf", "infinity", "½½", "e", "", "/2"])
def test_MS2_what_is_no_number_is_refused(text: str) -> None:
    try:
        _, rest = leading_number(tokens_of(text))
    except UnreadableInput as refused:
        assert refused.code == "number_unreadable"  # noqa: PT017 - the other branch asserts too
    else:
        assert rest


def test_MS2_a_mixed_number_that_lost_its_space_is_refused() -> None:
    # what a spreadsheet's or PDF's text makes of 1½ when it is spelled out (NFKC: "11⁄2")
    for text in ("11/2", "11⁄2", "21/4"):
        with pytest.raises(UnreadableInput) as refused:
            leading_number(tokens_of(text))
        assert refused.value.code == "number_ambiguous"


@pytest.mark.parametrize("mark", [".", ",", None])
@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("1500", "1500"),
        ("1,5", "1.5"),
        ("1.5", "1.5"),
        ("1.25", "1.25"),
        ("1,2505", "1.2505"),
        ("0,500", "0.5"),
        ("0.125", "0.125"),
        ("1234,567", "1234.567"),
        ("1,500.25", "1500.25"),
        ("1.500,25", "1500.25"),
        ("1,500,000", "1500000"),
        ("1.500.000", "1500000"),
        ("1'500", "1500"),
        ("1’500.5", "1500.5"),
        ("1\u202f500", "1500"),
        ("1\u2009500,5", "1500.5"),
    ],
)
def test_MS2_a_mark_that_can_only_be_one_thing_is_read_the_same_in_every_house(
    text: str, number: str, mark: str | None
) -> None:
    assert read_numeral(text, mark) == Fraction(number)


@pytest.mark.parametrize("text", ["1,500", "12,345", "999,000"])
def test_MS2_one_mark_before_three_figures_follows_the_house(text: str) -> None:
    whole = Fraction(text.replace(",", ""))
    assert read_numeral(text, ".") == whole
    assert read_numeral(text, ",") == whole / 1000
    assert read_numeral(text.replace(",", "."), ".") == whole / 1000
    assert read_numeral(text.replace(",", "."), ",") == whole


@pytest.mark.parametrize("text", ["1,500", "1.500", "12.345"])
def test_MS2_without_a_locale_what_can_be_two_numbers_is_refused(text: str) -> None:
    with pytest.raises(UnreadableInput) as refused:
        read_numeral(text)
    assert refused.value.code == "number_ambiguous"
    # both readings that the refusal offers are read without a locale
    assert read_numeral(text.replace(",", "").replace(".", "")) == 1000 * read_numeral(text + "0")


@pytest.mark.parametrize(
    "text",
    [
        "1,50,000",
        "1.500.00",
        "1,,5",
        "1.",
        "1.5.5",
        "1,500,25",
        "",
        "x",
        "1 500",
        "٣",
        "1_0",
        "9" * 5000,
    ],
)
def test_MS2_marks_in_no_known_order_are_refused(text: str) -> None:
    with pytest.raises(UnreadableInput) as refused:
        read_numeral(text, ".")
    assert refused.value.code == "number_unreadable"
