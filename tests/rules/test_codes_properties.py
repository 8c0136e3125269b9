"""Whatever a scanner sends is read or refused, and nothing else."""

import json
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum import ean

from pantry.refusals import CODES, Refusal
from pantry.rules.codes import StoreNumber, StoreValue, Verifier, read_code

UNHURRIED = settings(deadline=None)  # the machine may be shared
DAYS = st.dates(date(1, 1, 1), date(9999, 12, 31))
SCANS = [
    "]C101095212345432131727033110LOT42A",
    "]d2010952123454321310LOT42A\x1d17270331",
    "]C1019952123454321631030012501527022839221995\x1d10B7",
    "]C10037610425002123456902950123456789033712",
    "]d2010952123454321370032704011430\x1d10A1",
    "]d201095212345432137007270615270616\x1d39329781234\x1d3103000001",
    "]d28008270301143015\x1d800309521234543213\x1d4330000123-",
    "]E06291041500213",
    "]E004252614",
    "2012301928752",
    "0212345008508",
    "(01)09521234543213(17)100101(10)12\\(3ABC(21)1234567890",
    "https://id.gs1.org/01/09520123456788/10/ABC%2F1/21/12345?17=180426&3103=000195#x",
    "]Q1HTTPS://[2001:db8::1]/stem/00/006141411234567890?02=09520123456788&37=25",
    "K7Q2-M4",
]
LAYOUTS = [
    StoreNumber("20", 5, 4, StoreValue.PRICE, 2, verifier=Verifier.CHECKED, currency="GBP"),
    StoreNumber("02", 5, 5, StoreValue.WEIGHT, 3),
    StoreNumber("25", 5, 5, StoreValue.COUNT),
]


@st.composite
def damaged_scans(draw):
    """A good scan with a few places cut, filled or exchanged."""
    text = draw(st.sampled_from(SCANS))
    for _ in range(draw(st.integers(0, 4))):
        at = draw(st.integers(0, len(text)))
        width = draw(st.integers(0, 3))
        text = (
            text[:at] + draw(st.text(max_size=3) | st.from_regex("[0-9]{1,2}")) + text[at:][width:]
        )
    return text


def outcome(text, today):
    try:
        return read_code(text, today, store_numbers=LAYOUTS)
    except Refusal as refused:
        return refused


def is_read_or_refused(text, today):
    found = outcome(text, today)
    if isinstance(found, Refusal):
        return found.code in CODES and bool(found.problem) and bool(found.todo)
    return set(found.warnings) <= set(CODES) and json.dumps(found.as_json()) != ""


@UNHURRIED
@given(st.text(), DAYS)
def test_any_text_on_any_day_is_read_or_refused(text, today):
    assert is_read_or_refused(text, today)


@settings(UNHURRIED, max_examples=400)
@given(damaged_scans(), DAYS)
def test_a_damaged_scan_is_read_or_refused(text, today):
    assert is_read_or_refused(text, today)


@UNHURRIED
@given(st.sampled_from(["]C1", "]d2", "(", "\x1d", "https://a/", "]E0", "]E3"]), st.text(), DAYS)
def test_any_text_behind_what_announces_something_is_read_or_refused(front, text, today):
    assert is_read_or_refused(front + text, today)


@UNHURRIED
@given(st.from_regex("[1-9][0-9]{12}", fullmatch=True), st.integers(0, 13), st.integers(1, 9))
def test_one_wrong_digit_of_a_product_number_is_always_refused(data, place, more):
    """The check digit catches every single wrong digit, wherever the number stands."""
    good = data + ean.calc_check_digit(data)
    wrong = good[:place] + str((int(good[place]) + more) % 10) + good[place + 1 :]
    for text in ("{}", "]I1{}", "]C101{}", "]C102{}3712", "(01){}", "https://a.example/01/{}"):
        assert not isinstance(outcome(text.format(good), date(2027, 3, 10)), Refusal)
        assert outcome(text.format(wrong), date(2027, 3, 10)).code == "wrong_check_digit"
