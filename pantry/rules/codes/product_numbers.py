"""Plain product numbers: GTIN-8, 12, 13 and 14, UPC-E, and what is no product for a kitchen."""

import re
from collections.abc import Sequence
from dataclasses import replace

from biip import ParseError
from biip.upc import Upc

from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.scan import Scan
from pantry.rules.codes.store_numbers import (
    STORE_NUMBER_NOT_GLOBAL,
    StoreNumber,
    is_store_number,
    with_store_number,
)
from pantry.rules.codes.values import SCAN_AGAIN, WRONG_CHECK_DIGIT, require_check_digit

WRONG_NUMBER_OF_DIGITS = declare(
    "wrong_number_of_digits", "A retail barcode has not as many digits as its kind must have."
)
NOT_FOOD_NUMBER = declare(
    "not_food_number",
    "Warning: the number is of a book, a newspaper, a coupon, a place or something else not eaten.",
)

RETAIL = {
    "]E0": re.compile("[0-9]{8}|[0-9]{12,13}"),
    "]E3": re.compile("([0-9]{13})(?:[0-9]{2}|[0-9]{5})"),
    "]E4": re.compile("[0-9]{8}"),
    "]I1": re.compile("[0-9]{14}"),
}
"""What each symbology of retail carries: EAN-13, UPC-A or UPC-E; the same with an add-on; EAN-8;
ITF-14 (GS1 General Specifications, figure 5.1.2-2)."""

PLAIN = re.compile("[0-9]{8}|[0-9]{12,14}")
"""What is a product number without any symbology identifier."""

NOT_FOOD = (
    *(str(beginning) for beginning in (977, 978, 979, 980, 981, 982, 983, 984)),
    *("99", "05"),
)
"""How 13 digits begin that are periodicals, books, refunds and coupons (GS1 General Specifications,
section 1.4.5)."""


def retail_number(symbology: str, digits: str) -> str:
    """The GTIN in a barcode of retail; an add-on is dropped, a UPC-E is expanded.

    Raises:
        UnreadableInput: `wrong_number_of_digits`, `wrong_check_digit`.
    """
    found = RETAIL[symbology].fullmatch(digits)
    if found is None:
        raise UnreadableInput(
            WRONG_NUMBER_OF_DIGITS,
            f"{digits} is not what a barcode {symbology} can carry.",
            SCAN_AGAIN,
            value=digits,
        )
    if symbology == "]E0" and len(digits) == 8:
        return _expanded(digits)
    return found[1] if found.re.groups else digits


def with_product_number(scan: Scan, number: str, layouts: Sequence[StoreNumber]) -> Scan:
    """The scan with 8, 12, 13 or 14 digits as its product number, filled to 14 with zeros.

    A number that a company keeps to itself (GTIN-8 that begin with 0 or 2, GTIN-13 with 04) stays,
    with a warning: it is always the same product in that shop. One that carries a measure does not.

    Raises:
        UnreadableInput: `wrong_check_digit`, `wrong_verifier`.
    """
    require_check_digit(number)
    gtin = number.zfill(14)
    if is_store_number(gtin):
        return with_store_number(scan, gtin, layouts)
    return replace(scan, gtin=gtin).warned(*_doubts(gtin))


def _doubts(gtin: str) -> tuple[str, ...]:
    own = gtin.startswith(("004", "0000000", "0000002"))
    return ((STORE_NUMBER_NOT_GLOBAL,) if own else ()) + (
        (NOT_FOOD_NUMBER,) if gtin[1:].startswith(NOT_FOOD) else ()
    )


def _expanded(digits: str) -> str:
    try:
        return Upc.parse(digits).as_upc_a()
    except ParseError as error:
        raise UnreadableInput(
            WRONG_CHECK_DIGIT,
            f"The check digit of the UPC-E {digits} does not agree with its other digits.",
            SCAN_AGAIN,
            value=digits,
        ) from error
