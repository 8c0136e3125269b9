"""MS1 to MS3 as properties: exact, rounded once, and nothing but a refusal for what is not read."""

from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import CODES, Refusal
from pantry.rules.measure import (
    Amount,
    Quantity,
    UnitSystem,
    convert,
    in_base_units,
    quantity_from_json,
    read_amount,
    read_packs,
    read_quantity,
    to_thousandths,
)
from pantry.rules.money import read_money
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.units import COUNTED_WORDS, UNITS, Dimension, unit_called

SYSTEMS = st.sampled_from(UnitSystem)
MARKS = st.sampled_from([".", ",", None])
MEASURED = sorted(code for code in UNITS)
FACTS = st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=1000)
BASE_UNITS = st.sampled_from(BaseUnit)
VULGAR = {Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(3, 4): "¾", Fraction(7, 8): "⅞"}


def as_mixed(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    written = f"{part.numerator}/{part.denominator}" if part else ""
    return f"{whole} {written}".strip() if whole else written or "0"


def as_decimal(scaled: int, places: int, mark: str) -> str:
    digits = str(scaled).rjust(places + 1, "0")
    return f"{digits[:-places]}{mark}{digits[-places:]}" if places else digits


@given(st.fractions(0, 9999, max_denominator=999), st.sampled_from(MEASURED), SYSTEMS)
def test_MS2_any_fraction_written_is_read_back_exactly(
    value: Fraction, unit: str, system: UnitSystem
) -> None:
    assert read_amount(f"{as_mixed(value)} {unit}", system) == Amount(value, unit)


@given(st.integers(0, 10**9), st.integers(0, 9), st.sampled_from(".,"), SYSTEMS)
def test_MS2_any_decimal_written_is_read_back_exactly_in_its_house(
    scaled: int, places: int, mark: str, system: UnitSystem
) -> None:
    text = f"{as_decimal(scaled, places, mark)}g"
    assert read_amount(text, system, decimal_mark=mark) == Amount(Fraction(scaled, 10**places), "g")


@given(st.integers(0, 10**8), st.sampled_from([".", ",", "'", "\u202f"]))
def test_MS2_thousands_are_read_back_by_a_house_that_writes_them_so(n: int, separator: str) -> None:
    mark = "," if separator == "." else "."
    text = f"{n:,} g".replace(",", separator)
    assert read_amount(text, UnitSystem.METRIC, decimal_mark=mark) == Amount(Fraction(n), "g")


@given(st.integers(1, 999), st.sampled_from(sorted(VULGAR)))
def test_MS2_a_fraction_sign_is_added_to_what_stands_before_it(n: int, part: Fraction) -> None:
    assert read_amount(f"{n}{VULGAR[part]} l", UnitSystem.METRIC).value == n + part


@given(st.integers(1, 50), st.integers(1, 50), st.fractions(0, 999, max_denominator=99))
def test_MS2_a_pack_ladder_multiplies(cases: int, bottles: int, size: Fraction) -> None:
    text = f"{cases} cases of {bottles} x {as_mixed(size)} cl"
    packed = read_packs(text, UnitSystem.METRIC)
    assert packed.total == Amount(cases * bottles * size, "cl")
    assert packed.inner == Amount(size, "cl")


@given(st.text(max_size=120), SYSTEMS, MARKS)
def test_MS2_no_text_does_more_than_be_refused(
    text: str, system: UnitSystem, mark: str | None
) -> None:
    item = Item(id="x", name="x", base_unit=BaseUnit.G)
    with suppress(Refusal):
        assert read_quantity(text, item, system, decimal_mark=mark) >= 0
    with suppress(Refusal):
        read_money(text, "GBP", decimal_mark=mark)


WORDS = [
    *("a", "an", "half", "quarter", "and", "to", "or", "of", "x", "dozen", "one", "T", "cup", "fl"),
    *("oz", "lb", "g", "kg", "tin", "case", "bunches", "½", "1", "12", "1,500", "0.5", "1/2", "/"),
    *("-", "–", "+", "&", ",", ".", "×", "(", "nan", "1e9", "9" * 30, "pint", "each", "£", "GBP"),
]


@given(st.lists(st.sampled_from(WORDS), max_size=12), st.sampled_from(["", " "]), SYSTEMS, MARKS)
def test_MS2_no_order_of_known_words_does_more_than_be_refused(
    words: list[str], space: str, system: UnitSystem, mark: str | None
) -> None:
    text = space.join(words)
    try:
        packed = read_packs(text, system, decimal_mark=mark)
    except Refusal as refused:
        assert refused.code in CODES  # noqa: PT017 - most of these texts are refused, some are not
    else:
        assert packed.total.value >= 0
        assert packed.total.unit == packed.inner.unit
        assert packed.inner.unit in {"", *UNITS, *COUNTED_WORDS.values()}
    with suppress(Refusal):
        read_money(text, "GBP", decimal_mark=mark)


@given(
    st.dictionaries(st.sampled_from(["value", "unit", "of"]), st.text() | st.integers() | st.none())
)
def test_MS1_no_json_does_more_than_be_refused(quantity: dict[str, object]) -> None:
    with suppress(Refusal):
        quantity_from_json(quantity, Item(id="x", name="x", base_unit=BaseUnit.G))


@given(st.lists(st.fractions(0, 10**6, max_denominator=10**6), max_size=20))
def test_MS1_rounding_happens_once_so_that_sums_stay_exact(parts: list[Fraction]) -> None:
    entered = [to_thousandths(part) for part in parts]
    assert all(
        abs(Fraction(n, 1000) - part) <= Fraction(1, 2000)
        for n, part in zip(entered, parts, strict=True)
    )
    assert Fraction(sum(entered), 1000) == sum(Fraction(n, 1000) for n in entered)


@given(st.integers(0, 10**12), BASE_UNITS)
def test_MS1_a_quantity_survives_json(thousandths: int, unit: BaseUnit) -> None:
    written = Quantity(thousandths, unit).as_json()
    assert quantity_from_json(written, Item(id="x", name="x", base_unit=unit)) == thousandths


@given(st.integers(0, 10**9), BASE_UNITS, BASE_UNITS, FACTS, FACTS)
def test_MS3_conversion_there_and_back_is_exact(
    thousandths: int, here: BaseUnit, there: BaseUnit, density: Fraction, weight: Fraction
) -> None:
    start = Amount(Fraction(thousandths, 1000), here.value)
    over = in_base_units(start, there, density=density, piece_weight=weight)
    back = in_base_units(Amount(over, there.value), here, density=density, piece_weight=weight)
    assert to_thousandths(back) == thousandths


@given(st.integers(1, 10**9), st.sampled_from(MEASURED), SYSTEMS)
def test_MS2_a_conversion_shown_in_a_unit_is_within_one_of_its_last_decimals(
    thousandths: int, code: str, system: UnitSystem
) -> None:
    unit = UNITS[code]
    base = {Dimension.MASS: "g", Dimension.VOLUME: "ml", Dimension.COUNT: "each"}[unit.dimension]
    text = f"{as_decimal(thousandths, 3, '.')} {base}"
    shown = convert(text, system=system, to=code, decimal_mark=".")
    assert shown["unit"] == code
    back = Fraction(shown["value"]) * unit.factor
    # one thousandth of the base unit can tell apart at most ten of the last decimal shown
    assert abs(back - Fraction(thousandths, 1000)) <= Fraction(10, 2000)


@pytest.mark.parametrize("system", UnitSystem)
def test_MS2_every_code_is_read_as_itself_and_every_word_in_capitals_too(
    system: UnitSystem,
) -> None:
    for code in UNITS:
        assert unit_called(code, system) == code
    for word, code in COUNTED_WORDS.items():
        assert unit_called(word.upper(), system) == code
    assert not set(COUNTED_WORDS) & set(UNITS)
