"""The data of one Application Identifier: its shape, its check digit, its dates.

The shapes are those of the GS1 Barcode Syntax Dictionary. Of its checks, those are applied that
tell a misread code or touch food: check digits, dates, times, currencies. Lists of countries,
addresses, people, payments and coupons are not checked: a house keeps none of them.
"""

import re
from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from typing import NoReturn

from biip.checksums import gs1_standard_check_digit

from pantry.handbook.application_identifiers import ApplicationIdentifier
from pantry.handbook.currencies import CURRENCY_NUMBERS
from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.dates import read_date, read_time

WRONG_CHECK_DIGIT = declare(
    "wrong_check_digit", "The check digit of a number does not agree with its other digits."
)
VALUE_DOES_NOT_FIT = declare(
    "value_does_not_fit",
    "The data of an Application Identifier has a wrong length or a character it cannot have.",
)
NO_SUCH_CURRENCY = declare(
    "no_such_currency", "A price in a code names a currency that ISO 4217 does not know."
)

SCAN_AGAIN = "Scan it again; if that fails too, enter what is printed on the pack."

CHARACTERS = {
    "N": "[0-9]",
    "X": r"[!\"%&'()*+,\-./0-9:;<=>?A-Z_a-z]",
    "Y": r"[#\-/0-9A-Z]",
    "Z": r"[\-0-9A-Z_a-z=]",
}
"""Digits, the GS1 sets of 82 and 39, base64url (GS1 General Specifications, section 7.11)."""


def check_digit_holds(number: str) -> bool:
    """Whether the last of at least two ASCII digits is the check digit of those before it.

    Source: GS1 General Specifications, section 7.9.1.
    """
    return gs1_standard_check_digit(number[:-1]) == int(number[-1])


def require_check_digit(number: str) -> None:
    """Refuse a number of ASCII digits whose check digit is wrong.

    Raises:
        UnreadableInput: `wrong_check_digit`.
    """
    if not check_digit_holds(number):
        raise UnreadableInput(
            WRONG_CHECK_DIGIT,
            f"The check digit of {number} does not agree with its other digits.",
            SCAN_AGAIN,
            value=number,
        )


def check_value(identifier: ApplicationIdentifier, value: str, today: date) -> None:
    """Refuse data that this identifier cannot have.

    Raises:
        UnreadableInput: `value_does_not_fit`, `wrong_check_digit`, `no_such_date`,
            `no_such_currency`.
    """
    found = _shape(identifier).fullmatch(value)
    if found is None:
        too_long = len(value) > sum(part.longest for part in identifier.parts)
        hint = "; perhaps the code lacks a separator" if too_long else ""
        _refuse_shape(f"({identifier.ai}) {identifier.title}", value, hint)
    for part, text in zip(identifier.parts, found.groups(), strict=True):
        for name in part.checks:
            if text is not None and name in CHECKS:
                CHECKS[name](text, today)


@cache
def _shape(identifier: ApplicationIdentifier) -> re.Pattern[str]:
    pattern = ""
    for part in reversed(identifier.parts):
        length = f"{{{part.shortest},{part.longest}}}"
        pattern = f"({CHARACTERS[part.characters]}{length}){pattern}"
        pattern = f"(?:{pattern})?" if part.optional else pattern
    return re.compile(pattern)


def _refuse_shape(what: str, value: str, hint: str = "") -> NoReturn:
    raise UnreadableInput(
        VALUE_DOES_NOT_FIT,
        f"{what} cannot be {value}: its length or a character in it is wrong{hint}.",
        SCAN_AGAIN,
        value=value,
    )


def _currency(number: str, _today: date) -> None:
    if number not in CURRENCY_NUMBERS:
        raise UnreadableInput(
            NO_SUCH_CURRENCY, f"There is no currency {number}.", SCAN_AGAIN, value=number
        )


def _only(character: str, what: str) -> Callable[[str, date], None]:
    def check(value: str, _today: date) -> None:
        if value.strip(character):
            _refuse_shape(what, value)

    return check


CHECKS: Mapping[str, Callable[[str, date], object]] = {
    "csum": lambda digits, _today: require_check_digit(digits),
    "yymmd0": lambda digits, today: read_date(digits, today, whole_month=True),
    "yymmdd": read_date,
    "hhmi": lambda digits, _today: read_time(digits),
    "hh": lambda digits, _today: read_time(digits),
    "mi": lambda digits, _today: read_time("00" + digits),
    "ss": lambda digits, _today: read_time("0000" + digits),
    "iso4217": _currency,
    "hyphen": _only("-", "A sign"),
    "zero": _only("0", "A digit kept free"),
}
"""The checks that are applied, by the dictionary's name for them."""
