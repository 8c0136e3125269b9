"""Numbers that shops and countries make for themselves, and that are no global product numbers.

GTIN-13 that begin with 02 or 20 to 29 carry a weight, a price or a count, in a layout that each
country, often each shop, fixes for itself (GS1 General Specifications, figure 2.1.14.2-2). A house
writes down the layouts that its own shops use; none is assumed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from biip.checksums import gs1_price_weight_check_digit

from pantry.handbook.currencies import CURRENCIES
from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.price import decimal_text, price_of
from pantry.rules.codes.scan import Measure, Scan, StoreItem
from pantry.rules.codes.values import SCAN_AGAIN

STORE_NUMBER_FAULTY = declare(
    "store_number_faulty", "The layout written down for a shop's own numbers cannot be right."
)
WRONG_VERIFIER = declare(
    "wrong_verifier", "The verifier digit of a shop's price or weight does not agree with it."
)
STORE_NUMBER_NOT_GLOBAL = declare(
    "store_number_not_global",
    "Warning: the number is a shop's or a country's own and names another product elsewhere.",
)

BEGINNINGS = ("02", "2")
"""How the 13 digits of a number of restricted circulation with a measure begin."""

DATA_DIGITS = 12
"""A GTIN-13 without its check digit."""


class StoreValue(StrEnum):
    """What the digits after the item say."""

    WEIGHT = "weight"
    PRICE = "price"
    COUNT = "count"


class Verifier(StrEnum):
    """The digit between item and value: none, one that must agree with it, one that is skipped."""

    NONE = "none"
    CHECKED = "checked"
    SKIPPED = "skipped"


@dataclass(frozen=True, slots=True)
class StoreNumber:
    """One layout of 13 digits: prefix, item, perhaps a verifier digit, value, check digit.

    Attributes:
        prefix: the digits it begins with, `02` or `20` to `29` and perhaps more.
        item_digits: how many digits name the item in that shop.
        value_digits: how many digits say the weight, price or count.
        kind: what the value says.
        decimals: how many of its digits are decimals.
        verifier: the digit between item and value; checked only for four or five value digits (GS1
            General Specifications, section 7.9.2 to 7.9.4).
        unit: of a weight: kg or lb.
        currency: of a price, ISO 4217 letters; None where the house has not said.

    Raises:
        UnreadableInput: `store_number_faulty`.
    """

    prefix: str
    item_digits: int
    value_digits: int
    kind: StoreValue
    decimals: int = 0
    verifier: Verifier = Verifier.NONE
    unit: str = "kg"
    currency: str | None = None

    def __post_init__(self) -> None:
        """Refuse what cannot be a layout of 13 digits."""
        if fault := _fault(self):
            raise UnreadableInput(
                STORE_NUMBER_FAULTY,
                f"The layout of shop numbers that begin with {self.prefix} cannot be: {fault}.",
                "Compare it with a label of that shop and correct it.",
                value=self.prefix,
            )


def is_store_number(gtin: str) -> bool:
    """Whether 14 digits are a number of restricted circulation that changes with the measure."""
    return gtin[0] == "0" and gtin[1:].startswith(BEGINNINGS)


def with_store_number(scan: Scan, gtin: str, layouts: Sequence[StoreNumber]) -> Scan:
    """The scan with what a shop's number says by the longest prefix that fits it, and a warning.

    Raises:
        UnreadableInput: `wrong_verifier`.
    """
    number = gtin[1:]
    scan = scan.warned(STORE_NUMBER_NOT_GLOBAL)
    fitting = [layout for layout in layouts if number.startswith(layout.prefix)]
    if not fitting:
        return replace(scan, store_number=StoreItem(number, None))
    layout = max(fitting, key=lambda one: len(one.prefix))
    item_end = len(layout.prefix) + layout.item_digits
    value = number[DATA_DIGITS - layout.value_digits : DATA_DIGITS]
    _check_verifier(layout, number[item_end], value)
    scan = replace(scan, store_number=StoreItem(number, number[len(layout.prefix) : item_end]))
    return _with_value(scan, layout, value)


def _with_value(scan: Scan, layout: StoreNumber, value: str) -> Scan:
    match layout.kind:
        case StoreValue.WEIGHT:
            return replace(
                scan, quantity=Measure(decimal_text(value, layout.decimals), layout.unit)
            )
        case StoreValue.PRICE:
            currency = CURRENCIES[layout.currency] if layout.currency else None
            return replace(scan, price=price_of(value, layout.decimals, currency))
        case StoreValue.COUNT:
            return replace(scan, count=int(value))


def _check_verifier(layout: StoreNumber, digit: str, value: str) -> None:
    if layout.verifier is not Verifier.CHECKED:
        return
    if gs1_price_weight_check_digit(value) != int(digit):
        raise UnreadableInput(
            WRONG_VERIFIER,
            f"The verifier digit {digit} does not agree with the {layout.kind} {value}.",
            SCAN_AGAIN,
            value=value,
        )


def _fault(layout: StoreNumber) -> str | None:
    between = 0 if layout.verifier is Verifier.NONE else 1
    digits = len(layout.prefix) + layout.item_digits + between + layout.value_digits
    faults = {
        "it must begin with 02 or 20 to 29": not _is_beginning(layout.prefix),
        "item and value need a digit each at least": min(layout.item_digits, layout.value_digits)
        < 1,
        f"its parts must be 12 digits, not {digits}": digits != DATA_DIGITS,
        "a verifier can be checked for four or five digits only": layout.verifier
        is Verifier.CHECKED
        and layout.value_digits not in (4, 5),
        "its decimals must be among its value digits": not 0
        <= layout.decimals
        <= layout.value_digits,
        "a count cannot have decimals": layout.kind is StoreValue.COUNT and layout.decimals != 0,
        "a weight must be in kg or lb": layout.unit not in ("kg", "lb"),
        "its currency must stand in ISO 4217": layout.currency is not None
        and layout.currency not in CURRENCIES,
    }
    return next((fault for fault, holds in faults.items() if holds), None)


def _is_beginning(prefix: str) -> bool:
    digits = prefix.isascii() and prefix.isdecimal()
    return digits and len(prefix) > 1 and prefix.startswith(BEGINNINGS)
