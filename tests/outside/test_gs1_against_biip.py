"""Element strings and links, read here and by the library biip 5.2.0, which shares no code with us.

biip takes the century from its own clock, so the years drawn mean the same until 2059. Compared is
what biip is right about; its faults are kept here too, so that we notice when it mends them.
"""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from biip import ParseError, parse
from biip.gs1_messages import GS1Message
from hypothesis import given, settings
from hypothesis import strategies as st
from stdnum import ean, gs1_128

from pantry.refusals import Refusal
from pantry.rules.codes import Price, read_code

TODAY = date(2026, 11, 25)
UNHURRIED = settings(deadline=None)  # the machine may be shared
DAYS = st.dates(date(2010, 1, 1), date(2059, 12, 31)).map(lambda day: day.strftime("%y%m%d"))
MONTHS = DAYS.map(lambda digits: digits[:4] + "00")
CHARACTERS = "".join(chr(code) for code in range(0x21, 0x7B) if chr(code) not in "#$@[\\]^`")


def text(longest):
    # `<GS>` written out is the separator here, and data to biip
    return st.text(CHARACTERS, min_size=1, max_size=longest).filter(lambda one: "<GS>" not in one)


def digits(shortest, longest):
    return st.text("0123456789", min_size=shortest, max_size=longest)


# indicator 1 to 8: neither a shop's own number nor goods sold by measure
GTIN = digits(12, 12).map(lambda data: "1" + data + ean.calc_check_digit("1" + data))
FIXED = {
    "11": DAYS | MONTHS,
    "13": DAYS | MONTHS,
    "15": DAYS | MONTHS,
    "16": DAYS | MONTHS,
    "17": DAYS | MONTHS,
    "20": digits(2, 2),
    **{f"31{kind}{decimals}": digits(6, 6) for kind in "05" for decimals in range(6)},
}
VARIABLE = {
    "10": text(20),
    "21": text(20),
    "22": text(20),
    "240": text(30),
    "30": digits(1, 8),
    "3922": digits(2, 15),
    "422": st.just("826"),
    "7003": st.tuples(DAYS, st.integers(0, 23), st.integers(0, 59)).map(
        lambda moment: f"{moment[0]}{moment[1]:02}{moment[2]:02}"
    ),
    "7006": DAYS,
    "7007": DAYS,
}


def value_of(ai):
    return (FIXED | VARIABLE)[ai]


@st.composite
def messages(draw):
    """Pairs of identifier and data that may stand on one pack, in any order."""
    chosen = draw(st.lists(st.sampled_from(sorted(FIXED | VARIABLE)), unique=True, max_size=7))
    # of one kind of measure only one may stand: GS1 Barcode Syntax Dictionary, `ex=310n`
    kinds = {ai[:3]: ai for ai in chosen}
    pairs = [(ai, draw(value_of(ai))) for ai in kinds.values()]
    return draw(st.permutations([("01", draw(GTIN)), *pairs]))


def encode(pairs, *, trailing=False):
    """Our own encoder, written for the test: a separator after what is not of fixed length."""
    parts = [ai + value + ("" if ai in FIXED or ai == "01" else "\x1d") for ai, value in pairs]
    return "".join(parts) if trailing else "".join(parts).removesuffix("\x1d")


def bracket(pairs):
    return "".join(f"({ai}){value}" for ai, value in pairs)


def pairs_of(scan):
    return [(one.ai, one.value) for one in scan.elements]


@UNHURRIED
@given(messages(), st.booleans())
def test_both_read_the_same_elements_out_of_a_message(pairs, trailing):
    message = encode(pairs, trailing=trailing)
    read = parse("]C1" + message)
    scan = read_code("]C1" + message, TODAY)
    assert read.gs1_message is not None, read.gs1_message_error
    assert pairs_of(scan) == list(pairs)
    assert [(one.ai.ai, one.value) for one in read.gs1_message.element_strings] == list(pairs)
    assert scan.gtin == read.gtin.value


@UNHURRIED
@given(messages())
def test_both_understand_dates_and_decimals_alike(pairs):
    read = parse("]d2" + encode(pairs))
    scan = read_code("]d2" + encode(pairs), TODAY)
    theirs = {one.ai.ai: one for one in read.gs1_message.element_strings}
    days = {"11": scan.produced, "13": scan.packed, "15": scan.best_before, "16": scan.sell_by}
    for ai, day in {**days, "7006": scan.frozen}.items():
        assert day == (theirs[ai].date if ai in theirs else None)
    if "17" in theirs or "7003" in theirs:
        limits = [theirs[ai].date for ai in ("17", "7003") if ai in theirs]
        assert scan.date_mark.date == min(limits)
    if "3922" in theirs:
        assert Decimal(scan.price.minor).scaleb(-2) == theirs["3922"].decimal
    measures = [one.decimal for ai, one in sorted(theirs.items()) if ai[:3] in ("310", "315")]
    if measures:
        assert Decimal(scan.quantity.value) == measures[0]


@UNHURRIED
@given(messages())
def test_what_biip_encodes_is_read_here(pairs):
    plain = [(ai, value) for ai, value in pairs if "(" not in value]
    message = GS1Message.parse_hri(bracket(plain))
    assert pairs_of(read_code("]Q3" + message.value, TODAY)) == plain
    assert pairs_of(read_code(bracket(plain), TODAY)) == plain


@UNHURRIED
@given(messages())
def test_a_link_that_biip_writes_is_read_here(pairs):
    link = GS1Message.parse("".join(encode(pairs))).as_gs1_digital_link_uri().as_uri()
    assert sorted(pairs_of(read_code(link, TODAY))) == sorted(pairs)


@UNHURRIED
@given(messages())
def test_python_stdnum_reads_the_same_product_and_lot(pairs):
    # it strips brackets and outer blanks out of data, so those stay out
    plain = [(ai, value) for ai, value in pairs if not set("()") & set(value)]
    info = gs1_128.info(encode(plain), separator="\x1d")
    scan = read_code("]C1" + encode(plain), TODAY)
    assert scan.gtin == info["01"]
    assert scan.lot == info.get("10")


@UNHURRIED
@given(messages(), st.data())
def test_a_date_behind_a_lost_separator_is_never_lost_silently(pairs, data):
    message = encode(pairs)
    places = [at for at, character in enumerate(message) if character == "\x1d"]
    if not places:
        return
    lost = data.draw(st.sampled_from(places))
    whole = read_code("]d2" + message, TODAY)
    try:
        damaged = read_code("]d2" + message[:lost] + message[lost + 1 :], TODAY)
    except Refusal:
        return
    assert damaged.date_mark == whole.date_mark or damaged.warnings


def test_biip_still_lets_a_wrong_check_digit_inside_a_message_pass():
    read = parse("]C10109521234543210")
    assert read.gs1_message is not None
    assert read.gtin is None


def test_biip_still_refuses_a_range_of_harvest_dates():
    with pytest.raises(ParseError):
        GS1Message.parse("01095212345432137007270615270616")


def test_biip_still_reads_a_price_with_fewer_digits_than_decimals_ten_times_too_high():
    message = "]d201095212345432133103001000" + "39225"
    read = parse(message).gs1_message.element_strings[-1]
    assert read.decimal == Decimal("0.5")
    assert read_code(message, TODAY).price == Price(5, None, 2)


def test_biip_still_takes_a_13_digit_number_for_element_strings_too():
    assert parse("9501101530003").gs1_message is not None
    assert read_code("9501101530003", TODAY).elements == ()


def test_the_window_of_centuries_moves_with_today_here_only():
    one_day = timedelta(days=1)
    last = date(2026, 12, 31)
    scan = "]d2010952123454321317770301"
    assert read_code(scan, last).date_mark.date == date(1977, 3, 1)
    assert read_code(scan, last + one_day).date_mark.date == date(2077, 3, 1)
