"""Money as people write it, in whole minor units of the house's currency (ISO 4217)."""

import re

from pantry.handbook.currencies import CURRENCIES, Currency
from pantry.refusals import UnreadableInput, declare
from pantry.rules.numbers import read_numeral

CURRENCY_UNKNOWN = declare("currency_unknown", "The currency is not in ISO 4217.")
MONEY_UNREADABLE = declare("money_unreadable", "The sum of money cannot be read.")
MONEY_NEGATIVE = declare("money_negative", "The sum of money is below nothing.")
MONEY_TOO_LARGE = declare("money_too_large", "The sum of money is more than a house pays.")
MONEY_TOO_PRECISE = declare("money_too_precise", "The currency has no coin that small.")
MONEY_OF_ANOTHER_CURRENCY = declare(
    "money_of_another_currency", "The sum names another currency than the house's."
)

MOST_MINOR_UNITS = 10**12
"""The largest sum of money."""

_MONEY = re.compile(
    r"(?P<minus>[-−–])? ?(?P<before>[A-Za-z]{3}|[£€$¥])? ?(?P<after_sign>[-−–])?"
    r"(?P<figures>[0-9][0-9.,'’\u2009\u202f]{0,30}|\.[0-9]{1,30})"
    r" ?(?P<after>[A-Za-z]{3}|[£€$¥])?"
)
_SIGNS = {
    "£": frozenset(["GBP", "FKP", "GIP", "SHP"]),
    "€": frozenset(["EUR"]),
    "¥": frozenset(["JPY", "CNY"]),
    "$": frozenset(["USD", "AUD", "CAD", "HKD", "MXN", "NZD", "SGD", "TWD", "XCD"]),
}


def read_money(text: str, currency: str, *, decimal_mark: str | None = None) -> int:
    """A sum of money in minor units: `4.50` of GBP is 450, `450` of JPY is 450.

    A sign or code may stand before or after it (`£4.50`, `4.50 GBP`), and must be the currency's.

    Args:
        text: what was written.
        currency: three letters of ISO 4217.
        decimal_mark: the house's, `.` or `,`; None: what only it could decide is refused.

    Raises:
        UnreadableInput: `currency_unknown`, `money_unreadable`, `money_negative`,
            `money_too_large`, `money_too_precise`, `money_of_another_currency`,
            `number_unreadable`, `number_ambiguous`.
    """
    money = CURRENCIES.get(currency)
    if money is None:
        raise _refused(CURRENCY_UNKNOWN, f"{currency!r} is no currency of ISO 4217.", currency)
    match = _MONEY.fullmatch(" ".join(text.split()))
    if match is None:
        raise _refused(MONEY_UNREADABLE, f"{text!r} is no sum of money.", text)
    for named in (match["before"], match["after"]):
        if named and currency not in _SIGNS.get(named, {named.upper()}):
            problem = f"{text!r} is not in {currency}, the currency of the house."
            raise _refused(MONEY_OF_ANOTHER_CURRENCY, problem, text)
    if match["minus"] or match["after_sign"]:
        raise _refused(MONEY_NEGATIVE, f"{text!r} is below nothing.", text)
    return _minor_units(text, match["figures"], money, decimal_mark)


def _minor_units(text: str, figures: str, money: Currency, decimal_mark: str | None) -> int:
    minor = read_numeral(figures, decimal_mark) * 10**money.decimals
    if minor.denominator != 1:
        problem = f"{text!r} has more than the {money.decimals} decimals of {money.code}."
        raise _refused(MONEY_TOO_PRECISE, problem, text)
    if minor > MOST_MINOR_UNITS:
        raise _refused(MONEY_TOO_LARGE, f"{text!r} is more than a house pays.", text)
    return int(minor)


def _refused(code: str, problem: str, value: str) -> UnreadableInput:
    return UnreadableInput(
        code, problem, "Write figures in the house's currency, such as 4.50.", value=value
    )
