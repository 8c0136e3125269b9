"""The one way in: a scanned text becomes a `Scan`, or is refused."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from pantry.rules.codes.digital_link import LINK, read_link
from pantry.rules.codes.element_strings import (
    SEPARATOR,
    Reading,
    not_a_code,
    read_bracketed,
    read_element_strings,
)
from pantry.rules.codes.house_link import label_in_link
from pantry.rules.codes.meaning import with_meaning
from pantry.rules.codes.product_numbers import PLAIN, RETAIL, retail_number, with_product_number
from pantry.rules.codes.scan import Scan
from pantry.rules.codes.store_numbers import StoreNumber

ELEMENT_STRINGS = frozenset({"]C1", "]e0", "]d2", "]Q3", "]J1"})
"""GS1-128, DataBar, DataMatrix, QR, DotCode (GS1 General Specifications, figure 5.1.2-2)."""

SYMBOLOGY = re.compile(r"\][A-Za-z][0-9A-Za-z]")
"""A symbology identifier (ISO/IEC 15424)."""

WRITTEN_SEPARATOR = "<GS>"
"""How a person types the separator; data that really hold these four characters cannot be typed."""

LONGEST_CODE = 7089
"""Digits in the largest QR Code, the most that any code holds (ISO/IEC 18004, from memory)."""

BEGINS_WITH_KEY = re.compile("(?:01|02)[0-9]{14}|00[0-9]{18}")
"""A text without identifier or separator that is nevertheless taken for element strings."""

HOUSE_LABEL = re.compile("[0-9]{4,7}|(?=.*[A-Z-])[A-Z0-9-]{4,20}")
"""What the house prints on its own labels."""


def read_code(text: str, today: date, *, store_numbers: Sequence[StoreNumber] = ()) -> Scan:
    """What a scanned text says.

    Args:
        text: as the scanner sent it, with or without symbology identifier; the separator as the
            character GS or written `<GS>`.
        today: the house's civil date, which decides centuries.
        store_numbers: the layouts of weighed goods in the shops the house uses.

    Raises:
        UnreadableInput: `not_a_code`, `empty_code`, and all that the readers of numbers, element
            strings and links refuse.
    """
    if len(text) > LONGEST_CODE:
        raise not_a_code(text[:LONGEST_CODE], f"A text of {len(text)} characters")
    # not str.strip(), which would take the separator away too
    cleaned = text.replace(WRITTEN_SEPARATOR, SEPARATOR).strip(" \t\r\n")
    found = SYMBOLOGY.match(cleaned)
    symbology = found[0] if found else None
    data = cleaned[found.end() :] if found else cleaned
    scan = Scan(symbology=symbology)
    if symbology in RETAIL:
        return with_product_number(scan, retail_number(symbology, data), store_numbers)
    if symbology not in ELEMENT_STRINGS and PLAIN.fullmatch(data):
        return with_product_number(scan, data, store_numbers)
    if symbology not in ELEMENT_STRINGS and HOUSE_LABEL.fullmatch(data) and not _has_key(data):
        return replace(scan, label=data)
    if (linked := label_in_link(data)) is not None:
        return replace(scan, label=linked)
    reading = _reading(data, today, announced=symbology in ELEMENT_STRINGS)
    return with_meaning(scan, reading, today, store_numbers)


def _has_key(data: str) -> bool:
    return BEGINS_WITH_KEY.match(data) is not None


def _reading(data: str, today: date, *, announced: bool) -> Reading:
    if data.startswith("("):
        return read_bracketed(data, today)
    if announced or data.startswith(SEPARATOR):
        return read_element_strings(data, today)
    if LINK.match(data):
        return read_link(data, today)
    if _has_key(data):
        reading = read_element_strings(data, today)
        if not reading.unread:
            return reading
    raise not_a_code(data, "" if data else "Nothing")
