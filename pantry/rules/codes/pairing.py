"""Which Application Identifiers go together on one pack.

Source: GS1 Barcode Syntax Dictionary, attributes `ex` and `req`. What contradicts itself inside one
code is refused. What only lacks a companion is a warning, because the dictionary judges companions
over all codes on the pack, and a lot is often printed in a barcode of its own. One exception: a
product inside a logistic unit (AI 02) without its count (AI 37) says nothing that can be received.
"""

from collections.abc import Sequence

from pantry.handbook.application_identifiers import application_identifiers
from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.scan import Element
from pantry.rules.codes.values import SCAN_AGAIN

IDENTIFIERS_CONTRADICT = declare(
    "identifiers_contradict", "A code carries two Application Identifiers that exclude each other."
)
IDENTIFIER_REPEATED = declare(
    "identifier_repeated", "A code gives one Application Identifier twice, with different data."
)
CONTENT_WITHOUT_COUNT = declare(
    "content_without_count", "A code names the product inside a unit, but not how many there are."
)
COMPANION_MISSING = declare(
    "companion_missing",
    "Warning: part of a code belongs with another that is not in it; look for a second code.",
)
MEASURE_MISSING = declare(
    "measure_missing",
    "Warning: the number is of goods sold by measure, and the code gives no measure.",
)

CONTENT, COUNT = "02", "37"
MEASURES = ("30", "31", "32", "35", "36")
"""Beginnings of the identifiers of a count or a net measure."""


def refuse_contradictions(elements: Sequence[Element]) -> None:
    """Refuse elements that cannot be on one pack.

    Raises:
        UnreadableInput: `identifier_repeated`, `identifiers_contradict`, `content_without_count`.
    """
    for index, one in enumerate(elements):
        for other in elements[index + 1 :]:
            _refuse_pair(one, other)
    present = {one.ai for one in elements}
    if CONTENT in present and COUNT not in present:
        raise UnreadableInput(
            CONTENT_WITHOUT_COUNT,
            "The code names the product inside (02), but not how many there are (37).",
            "Count them and enter the count by hand.",
        )


def pairing_warnings(elements: Sequence[Element]) -> tuple[str, ...]:
    """`companion_missing` and `measure_missing`, where they hold.

    A GTIN with indicator 9 is of goods sold by measure (GS1 General Specifications, section 2.1).
    """
    present = {one.ai for one in elements}
    lonely = any(not _has_companions(one.ai, present) for one in elements)
    by_measure = any(one.ai == "01" and one.value[0] == "9" for one in elements)
    measured = any(ai.startswith(MEASURES) for ai in present)
    return ((COMPANION_MISSING,) if lonely else ()) + (
        (MEASURE_MISSING,) if by_measure and not measured else ()
    )


def _refuse_pair(one: Element, other: Element) -> None:
    known = application_identifiers()
    if one.ai == other.ai:
        if one.value != other.value:
            raise UnreadableInput(
                IDENTIFIER_REPEATED,
                f"The code gives ({one.ai}) twice: {one.value} and {other.value}.",
                SCAN_AGAIN,
                value=other.value,
            )
    elif one.ai.startswith(known[other.ai].never) or other.ai.startswith(known[one.ai].never):
        raise UnreadableInput(
            IDENTIFIERS_CONTRADICT,
            f"({one.ai}) and ({other.ai}) cannot stand on one pack.",
            SCAN_AGAIN,
            value=f"({one.ai})({other.ai})",
        )


def _has_companions(ai: str, present: set[str]) -> bool:
    groups = application_identifiers()[ai].needs
    return not groups or any(
        all(any(other.startswith(one) for other in present) for one in group) for group in groups
    )
