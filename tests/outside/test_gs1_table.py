"""The table of Application Identifiers, against the one inside the library biip 5.2.0.

biip takes its table from gs1.org; ours is the GS1 Barcode Syntax Dictionary.
"""

import re

from biip.gs1_application_identifiers import _GS1_APPLICATION_IDENTIFIERS as BIIP
from biip.gs1_application_identifiers import GS1ApplicationIdentifier

from pantry.handbook.application_identifiers import application_identifiers
from pantry.handbook.currencies import CURRENCIES, CURRENCY_NUMBERS
from pantry.rules.codes.element_strings import PREDEFINED_LENGTHS


def lengths(form):
    """Shortest and longest data of a form such as `N4+N3[+X..16]`; the first part is the AI."""
    shortest = longest = 0
    for part in form.replace("[+", "+[").split("+")[1:]:
        found = re.fullmatch(r"(\[?)(?:-|N1\.\.N|[NXYZ])(\.\.)?([0-9]*)\]?", part)
        longest += int(found[3] or 1)
        if not found[1]:
            shortest += 1 if found[2] else int(found[3])
    return shortest, longest


def our_lengths(identifier):
    shortest = sum(part.shortest for part in identifier.parts if not part.optional)
    return shortest, sum(part.longest for part in identifier.parts)


def test_the_same_identifiers_exist():
    assert set(application_identifiers()) == set(BIIP)


def test_the_same_identifiers_need_a_separator():
    ours = {ai for ai, one in application_identifiers().items() if one.fixed_length is None}
    assert ours == {ai for ai, one in BIIP.items() if one.separator_required}


def test_their_data_have_the_same_lengths():
    differing = {
        ai
        for ai, one in application_identifiers().items()
        if our_lengths(one) != lengths(BIIP[ai].format)
    }
    # gs1.org allows an empty 4th to 15th digit there; the dictionary wants whole countries
    assert differing == {"423", "425"}


def test_what_looks_fixed_but_needs_a_separator():
    # GS1 Barcode Syntax Dictionary: no `*` at these entries
    for ai in ("3950", "422", "7003", "7006", "8005", "8008"):
        assert application_identifiers()[ai].fixed_length is None


def test_predefined_lengths_are_those_of_the_first_two_digits():
    # bwipp, contrib/development/ai_not_needing_fnc1.txt, citing GS1 General Specifications,
    # figure 7.8.4-2
    for ai, one in application_identifiers().items():
        total = None if one.fixed_length is None else len(ai) + one.fixed_length
        assert PREDEFINED_LENGTHS.get(ai[:2]) == total, ai


def test_no_identifier_begins_another():
    for ai in application_identifiers():
        assert GS1ApplicationIdentifier.extract(ai + "0" * 30).ai == ai


def test_currencies_of_iso_4217():
    # ISO 4217, from memory of six codes: number, letters, decimals of the minor unit
    known = {(one.number, one.code, one.decimals) for one in CURRENCIES.values()}
    assert {
        ("978", "EUR", 2),
        ("826", "GBP", 2),
        ("840", "USD", 2),
        ("756", "CHF", 2),
        ("392", "JPY", 0),
        ("414", "KWD", 3),
    } <= known
    assert len(CURRENCY_NUMBERS) == len(CURRENCIES)
