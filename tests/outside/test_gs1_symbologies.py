"""Symbology identifiers, against the vectors of the GS1 syntax engine.

`syntax engine` is github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0: its
function `test_scandata_processScanData` in scandata.c.
"""

from datetime import date

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize("front", ["]Q3", "]d2", "]e0", "]C1"])
def test_gs1_data_behind_its_identifier_is_read(front):
    scan = read_code(front + "011231231231233310ABC123<GS>99TESTING", TODAY)
    assert (scan.symbology, scan.gtin, scan.lot) == (front, "12312312312333", "ABC123")
    assert scan.elements[-1].value == "TESTING"


@pytest.mark.parametrize("front", ["]Q3", "]d2", "]e0", "]C1", "]J1"])
@pytest.mark.parametrize("rest", ["", "<GS>", "<GS><GS>"])
def test_empty_gs1_data_is_refused(front, rest):
    with pytest.raises(Refusal) as refused:
        read_code(front + rest, TODAY)
    assert refused.value.code == "empty_code"


@pytest.mark.parametrize(
    "text",
    [
        *("]E0", "]E012345678901234", "]E01234ABC890123", "]E02112345678901"),
        *("]E4", "]E41234567", "]E4123456789", "]E412ABC678", "]E402345674"),
        *("", "]", "]X", "]XX"),
    ],
)
def test_what_is_short_long_or_no_number_is_refused(text):
    with pytest.raises(Refusal):
        read_code(text, TODAY)


def test_a_retail_barcode_is_a_number_alone():
    assert read_code("]E402345673", TODAY).gtin == "00000002345673"
    assert read_code("]E00416000336108", TODAY).gtin == "00416000336108"


def test_a_scanner_that_sends_a_upc_a_with_12_digits_is_understood():
    # common practice, no source; the syntax engine wants 13 digits behind ]E0
    assert read_code("]E0123456789012", TODAY).gtin == "00123456789012"


def test_itf_14_is_a_number_alone():
    # GS1 General Specifications, figure 5.1.2-2, from memory; the number is computed
    assert read_code("]I110614141000415", TODAY).gtin == "10614141000415"


def test_an_add_on_of_a_periodical_is_dropped():
    # GS1 General Specifications, figure 5.1.2-2, from memory: ]E3 is EAN-13 with 2 or 5 digits more
    assert read_code("]E3629104150021312", TODAY).gtin == "06291041500213"
    assert read_code("]E3629104150021351999", TODAY).gtin == "06291041500213"


@pytest.mark.parametrize("front", ["]d1", "]Q1"])
@pytest.mark.parametrize("scheme", ["https", "HTTPS"])
def test_a_plain_matrix_code_may_carry_a_digital_link(front, scheme):
    scan = read_code(f"{front}{scheme}://example.com/01/12312312312333?99=TEST", TODAY)
    assert (scan.symbology, scan.gtin) == (front, "12312312312333")


@pytest.mark.parametrize("front", ["]d1", "]Q1"])
def test_a_scheme_in_mixed_case_gives_no_elements(front):
    with pytest.raises(Refusal):
        read_code(f"{front}HtTps://example.com/01/12312312312333?99=TEST", TODAY)
