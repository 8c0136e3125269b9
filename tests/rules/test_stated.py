"""How much of an item a scan says there is."""

from fractions import Fraction

import pytest

from pantry.rules.codes import Scan
from pantry.rules.codes.scan import Measure, StoreItem
from pantry.rules.codes.stated import numbers, stated_quantity
from pantry.rules.stock import BaseUnit, Item

FLOUR = Item("flour", "Flour", BaseUnit.G)
MILK = Item("milk", "Milk", BaseUnit.ML)
EGGS = Item("eggs", "Eggs", BaseUnit.EACH)
HENS = Item("hens", "Hens", BaseUnit.G, piece_weight=Fraction(1600))
SALT = Item("salt", "Salt", BaseUnit.G, measured=False)


@pytest.mark.parametrize(
    ("value", "unit", "item", "thousandths"),
    [
        ("1.250", "kg", FLOUR, 1_250_000),
        ("0.5", "l", MILK, 500_000),
        ("1", "lb", FLOUR, 453_592),  # 453.59237 g exactly (NIST Handbook 44, appendix C)
        ("1", "gal", MILK, 3_785_412),  # 231 cubic inches (as above)
        ("1", "qt", MILK, 946_353),  # a quarter of that
        ("1", "fl oz", MILK, 29_574),  # 1/128 of that
    ],
)
def test_MS2_a_net_measure_is_in_the_items_own_unit(value, unit, item, thousandths):
    assert stated_quantity(Scan(quantity=Measure(value, unit)), item) == thousandths


def test_MS3_what_needs_a_fact_that_nobody_knows_is_not_guessed():
    assert stated_quantity(Scan(quantity=Measure("1.0", "kg")), MILK) is None
    assert stated_quantity(Scan(count=2), FLOUR) is None
    assert stated_quantity(Scan(quantity=Measure("1.0", "kg")), SALT) is None


def test_a_count_is_of_pieces_or_of_what_is_inside():
    assert stated_quantity(Scan(count=18), EGGS) == 18_000
    assert stated_quantity(Scan(count=2), HENS) == 3_200_000
    inside = Scan(count=12, content_gtin="09521234543213")
    assert stated_quantity(inside, MILK, 2_000_000) == 24_000_000
    assert stated_quantity(inside, MILK) is None


def test_a_weight_goes_before_a_count():
    assert stated_quantity(Scan(quantity=Measure("1.5", "kg"), count=3), HENS) == 1_500_000


def test_a_scan_that_says_no_amount_states_none():
    assert stated_quantity(Scan(gtin="09521234543213"), MILK, 2_000_000) is None


def test_a_scan_carries_its_numbers_in_fourteen_digits():
    assert numbers(Scan()) == frozenset()
    scan = Scan(gtin="09521234543213", store_number=StoreItem("2012301928752", None))
    assert numbers(scan) == {"09521234543213", "02012301928752"}
    assert numbers(Scan(content_gtin="95012345678903")) == {"95012345678903"}
