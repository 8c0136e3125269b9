"""GS1 Digital Link: a web address that carries Application Identifiers. It is never fetched.

Source: GS1 Digital Link Standard: URI Syntax, and the GS1 Barcode Syntax Engine, which agrees with
it. Any domain and any stem may stand in front; the rightmost key counts.
"""

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise
from urllib.parse import unquote

from pantry.handbook.application_identifiers import application_identifiers
from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.element_strings import Reading
from pantry.rules.codes.scan import Element
from pantry.rules.codes.values import check_value

LINK_UNREADABLE = declare(
    "link_unreadable", "A web address in a code is not written as web addresses are."
)
LINK_WITHOUT_PRODUCT = declare(
    "link_without_product", "A code carries a web address that names no product."
)
LINK_OUT_OF_ORDER = declare(
    "link_out_of_order", "A web address in a code gives variant, lot and serial out of order."
)
LINK_VALUE_EMPTY = declare(
    "link_value_empty", "A web address in a code names an Application Identifier without data."
)
LINK_IDENTIFIER_UNKNOWN = declare(
    "link_identifier_unknown",
    "A web address in a code asks for an Application Identifier nobody knows.",
)
LINK_IDENTIFIER_MISPLACED = declare(
    "link_identifier_misplaced",
    "A web address in a code has an Application Identifier twice or in the wrong part.",
)

BY_HAND = "Enter what is printed on the pack by hand."

LINK = re.compile("https?://", re.IGNORECASE)
"""How a text begins that is taken for a web address."""

ADDRESS = re.compile(
    r"(?:https|HTTPS|http|HTTP)://[A-Za-z0-9.:\-\[\]]+"
    r"(/[A-Za-z0-9\-._~:/\[\]@!$&'()*+,;=%]*)"
    r"(?:\?([A-Za-z0-9\-._~:/?\[\]@!$&'()*+,;=%]*))?"
    r"(?:#[A-Za-z0-9\-._~:/?#\[\]@!$&'()*+,;=%]*)?"
)
"""Scheme in one case, domain, path, query, fragment."""


def read_link(text: str, today: date) -> Reading:
    """The elements of a GS1 Digital Link: key, qualifiers, attributes.

    A `+` in the path is a plus, in the query a blank. A GTIN in the path has its 14 digits.

    Raises:
        UnreadableInput: `link_unreadable`, `link_without_product`, `link_value_empty`,
            `link_out_of_order`, `link_identifier_unknown`, `link_identifier_misplaced`, and all
            that `check_value` refuses.
    """
    found = ADDRESS.fullmatch(text)
    if found is None:
        raise _refused(LINK_UNREADABLE, f"{text} is not written as a web address is.", text)
    path = _path_elements(found[1], text)
    query = _query_elements(found[2] or "")
    _check_order([one.ai for one in path])
    _check_places([one.ai for one in path], [one.ai for one in query])
    for one in path + query:
        _check(one, today)
    return Reading(tuple(path + query))


def _path_elements(path: str, text: str) -> list[Element]:
    """Pairs from the right, as far as the first key met; what stands before it is a stem."""
    known = application_identifiers()
    segments = path.split("/")[1:]
    elements: list[Element] = []
    for at in range(len(segments) - 2, -1, -2):
        if segments[at] not in known:
            break
        elements.insert(0, Element(segments[at], unquote(segments[at + 1])))
        if known[segments[at]].qualifiers is not None:
            return elements
    raise _refused(LINK_WITHOUT_PRODUCT, f"The address {text} names no product.", text)


def _query_elements(query: str) -> list[Element]:
    pairs = (part.partition("=") for part in query.split("&"))
    return [_attribute(key, value) for key, equals, value in pairs if equals and _is_number(key)]


def _is_number(key: str) -> bool:
    return re.fullmatch("[0-9]+", key) is not None


def _attribute(ai: str, value: str) -> Element:
    if ai not in application_identifiers():
        raise _refused(LINK_IDENTIFIER_UNKNOWN, f"Nobody knows the identifier {ai}.", ai)
    text = unquote(value.replace("+", " "))
    # here, unlike in the path, the standard lets a GTIN of 8, 12 or 13 digits stand
    shortened = ai == "01" and len(text) in (8, 12, 13)
    return Element(ai, text.zfill(14) if shortened else text)


def _check(element: Element, today: date) -> None:
    if not element.value:
        raise _refused(
            LINK_VALUE_EMPTY, f"The address names ({element.ai}) without data.", element.ai
        )
    check_value(application_identifiers()[element.ai], element.value, today)


def _check_order(path: Sequence[str]) -> None:
    sequences = application_identifiers()[path[0]].qualifiers or ()
    if len(path) > 1 and not any(_follows(path[1:], sequence) for sequence in sequences):
        written = ", ".join(path[1:])
        raise _refused(
            LINK_OUT_OF_ORDER, f"After ({path[0]}) cannot stand {written} in that order.", written
        )


def _follows(path: Sequence[str], sequence: Sequence[str]) -> bool:
    places = [sequence.index(ai) for ai in path if ai in sequence]
    return len(places) == len(path) and all(one < other for one, other in pairwise(places))


def _check_places(path: Sequence[str], query: Sequence[str]) -> None:
    known = application_identifiers()
    sequences = known[path[0]].qualifiers or ()
    for at, ai in enumerate(query):
        repeated = ai in path or ai in query[:at]
        belongs_in_path = any({*path[1:], ai} <= set(sequence) for sequence in sequences)
        if repeated or belongs_in_path or not known[ai].attribute:
            raise _refused(
                LINK_IDENTIFIER_MISPLACED, f"({ai}) cannot stand in the query of this address.", ai
            )


def _refused(code: str, problem: str, value: str) -> UnreadableInput:
    return UnreadableInput(code, problem, BY_HAND, value=value)
