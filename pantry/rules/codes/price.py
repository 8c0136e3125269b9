"""Prices in codes."""

from fractions import Fraction

from pantry.handbook.currencies import Currency
from pantry.rules.codes.scan import Price


def price_of(digits: str, decimals: int, currency: Currency | None) -> Price:
    """The price that digits with implied decimals mean.

    A known currency is brought to its minor unit, rounded half-even once (MS1); without one, the
    digits stay as they are.
    """
    if currency is None:
        return Price(int(digits), None, decimals)
    minor = round(Fraction(int(digits) * 10**currency.decimals, 10**decimals))
    return Price(minor, currency.code, currency.decimals)


def decimal_text(digits: str, decimals: int) -> str:
    """At least as many digits as decimals, as exact text: `001250` with 3 is `1.250`."""
    if decimals == 0:
        return str(int(digits))
    return f"{int(digits[:-decimals] or '0')}.{digits[-decimals:]}"
