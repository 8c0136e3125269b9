"""Check digits and product numbers, against published numbers and an independent library.

Each number stands with its source. `syntax engine` is the GS1 Barcode Syntax Engine,
github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0.
"""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum import ean

from pantry.refusals import Refusal
from pantry.rules.codes import read_code
from pantry.rules.codes.values import check_digit_holds

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    "number",
    [
        "6291041500213",  # gs1hk.org, check digit calculator; as GS1 General Specifications, 7.9
        "7300011000017",  # gs1.se, how the check digit is computed
        "9501101531000",  # docstring of biip 5.2.0
        "95012346",  # docstring of biip 5.2.0
        "02345673",  # syntax engine, scandata.c
        "10614141000415",  # computed from the rule: weighted sum 55
        "09521234543213",  # bwipp wiki, GS1 Application Identifier Standard Format
        "376104250021234569",  # from memory of GS1 General Specifications, 7.9; weighted sum 101
        "006141411234567890",  # syntax engine, dl.c
        "95012345678903",  # bwipp wiki, DataBar Expanded
    ],
)
def test_a_published_check_digit_holds(number):
    assert check_digit_holds(number)
    assert not check_digit_holds(number[:-1] + str((int(number[-1]) + 1) % 10))


@pytest.mark.parametrize(
    "text",
    [
        "2112345678901",  # syntax engine, scandata.c: good is 2112345678900
        "]E02112345678901",  # the same with its symbology
        "(01)12345678901234",  # syntax engine, ai.c: good ends in 1
        "]E402345674",  # syntax engine, scandata.c
        "]E004252615",  # docstring of biip 5.2.0: good is the UPC-E 04252614
        "09521234543210",  # computed from the rule: good ends in 3
        "]C10109521234543210",  # the same inside element strings
        "]C1003761042500212345603712",  # computed from the rule: an SSCC is checked too
        "]C1020952123454321037120037610425002123456",  # computed: the content of a unit is too
    ],
)
def test_a_wrong_check_digit_is_refused_wherever_it_stands(text):
    with pytest.raises(Refusal) as refused:
        read_code(text, TODAY)
    assert refused.value.code == "wrong_check_digit"


@pytest.mark.parametrize(
    ("number", "gtin"),
    [
        ("416000336108", "00416000336108"),  # syntax engine, dl.c
        ("02345673", "00000002345673"),  # syntax engine, dl.c
        ("6291041500213", "06291041500213"),  # filled with a zero, computed
        ("10614141000415", "10614141000415"),  # 14 digits already
    ],
)
def test_a_product_number_is_filled_to_14_digits(number, gtin):
    assert read_code(number, TODAY).gtin == gtin


def test_a_upc_e_is_expanded_only_behind_its_symbology_identifier():
    # 001234000057 is the UPC-E 00123457: syntax engine, scandata.c, zeros suppressed by rule
    assert read_code("]E000123457", TODAY).gtin == "00001234000057"
    # 042100005264 is the UPC-E 04252614: docstring of biip 5.2.0
    assert read_code("]E004252614", TODAY).gtin == "00042100005264"
    # 04210016 is a GTIN-8 and also the UPC-E of 042100001006, computed: without it, a GTIN-8
    assert read_code("04210016", TODAY).gtin == "00000004210016"
    assert read_code("]E004210016", TODAY).gtin == "00042100001006"


@settings(deadline=None)
@given(st.from_regex("[0-9]{7}|[0-9]{11,13}|[0-9]{17}", fullmatch=True))
def test_check_digits_agree_with_python_stdnum(digits):
    good = ean.calc_check_digit(digits)
    for digit in "0123456789":
        assert check_digit_holds(digits + digit) == (digit == good)
