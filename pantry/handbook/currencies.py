"""Currencies: the letters, the number and the decimals of each.

The table beside this module carries its source and licence; the client reads the same file.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from importlib import resources
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency.

    Attributes:
        code: three letters.
        number: three digits, as a barcode writes it.
        decimals: how many digits of the amount the minor unit has.
    """

    code: str
    number: str
    decimals: int


def _by_decimals() -> Mapping[str, str]:
    file = resources.files("pantry.handbook") / "currencies.json"
    table: Mapping[str, str] = json.loads(file.read_text(encoding="utf-8"))["by_decimals"]
    return table


CURRENCIES: Mapping[str, Currency] = MappingProxyType(
    {
        word[:3]: Currency(word[:3], word[3:], int(decimals))
        for decimals, words in _by_decimals().items()
        for word in words.split()
    }
)
"""Every currency by its letters."""

CURRENCY_NUMBERS: Mapping[str, Currency] = MappingProxyType(
    {currency.number: currency for currency in CURRENCIES.values()}
)
"""Every currency by its number."""
