"""What a scan is taken for, what it warns of, and what is refused, with examples from a back door.

Product numbers carry the demonstration prefix 952; houses and shops are invented.
"""

from datetime import date

import pytest

from pantry.refusals import CODES, Refusal, UnreadableInput
from pantry.rules.codes import Scan, StoreNumber, StoreValue, Verifier, read_code
from pantry.rules.stock import DateKind, DateMark

TODAY = date(2027, 3, 10)
PRODUCT = "0109521234543213"
LOT_THEN_DATE = "10LOT42A\x1d17270331"


def refusal_of(text, **more):
    with pytest.raises(Refusal) as refused:
        read_code(text, TODAY, **more)
    return refused.value


def test_the_separator_may_be_written_out_or_be_the_character():
    written = read_code("]d2" + PRODUCT + "10LOT42A<GS>17270331", TODAY)
    assert written == read_code("]d2" + PRODUCT + LOT_THEN_DATE, TODAY)
    assert written.lot == "LOT42A"


@pytest.mark.parametrize(
    "text",
    [
        "]d2" + PRODUCT + LOT_THEN_DATE,
        "\x1d" + PRODUCT + LOT_THEN_DATE,
        PRODUCT + LOT_THEN_DATE,
        "(01)09521234543213(10)LOT42A(17)270331",
        "(01) 09521234543213 (10) LOT42A (17) 270331",
        "  ]d2" + PRODUCT + LOT_THEN_DATE + "\r\n",
        "]d2" + PRODUCT + "\x1d" + LOT_THEN_DATE + "\x1d",
        "]d2\x1d" + PRODUCT + "10LOT42A\x1d\x1d17270331\x1d\x1d",
        "https://label.example/01/09521234543213/10/LOT42A?17=270331",
    ],
)
def test_the_same_label_reads_the_same_whatever_the_scanner_sends(text):
    scan = read_code(text, TODAY)
    assert scan.gtin == "09521234543213"
    assert scan.lot == "LOT42A"
    assert scan.date_mark == DateMark(DateKind.USE_BY, date(2027, 3, 31))
    assert scan.warnings == ()


@pytest.mark.parametrize(
    ("text", "gtin"),
    [
        ("9521234543213", "09521234543213"),
        ("0195212345438", None),  # begins like AI 01 and is 13 digits: a number, if a good one
        ("10614141000415", "10614141000415"),
        ("95012346", "00000095012346"),
    ],
)
def test_a_number_of_8_12_13_or_14_digits_is_never_element_strings(text, gtin):
    if gtin is None:
        assert refusal_of(text).code == "wrong_check_digit"
    else:
        scan = read_code(text, TODAY)
        assert (scan.gtin, scan.elements) == (gtin, ())


@pytest.mark.parametrize("text", ["A-17", "K7Q2-M4", "JAR0042", "4711", "0000123", "X" * 20])
def test_a_label_of_the_house_is_a_label(text):
    assert read_code(text, TODAY) == Scan(label=text)
    assert read_code("]C0" + text, TODAY) == Scan(label=text, symbology="]C0")


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "A1", "X" * 21, "a-17", "SHELF 3", "hello", "123", "123456789", "5" * 15),
        *("]", "]d", "]]C1", "376104250021234569", "17270331", "٠٩٥٢١٢٣٤٥٤٣٢١٣", "A\x1dB"),
    ],
)
def test_any_other_text_is_refused(text):
    assert refusal_of(text).code in {"not_a_code", "wrong_check_digit"}


def test_a_text_longer_than_any_code_is_refused_at_once():
    refused = refusal_of("]d2" + PRODUCT + "\x1d" * 100_000)
    assert refused.code == "not_a_code"
    assert "100019 characters" in refused.problem


def test_what_begins_with_a_whole_key_must_be_read_whole():
    assert refusal_of(PRODUCT + "88XYZ").code == "not_a_code"
    assert refusal_of("010952123454321010A").code == "wrong_check_digit"
    assert read_code("00376104250021234569", TODAY).sscc == "376104250021234569"


def test_use_by_and_best_before_stay_apart():
    both = read_code("]d2" + PRODUCT + "1727032015270331", TODAY)
    assert both.date_mark == DateMark(DateKind.USE_BY, date(2027, 3, 20))
    assert both.best_before == date(2027, 3, 31)
    quality = read_code("]d2" + PRODUCT + "15270331", TODAY)
    assert quality.date_mark == DateMark(DateKind.BEST_BEFORE, date(2027, 3, 31))


def test_the_earlier_of_two_use_by_dates_counts():
    earlier_day = read_code("]d2" + PRODUCT + "1727032070032703211200", TODAY)
    assert (earlier_day.date_mark.date, earlier_day.use_by_time) == (date(2027, 3, 20), None)
    with_time = read_code("]d2" + PRODUCT + "1727032170032703201200", TODAY)
    assert with_time.date_mark.date == date(2027, 3, 20)
    assert with_time.use_by_time.hour == 12


def test_a_due_date_of_a_bill_is_no_date_of_food():
    scan = read_code("]d2" + PRODUCT + "12270331", TODAY)
    dates = (scan.date_mark, scan.best_before, scan.sell_by, scan.produced, scan.packed)
    assert dates == (None,) * 5
    assert scan.elements[1].ai == "12"


def test_sell_by_production_and_packing_are_no_date_marks():
    scan = read_code("]d2" + PRODUCT + "112703011327030216270312", TODAY)
    assert scan.date_mark is None
    assert (scan.produced, scan.packed) == (date(2027, 3, 1), date(2027, 3, 2))
    assert scan.sell_by == date(2027, 3, 12)
    assert read_code("]d2" + PRODUCT + "800827030114", TODAY).produced == date(2027, 3, 1)
    assert read_code("]d2" + PRODUCT + "7006270302", TODAY).frozen == date(2027, 3, 2)


@pytest.mark.parametrize(
    "rest",
    [
        "10LOT42A17270331",
        "10LOT42A15270300",
        "10LOT42A310300125017270331",  # 23 characters: refused, not read
        "10L117270331<GS>21S1",
        "10L1310300125017270331",
        "10L170032703311200",
    ],
)
def test_a_lot_that_may_have_swallowed_a_date_warns_or_is_refused(rest):
    text = "]d2" + PRODUCT + rest
    if len(rest.partition("<GS>")[0]) > 22:
        assert refusal_of(text).code == "value_does_not_fit"
    else:
        scan = read_code(text, TODAY)
        assert scan.warnings == ("lot_may_hide_a_date",)
        assert scan.date_mark is None


@pytest.mark.parametrize("rest", ["21S117270331", "31030010003922199517270331", "99BOX17270331"])
def test_other_data_that_may_have_swallowed_a_date_warns(rest):
    scan = read_code("]d2" + PRODUCT + rest, TODAY)
    assert (scan.warnings, scan.date_mark) == (("value_may_hide_a_date",), None)


def test_a_count_has_no_room_to_swallow_a_date():
    assert refusal_of("]d2" + PRODUCT + "301217270331").code == "value_does_not_fit"


@pytest.mark.parametrize(
    "rest",
    [
        "1727033110B17270331",  # the date stands in the code already
        "10LOT42A99999999",
        "1017270331",  # the whole lot looks like a date; there is no lot before it
        "10B17271331",  # no such month
        "10B1727033188XY",  # a date, and then what nobody could read
        "7007270615270616",  # a range whose middle looks like AI 15
    ],
)
def test_a_lot_that_only_looks_so_does_not_warn(rest):
    assert read_code("]d2" + PRODUCT + rest, TODAY).warnings == ()


def test_an_identifier_nobody_knows_is_kept_apart_with_a_warning():
    scan = read_code("]d2" + PRODUCT + "87XYZ<GS>10A1", TODAY)
    assert (scan.lot, scan.unread, scan.warnings) == ("A1", ("87XYZ",), ("unknown_ai",))
    fixed = read_code("]d2" + PRODUCT + "1427033110A1", TODAY)
    assert (fixed.lot, fixed.unread) == ("A1", ("14270331",))
    printed = read_code("(01)09521234543213(87)XYZ(10)A1", TODAY)
    assert (printed.lot, printed.unread) == ("A1", ("(87)XYZ",))


def test_a_lot_in_a_barcode_of_its_own_is_read_with_a_warning():
    scan = read_code("]C110LOT42A", TODAY)
    assert (scan.gtin, scan.lot, scan.warnings) == (None, "LOT42A", ("companion_missing",))


def test_goods_sold_by_measure_without_a_measure_warn():
    assert read_code("]d20199521234543216", TODAY).warnings == ("measure_missing",)
    assert read_code("]d201995212345432163103001250", TODAY).warnings == ()


def test_a_place_or_a_crate_is_not_food():
    assert read_code("]d24149521234543213", TODAY).warnings == ("not_food_number",)
    assert read_code("https://a.example/8004/9521234567", TODAY).warnings == ("not_food_number",)
    assert read_code("]d200376104250021234569", TODAY).warnings == ()


def test_a_measure_in_two_units_is_read_in_the_metric_one():
    scan = read_code("]d2" + PRODUCT + "32020002753103001250", TODAY)
    assert (scan.quantity.value, scan.quantity.unit) == ("1.250", "kg")


def test_a_gross_weight_is_no_quantity():
    assert read_code("]d2" + PRODUCT + "3303001250", TODAY).quantity is None


def test_an_amount_of_a_bill_is_no_price():
    assert read_code("]d2415952123454321380201<GS>39021995", TODAY).price is None


def test_a_web_address_without_product_is_refused():
    assert refusal_of("]Q1https://menu.example/tonight").code == "link_without_product"


def test_a_faulty_shop_layout_is_refused():
    faulty = [
        {"prefix": "40"},
        {"prefix": "2"},
        {"prefix": "2x"},
        {"item_digits": 4},
        {"item_digits": 0, "value_digits": 10},
        {"decimals": 6},
        {"kind": StoreValue.COUNT},
        {"verifier": Verifier.CHECKED, "item_digits": 3, "value_digits": 6},
        {"unit": "stone"},
        {"currency": "XYZ"},
    ]
    good = {
        "prefix": "29",
        "item_digits": 5,
        "value_digits": 5,
        "kind": StoreValue.WEIGHT,
        "decimals": 3,
    }
    assert StoreNumber(**good).unit == "kg"
    for change in faulty:
        with pytest.raises(UnreadableInput) as refused:
            StoreNumber(**{**good, **change})
        assert refused.value.code == "store_number_faulty"


def test_a_consumer_variant_stands_in_where_no_other_is_given():
    assert read_code("]d2" + PRODUCT + "222A", TODAY).variant == "2A"
    assert read_code("]d2" + PRODUCT + "2001222A", TODAY).variant == "01"


def test_digits_of_another_script_are_no_digits():
    assert refusal_of("]d2" + PRODUCT + "17٢٧٠٣٣١").code == "value_does_not_fit"


def test_a_value_may_be_all_decimals():
    layout = StoreNumber("29", 6, 4, StoreValue.WEIGHT, decimals=4)
    assert read_code("2912345012502", TODAY, store_numbers=[layout]).quantity.value == "0.1250"


def test_the_longest_prefix_that_fits_decides():
    country = StoreNumber("29", 5, 5, StoreValue.WEIGHT, decimals=3)
    farm_shop = StoreNumber("2912", 3, 5, StoreValue.PRICE, decimals=2)
    scan = read_code("2912345012502", TODAY, store_numbers=[country, farm_shop])
    assert scan.quantity is None
    assert (scan.price.minor, scan.store_number.item) == (1250, "345")


def test_an_answer_always_has_every_key():
    answer = read_code("A-17", TODAY).as_json()
    assert list(answer)[:13] == [
        *("gtin", "lot", "date_mark", "quantity", "count", "serial", "variant", "sscc"),
        *("content_gtin", "harvested", "price", "symbology", "warnings"),
    ]
    assert list(answer) == list(read_code("]d2" + PRODUCT + LOT_THEN_DATE, TODAY).as_json())


def test_every_warning_and_refusal_is_declared():
    assert {
        *("lot_may_hide_a_date", "value_may_hide_a_date", "store_number_not_global"),
        *("unknown_ai", "not_food_number", "companion_missing", "measure_missing"),
        *("not_a_code", "empty_code", "wrong_check_digit", "no_such_date", "value_does_not_fit"),
        *("no_such_currency", "identifiers_contradict", "identifier_repeated"),
        *("content_without_count", "wrong_number_of_digits", "wrong_verifier"),
        *("store_number_faulty", "link_unreadable", "link_without_product", "link_out_of_order"),
        *("link_value_empty", "link_identifier_unknown", "link_identifier_misplaced"),
    } <= set(CODES)
