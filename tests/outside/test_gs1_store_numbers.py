"""Numbers of restricted circulation, against published layouts and worked verifier digits."""

from datetime import date

import pytest
from biip.checksums import gs1_price_weight_check_digit

from pantry.refusals import Refusal
from pantry.rules.codes import Measure, Price, StoreItem, StoreNumber, StoreValue, Verifier
from pantry.rules.codes import read_code as read

TODAY = date(2026, 11, 25)

# gs1uk.org, "How to barcode variable measure items": 20XXX RR V PPPP C, price in pence
UNITED_KINGDOM = StoreNumber(
    "20123", 2, 4, StoreValue.PRICE, decimals=2, verifier=Verifier.CHECKED, currency="GBP"
)
# 2 IIIII V PPPP C in a UPC-A, from memory of common practice in the United States
UNITED_STATES = StoreNumber(
    "02", 5, 4, StoreValue.PRICE, decimals=2, verifier=Verifier.SKIPPED, currency="USD"
)


def test_a_british_price_label():
    # prefix 20123, item 01, price 28.75 with verifier 9; computed from the layout
    scan = read("2012301928752", TODAY, store_numbers=[UNITED_KINGDOM])
    assert scan.store_number == StoreItem("2012301928752", "01")
    assert scan.price == Price(2875, "GBP", 2)
    assert scan.gtin is None
    assert scan.warnings == ("store_number_not_global",)


@pytest.mark.parametrize("number", ["212345008508", "0212345008508", "]E00212345008508"])
def test_an_american_price_label(number):
    # item 12345, price 8.50; computed from the layout
    scan = read(number, TODAY, store_numbers=[UNITED_KINGDOM, UNITED_STATES])
    assert scan.store_number == StoreItem("0212345008508", "12345")
    assert scan.price == Price(850, "USD", 2)


@pytest.mark.parametrize(
    ("price", "digit"),
    [  # docstring of biip 5.2.0; as GS1 General Specifications, 7.9, from memory
        ("2875", 9),
        ("14685", 6),
    ],
)
def test_a_worked_verifier_digit_holds_and_another_is_refused(price, digit):
    assert gs1_price_weight_check_digit(price) == digit
    layout = StoreNumber(
        "29", 9 - len(price), len(price), StoreValue.PRICE, 2, verifier=Verifier.CHECKED
    )
    good, bad = (f"29{'0' * layout.item_digits}{one}{price}" for one in (digit, (digit + 1) % 10))
    assert read(good + check(good), TODAY, store_numbers=[layout]).price.minor == int(price)
    with pytest.raises(Refusal) as refused:
        read(bad + check(bad), TODAY, store_numbers=[layout])
    assert refused.value.code == "wrong_verifier"


def check(data):
    """GS1 General Specifications, 7.9.1, written again."""
    weighted = sum(
        int(digit) * (3 if at % 2 == 0 else 1) for at, digit in enumerate(reversed(data))
    )
    return str(-weighted % 10)


def test_a_german_weight_label():
    # biip 5.2.0, rcn.py: in Germany 29 carries a weight in grams; the number is computed
    layout = StoreNumber("29", 5, 5, StoreValue.WEIGHT, decimals=3)
    scan = read("291234501250" + check("291234501250"), TODAY, store_numbers=[layout])
    assert scan.quantity == Measure("1.250", "kg")
    assert scan.store_number.item == "12345"


def test_a_german_count_label():
    # biip 5.2.0, rcn.py: in Germany 25 carries a count; the number is computed
    layout = StoreNumber("25", 5, 5, StoreValue.COUNT)
    assert read("251234500012" + check("251234500012"), TODAY, store_numbers=[layout]).count == 12


@pytest.mark.parametrize("prefix", ["020", "029", "200", "212", "299"])
def test_a_restricted_number_is_no_global_product(prefix):
    # GS1 prefixes 020-029 and 200-299: ldapwiki, GS1 prefix
    number = prefix + "123456789"
    scan = read(number + check(number), TODAY)
    assert scan.gtin is None
    assert scan.store_number == StoreItem(number + check(number), None)
    assert scan.warnings == ("store_number_not_global",)


@pytest.mark.parametrize("data", ["040123456789", "049123456789", "0123456", "2123456"])
def test_a_companys_own_number_stays_with_a_warning(data):
    # GS1 prefixes 040-049 and GTIN-8 that begin with 0 or 2, from memory of GS1 General
    # Specifications, 1.4.5
    scan = read(data + check(data), TODAY)
    assert scan.gtin == (data + check(data)).zfill(14)
    assert scan.warnings == ("store_number_not_global",)


@pytest.mark.parametrize("prefix", ["977", "978", "979", "980", "981", "984", "990", "999", "050"])
def test_books_refunds_and_coupons_are_not_food(prefix):
    # GS1 prefixes, from memory of GS1 General Specifications, 1.4.5
    number = prefix + "123456789"
    assert read(number + check(number), TODAY).warnings == ("not_food_number",)


def test_the_prefix_of_examples_is_a_number_like_any_other():
    # GS1 prefix 952 is kept for demonstrations, from memory of GS1 General Specifications, 1.4.5
    assert read("9521234543213", TODAY).warnings == ()
