"""Money as people write it, in whole minor units; decimals by ISO 4217."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.handbook.currencies import CURRENCIES
from pantry.refusals import UnreadableInput
from pantry.rules.money import read_money


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [
        ("4.50", "GBP", 450),
        ("4,50", "EUR", 450),
        ("4.5", "GBP", 450),
        ("12", "GBP", 1200),
        ("0", "GBP", 0),
        ("£4.50", "GBP", 450),
        ("£ 4.50", "GBP", 450),
        ("4,50 €", "EUR", 450),
        ("GBP 4.50", "GBP", 450),
        ("4.50 gbp", "GBP", 450),
        ("$1,234.50", "USD", 123_450),
        ("1.234,50", "EUR", 123_450),
        ("1'234.50", "CHF", 123_450),
        ("450", "JPY", 450),
        ("¥450", "JPY", 450),
        ("4.00", "JPY", 4),
        ("1.2345", "KWD", None),
        ("1.2340", "KWD", 1234),
        ("0.250", "BHD", 250),
        (".99", "GBP", 99),
    ],
)
def test_MS1_money_is_whole_minor_units(text: str, currency: str, minor: int | None) -> None:
    if minor is None:
        with pytest.raises(UnreadableInput, match="more than the 3 decimals"):
            read_money(text, currency)
    else:
        assert read_money(text, currency) == minor


def test_MS2_one_mark_before_three_figures_follows_the_house() -> None:
    assert read_money("1,500", "GBP", decimal_mark=".") == 150_000
    assert read_money("1.500", "EUR", decimal_mark=",") == 150_000
    with pytest.raises(UnreadableInput) as refused:
        read_money("1,500", "GBP")
    assert refused.value.code == "number_ambiguous"


@pytest.mark.parametrize(
    ("text", "currency", "code"),
    [
        ("1.005", "GBP", "number_ambiguous"),
        ("1.0050", "GBP", "money_too_precise"),
        ("0.005", "GBP", "money_too_precise"),
        ("4.5", "JPY", "money_too_precise"),
        ("-4.50", "GBP", "money_negative"),
        ("£-4.50", "GBP", "money_negative"),
        ("−£4.50", "GBP", "money_negative"),
        ("€4.50", "GBP", "money_of_another_currency"),
        ("4.50 USD", "GBP", "money_of_another_currency"),
        ("10000000000.01", "GBP", "money_too_large"),
        ("", "GBP", "money_unreadable"),
        ("free", "GBP", "money_unreadable"),
        ("nan", "GBP", "money_unreadable"),
        ("4.50 or 5", "GBP", "money_unreadable"),
        ("1/2", "GBP", "money_unreadable"),
        ("4,5,0", "GBP", "number_unreadable"),
        ("9" * 60, "GBP", "money_unreadable"),
        ("4.50", "XYZ", "currency_unknown"),
        ("4.50", "gbp", "currency_unknown"),
    ],
)
def test_MS1_what_is_no_sum_in_the_currency_is_refused(text: str, currency: str, code: str) -> None:
    with pytest.raises(UnreadableInput) as refused:
        read_money(text, currency)
    assert refused.value.code == code


@given(st.sampled_from(sorted(CURRENCIES)), st.integers(0, 10**12), st.sampled_from(".,"))
def test_MS1_any_sum_written_is_read_back_exactly(currency: str, minor: int, mark: str) -> None:
    decimals = CURRENCIES[currency].decimals
    digits = str(minor).rjust(decimals + 1, "0")
    text = f"{digits[:-decimals]}{mark}{digits[-decimals:]}" if decimals else digits
    assert read_money(text, currency, decimal_mark=mark) == minor
