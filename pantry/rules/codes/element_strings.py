"""GS1 element strings: one text cut into Application Identifiers and their data."""

import re
from dataclasses import dataclass
from datetime import date

from pantry.handbook.application_identifiers import (
    ApplicationIdentifier,
    application_identifiers,
)
from pantry.refusals import Refusal, UnreadableInput, declare
from pantry.rules.codes.scan import Element
from pantry.rules.codes.values import SCAN_AGAIN, check_value

NOT_A_CODE = declare("not_a_code", "A scanned text is no code that this program knows.")
EMPTY_CODE = declare("empty_code", "A code announces GS1 data and carries none.")
UNKNOWN_AI = declare(
    "unknown_ai", "Warning: part of a code stands under an Application Identifier nobody knows."
)
LOT_MAY_HIDE_A_DATE = declare(
    "lot_may_hide_a_date",
    "Warning: a separator may be missing, so that the lot read may end in a date.",
)
VALUE_MAY_HIDE_A_DATE = declare(
    "value_may_hide_a_date",
    "Warning: a separator may be missing, so that a serial number or price may end in a date.",
)

SEPARATOR = "\x1d"
"""How a scanner sends FNC1: the character GS."""

DATED = frozenset({"11", "13", "15", "16", "17", "7003", "7006", "7007", "8008"})
"""The identifiers of food dates."""

PREDEFINED_LENGTHS = {
    "00": 20,
    **dict.fromkeys(("01", "02", "03", "41"), 16),
    "04": 18,
    "20": 4,
    **{str(beginning): 8 for beginning in range(11, 20)},
    **{str(beginning): 10 for beginning in range(31, 37)},
}
"""Characters with the identifier, by its first two digits, for what is not yet assigned.

Source: GS1 General Specifications, figure 7.8.4-2.
"""

BRACKETED = re.compile(r"\(([0-9]{2,4})\)((?:\\\(|[^(])+)")


def not_a_code(value: str, what: str = "") -> UnreadableInput:
    """The refusal of a text that is no code, said of the text itself or of `what`."""
    return UnreadableInput(
        NOT_A_CODE, f"{what or value} is no code that can be read.", SCAN_AGAIN, value=value
    )


@dataclass(frozen=True, slots=True)
class Reading:
    """Elements in order, what nobody could read, and the warnings that go with it."""

    elements: tuple[Element, ...]
    unread: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


def read_element_strings(text: str, today: date) -> Reading:
    """Cut a scanned text, separators as GS, and check every element.

    A separator after data of fixed length, a doubled one and one at the end are tolerated (GS1
    General Specifications, section 7.8.6).

    Raises:
        UnreadableInput: `empty_code`, `not_a_code`, and all that `check_value` refuses.
    """
    if not text.strip(SEPARATOR):
        raise UnreadableInput(
            EMPTY_CODE, "The code announces GS1 data and carries none.", SCAN_AGAIN
        )
    elements, unread = _cut(text, today)
    return _reading(text, elements, unread, _lost_separators(elements, today))


def read_bracketed(text: str, today: date) -> Reading:
    r"""Read `(01)09521234543213(10)LOT42A`, as it is printed below a barcode.

    Blanks around data are dropped; a bracket inside data is written `\(`.

    Raises:
        UnreadableInput: as `read_element_strings`.
    """
    pairs = [(ai, value.replace("\\(", "(").strip()) for ai, value in BRACKETED.findall(text)]
    if BRACKETED.sub("", text).strip():
        raise not_a_code(text)
    known = application_identifiers()
    for ai, value in pairs:
        if ai in known:
            check_value(known[ai], value, today)
    elements = tuple(Element(ai, value) for ai, value in pairs if ai in known)
    unread = tuple(f"({ai}){value}" for ai, value in pairs if ai not in known)
    return _reading(text, elements, unread, ())


def known_identifier(text: str) -> ApplicationIdentifier | None:
    """The identifier that a text begins with; None where nobody knows it."""
    known = application_identifiers()
    return next((known[text[:size]] for size in (2, 3, 4) if text[:size] in known), None)


def _reading(
    text: str, elements: tuple[Element, ...], unread: tuple[str, ...], warnings: tuple[str, ...]
) -> Reading:
    if not elements:
        raise not_a_code(text)
    return Reading(elements, unread, ((UNKNOWN_AI,) if unread else ()) + warnings)


def _cut(text: str, today: date) -> tuple[tuple[Element, ...], tuple[str, ...]]:
    elements, unread = [], []
    rest = text
    while rest := rest.lstrip(SEPARATOR):
        identifier = known_identifier(rest)
        if identifier is None:
            piece = rest[: _unknown_length(rest)]
            unread.append(piece)
        else:
            piece = rest[: _length(identifier, rest)]
            value = piece[len(identifier.ai) :]
            check_value(identifier, value, today)
            elements.append(Element(identifier.ai, value))
        rest = rest[len(piece) :]
    return tuple(elements), tuple(unread)


def _length(identifier: ApplicationIdentifier, rest: str) -> int:
    if identifier.fixed_length is None:
        return len(rest.partition(SEPARATOR)[0])
    return len(identifier.ai) + identifier.fixed_length


def _unknown_length(rest: str) -> int:
    if re.match("[0-9]{2}", rest) is None:
        raise not_a_code(rest, f"The rest {rest}")
    upto_separator = len(rest.partition(SEPARATOR)[0])
    return min(upto_separator, PREDEFINED_LENGTHS.get(rest[:2], upto_separator))


def _lost_separators(elements: tuple[Element, ...], today: date) -> tuple[str, ...]:
    known = application_identifiers()
    present = {one.ai for one in elements}
    return tuple(
        LOT_MAY_HIDE_A_DATE if one.ai == "10" else VALUE_MAY_HIDE_A_DATE
        for one in elements
        if known[one.ai].fixed_length is None and _hides_a_date(one, present, today)
    )


def _hides_a_date(element: Element, present: set[str], today: date) -> bool:
    """Whether the data could end earlier and go on in elements, with a date not given otherwise."""
    return any(
        tail.ai in DATED and tail.ai not in present
        for at in range(1, len(element.value) - 7)
        for tail in _elements_after(element, at, today)
    )


def _elements_after(element: Element, at: int, today: date) -> tuple[Element, ...]:
    try:
        check_value(application_identifiers()[element.ai], element.value[:at], today)
        elements, unread = _cut(element.value[at:], today)
    except Refusal:
        # the question is only whether it could be elements; what it is instead stays as it is
        return ()
    return () if unread else elements
