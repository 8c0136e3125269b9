"""MS1 to MS3: amounts as people write them, in whole thousandths of an item's base unit."""

import json
from fractions import Fraction

import pytest

from pantry.refusals import MissingFact, UnreadableInput
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
    show,
    to_thousandths,
)
from pantry.rules.stock import BaseUnit, Item

US, METRIC, IMPERIAL = UnitSystem.US, UnitSystem.METRIC, UnitSystem.IMPERIAL
FLOUR = Item(id="flour", name="plain flour", base_unit=BaseUnit.G, density=Fraction("0.53"))
EGGS = Item(id="eggs", name="eggs", base_unit=BaseUnit.EACH, piece_weight=Fraction(50))
MILK = Item(id="milk", name="whole milk", base_unit=BaseUnit.ML)
TOMATOES = Item(id="tinned-tomatoes", name="tinned tomatoes", base_unit=BaseUnit.G)
PARSLEY = Item(id="parsley", name="parsley", base_unit=BaseUnit.G, measured=False)


@pytest.mark.parametrize(
    ("text", "system", "value", "unit"),
    [
        ("1 1/2 cups", US, "3/2", "us_cup"),
        ("1 1/2 cups", METRIC, "3/2", "metric_cup"),
        ("1 cup", IMPERIAL, "1", "imperial_cup"),
        ("½ l", METRIC, "1/2", "l"),
        ("1,5 kg", METRIC, "3/2", "kg"),
        ("250 g", METRIC, "250", "g"),
        ("250g", METRIC, "250", "g"),
        ("250 Grams", METRIC, "250", "g"),
        ("2 lb 4 oz", IMPERIAL, "9/4", "lb"),
        ("2 lb. 4 oz.", US, "9/4", "lb"),
        ("2 lb,4 oz", US, "9/4", "lb"),
        ("2 pounds and 4 ounces", US, "9/4", "lb"),
        ("1 kg 200 g", METRIC, "6/5", "kg"),
        ("1 cup + 2 tbsp", US, "9/8", "us_cup"),
        ("3 tins", METRIC, "3", "tin"),
        ("a bunch", METRIC, "1", "bunch"),
        ("2 cloves", METRIC, "2", "clove"),
        ("½ bunch", METRIC, "1/2", "bunch"),
        ("12", METRIC, "12", ""),
        ("12 each", METRIC, "12", "each"),
        ("a dozen", METRIC, "12", ""),
        ("half a dozen tins", METRIC, "6", "tin"),
        ("half a pint", IMPERIAL, "1/2", "imperial_pint"),
        ("1 pint", US, "1", "us_pint"),
        ("2 fl oz", US, "2", "us_fl_oz"),
        ("2 fl. oz.", IMPERIAL, "2", "imperial_fl_oz"),
        ("2 fluid ounces", IMPERIAL, "2", "imperial_fl_oz"),
        ("1 quart", US, "1", "us_quart"),
        ("1 gallon", IMPERIAL, "1", "imperial_gallon"),
        ("1 tbsp", US, "1", "us_tbsp"),
        ("1 tbsp", IMPERIAL, "1", "metric_tbsp"),
        ("3 Tbsp.", METRIC, "3", "metric_tbsp"),
        ("1 dessertspoon", METRIC, "1", "metric_dsp"),
        ("1 imperial pint", US, "1", "imperial_pint"),
        ("1 australian tablespoon", METRIC, "1", "australian_tbsp"),
        ("1 KG", METRIC, "1", "kg"),
        ("750 ML", METRIC, "750", "ml"),
        ("75 CL", METRIC, "75", "cl"),
        ("1 L", METRIC, "1", "l"),
        ("5 mg", METRIC, "5", "mg"),
        ("0 g", METRIC, "0", "g"),
    ],
)
def test_MS2_amounts_are_read_as_people_write_them(
    text: str, system: UnitSystem, value: str, unit: str
) -> None:
    assert read_amount(text, system) == Amount(Fraction(value), unit)


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("2-3 tbsp", Amount(Fraction(3), "us_tbsp")),
        ("2 – 3 tbsp", Amount(Fraction(3), "us_tbsp")),
        ("2 to 3 cloves", Amount(Fraction(3), "clove")),
        ("2 or 3", Amount(Fraction(3), "")),
        ("1-1 1/2 cups", Amount(Fraction(3, 2), "us_cup")),
        ("1/2-3/4 cup", Amount(Fraction(3, 4), "us_cup")),
        ("200 g to 250 g", Amount(Fraction(250), "g")),
        ("800 g - 1 kg", Amount(Fraction(1), "kg")),
    ],
)
def test_MS2_the_larger_end_of_a_range_is_planned_for(text: str, amount: Amount) -> None:
    assert read_amount(text, US) == amount


@pytest.mark.parametrize(
    ("text", "total", "inner"),
    [
        ("6 x 750 ml", "4500 ml", "750 ml"),
        ("6x750ml", "4500 ml", "750 ml"),
        ("6 × 750 ml", "4500 ml", "750 ml"),
        ("750 ml x 6", "4500 ml", "750 ml"),
        ("case of 6 x 750 ml", "4500 ml", "750 ml"),
        ("Case of 6 bottles of 750 ml", "4500 ml", "750 ml"),
        ("2 cases of 6 x 750 ml", "9000 ml", "750 ml"),
        ("6 x 6 x 33 cl", "1188 cl", "33 cl"),
        ("6 x 750 ml bottles", "4500 ml", "750 ml"),
        ("2 tins of 400 g", "800 g", "400 g"),
        ("2 x 400 g tins", "800 g", "400 g"),
        ("25 kg sack", "25 kg", "25 kg"),
        ("sack of 25 kg", "25 kg", "25 kg"),
        ("250 g", "250 g", "250 g"),
        ("12 tins", "12 tin", "1 tin"),
        ("2 x 6 tins", "12 tin", "1 tin"),
        ("tray of 30", "30 ", "30 "),
        ("6 x 12", "72 ", "12 "),
        ("12 x 1 each", "12 each", "1 each"),
    ],
)
def test_MS2_a_pack_ladder_gives_the_whole_and_one_unit_inside(
    text: str, total: str, inner: str
) -> None:
    packed = read_packs(text, METRIC)
    assert f"{packed.total.value} {packed.total.unit}" == total
    assert f"{packed.inner.value} {packed.inner.unit}" == inner


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "amount_unreadable"),
        ("to taste", "number_unreadable"),
        ("2 400 g tins", "amount_unreadable"),
        ("3 tins (400 g)", "amount_unreadable"),
        ("4 oz 2 lb", "amount_unreadable"),
        ("1 cup 50 g", "amount_unreadable"),
        ("2 tins 400 g", "amount_unreadable"),
        ("3-2 g", "amount_unreadable"),
        ("2 g - 3 ml", "amount_unreadable"),
        ("2 tins or 300 g", "amount_unreadable"),
        ("½ x 750 ml", "amount_unreadable"),
        ("2 g x 3 g", "amount_unreadable"),
        ("a bunch of parsley", "number_unreadable"),
        ("parsley of 2", "amount_unreadable"),
        ("2 x", "number_unreadable"),
        ("9" * 101, "amount_unreadable"),
        ("nan g", "number_unreadable"),
        ("inf kg", "number_unreadable"),
        ("-5 g", "amount_negative"),
        ("−5 g", "amount_negative"),
        ("1,500 g", "number_ambiguous"),
        ("1e3 g", "unit_unknown"),
        ("500 g/ml", "amount_unreadable"),
        ("9**9**9", "number_unreadable"),
        ("5 kilobunch", "unit_unknown"),
        ("1 T", "unit_ambiguous"),
        ("1 t", "unit_ambiguous"),
        ("1 c", "unit_ambiguous"),
        ("250 gr", "unit_ambiguous"),
        ("5 MG", "unit_ambiguous"),
        ("1 pint", "unit_not_in_system"),
        ("2 fl oz", "unit_not_in_system"),
        ("1000001 kg", "amount_too_large"),
        ("1000000 x 1001 l", "amount_too_large"),
        ("1000000001 tins", "amount_too_large"),
    ],
)
def test_MS2_what_is_not_understood_is_refused_not_guessed(text: str, code: str) -> None:
    with pytest.raises(UnreadableInput) as refused:
        read_amount(text, METRIC)
    assert refused.value.code == code
    assert refused.value.problem
    assert refused.value.todo


def test_MS2_a_house_that_writes_a_decimal_comma_reads_its_own_thousands() -> None:
    assert read_amount("1.500 g", METRIC, decimal_mark=",") == Amount(Fraction(1500), "g")
    assert read_amount("1,500 g", METRIC, decimal_mark=",") == Amount(Fraction(3, 2), "g")
    assert read_amount("1,500 g", METRIC, decimal_mark=".") == Amount(Fraction(1500), "g")


def grams(amount: str, **facts: Fraction) -> Fraction:
    return in_base_units(read_amount(amount, US), BaseUnit.G, **facts)


def test_MS3_a_density_leads_from_volume_to_mass_and_back() -> None:
    honey = Fraction("1.42")
    assert grams("100 ml", density=honey) == 142
    assert in_base_units(read_amount("142 g", US), BaseUnit.ML, density=honey) == 100


def test_MS3_a_piece_weight_leads_from_count_to_mass_and_back() -> None:
    assert grams("3", piece_weight=Fraction(150)) == 450
    assert (
        in_base_units(read_amount("1 kg", US), BaseUnit.EACH, piece_weight=Fraction(150))
        == Fraction(1000) / 150
    )


def test_MS3_count_and_volume_need_both_facts() -> None:
    facts = {"density": Fraction("1.03"), "piece_weight": Fraction(50)}
    millilitres = in_base_units(read_amount("4", US), BaseUnit.ML, **facts)
    assert millilitres == Fraction(200) / Fraction("1.03")
    assert in_base_units(Amount(millilitres, "ml"), BaseUnit.EACH, **facts) == 4


def test_MS3_the_size_of_a_tin_is_a_fact_of_the_item() -> None:
    tins = read_amount("3 tins", METRIC)
    assert in_base_units(tins, BaseUnit.G, words={"tin": Fraction(400)}) == 1200
    assert read_quantity("3 tins", TOMATOES, METRIC, words={"tin": Fraction(400)}) == 1_200_000


@pytest.mark.parametrize(
    ("text", "item", "code", "fact"),
    [
        ("2 lb", MILK, "density_missing", "density"),
        ("3", TOMATOES, "piece_weight_missing", "piece weight"),
        ("3", MILK, "piece_weight_missing", "piece weight"),
        ("1 l", EGGS, "density_missing", "density"),
        ("3 tins", TOMATOES, "word_size_missing", "size of one tin"),
        ("a bunch", EGGS, "word_size_missing", "size of one bunch"),
    ],
)
def test_MS3_a_missing_fact_is_refused_by_name(text: str, item: Item, code: str, fact: str) -> None:
    with pytest.raises(MissingFact) as refused:
        read_quantity(text, item, IMPERIAL)
    assert refused.value.code == code
    assert f"The {fact} of {item.name} is not known." == refused.value.problem


@pytest.mark.parametrize("fact", ["density", "piece_weight"])
@pytest.mark.parametrize("size", [0, -1])
def test_MS3_a_fact_is_above_nothing(fact: str, size: int) -> None:
    amount = "1 l" if fact == "density" else "1 each"
    with pytest.raises(UnreadableInput) as refused:
        grams(amount, **{fact: Fraction(size)})
    assert refused.value.code == "fact_not_positive"


@pytest.mark.parametrize("text", ["a bunch", "to taste", "", "3 cups", "-1"])
def test_MS3_an_item_that_is_not_counted_never_blocks_anything(text: str) -> None:
    assert read_quantity(text, PARSLEY, METRIC) == 0
    assert quantity_from_json({"value": "1", "unit": "each"}, PARSLEY) == 0


def test_MS1_a_quantity_is_rounded_once_half_even_to_whole_thousandths() -> None:
    assert to_thousandths(Fraction("0.0005")) == 0
    assert to_thousandths(Fraction("0.0015")) == 2
    assert to_thousandths(Fraction("0.0025")) == 2
    assert to_thousandths(Fraction("453.59237")) == 453_592
    assert read_quantity("1 lb", FLOUR, IMPERIAL) == 453_592
    assert read_quantity("1 1/2 cups", FLOUR, US) == 188_088  # 354.88235475 ml x 0.53 g/ml
    assert read_quantity("a dozen", EGGS, US) == 12_000
    assert read_quantity("⅓ each", EGGS, US) == 333


def test_MS1_the_largest_quantity_is_a_thousand_tonnes() -> None:
    assert to_thousandths(Fraction(10**9)) == 10**12
    with pytest.raises(UnreadableInput) as refused:
        to_thousandths(Fraction(10**9) + Fraction(1, 1000))
    assert refused.value.code == "amount_too_large"


@pytest.mark.parametrize(
    ("thousandths", "unit", "value"),
    [
        (1_250_000, BaseUnit.G, "1250"),
        (1_250, BaseUnit.G, "1.25"),
        (1, BaseUnit.ML, "0.001"),
        (0, BaseUnit.EACH, "0"),
        (-500, BaseUnit.G, "-0.5"),
        (10**12, BaseUnit.G, "1000000000"),
        (100, BaseUnit.EACH, "0.1"),
    ],
)
def test_MS1_a_quantity_as_json_is_plain_decimal_text(
    thousandths: int, unit: BaseUnit, value: str
) -> None:
    assert Quantity(thousandths, unit).as_json() == {"value": value, "unit": unit.value}
    assert json.loads(json.dumps(Quantity(thousandths, unit).as_json()))["value"] == value


def test_MS1_a_quantity_from_json_may_be_in_any_unit_with_one_size() -> None:
    assert quantity_from_json({"value": "1.250", "unit": "kg"}, FLOUR) == 1_250_000
    assert quantity_from_json({"value": "1", "unit": "us_cup"}, FLOUR) == 125_392
    assert quantity_from_json({"value": "100", "unit": "g"}, EGGS) == 2_000
    assert quantity_from_json({"value": "0.5", "unit": "l"}, MILK) == 500_000


@pytest.mark.parametrize(
    ("quantity", "code"),
    [
        ({"value": 1.25, "unit": "kg"}, "quantity_malformed"),
        ({"value": 1, "unit": "kg"}, "quantity_malformed"),
        ({"value": "1,25", "unit": "kg"}, "quantity_malformed"),
        ({"value": "1e3", "unit": "g"}, "quantity_malformed"),
        ({"value": "-1", "unit": "g"}, "quantity_malformed"),
        ({"value": "NaN", "unit": "g"}, "quantity_malformed"),
        ({"value": "", "unit": "g"}, "quantity_malformed"),
        ({"value": "1"}, "quantity_malformed"),
        ({"value": "1", "unit": None}, "quantity_malformed"),
        ({"value": "1", "unit": "g", "of": "flour"}, "quantity_malformed"),
        ({}, "quantity_malformed"),
        ({"value": "1", "unit": "cup"}, "unit_unknown"),
        ({"value": "1", "unit": "tin"}, "unit_unknown"),
        ({"value": "1", "unit": ""}, "unit_unknown"),
        ({"value": "999999999999999", "unit": "g"}, "amount_too_large"),
    ],
)
def test_MS1_a_malformed_quantity_is_refused(quantity: dict[str, object], code: str) -> None:
    with pytest.raises(UnreadableInput) as refused:
        quantity_from_json(quantity, FLOUR)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("thousandths", "unit", "text"),
    [
        (1_250_000, BaseUnit.G, "1.25 kg"),
        (350_000, BaseUnit.G, "350 g"),
        (1_500_000, BaseUnit.ML, "1.5 l"),
        (3_000, BaseUnit.EACH, "3"),
        (2_500, BaseUnit.EACH, "2.5"),
        (0, BaseUnit.G, "0 g"),
        (500, BaseUnit.G, "0.5 g"),
        (9_999, BaseUnit.G, "9.999 g"),
        (453_592, BaseUnit.G, "453.6 g"),
        (999_949, BaseUnit.ML, "999.9 ml"),
        (999_950, BaseUnit.ML, "1 l"),
        (12_345_678, BaseUnit.G, "12.346 kg"),
        (-350_000, BaseUnit.G, "-350 g"),
    ],
)
def test_MS1_a_quantity_is_shown_as_people_say_it(
    thousandths: int, unit: BaseUnit, text: str
) -> None:
    assert show(thousandths, unit) == text


def test_MS2_a_decimal_comma_is_shown_where_the_house_writes_one() -> None:
    assert show(1_250_000, BaseUnit.G, decimal_mark=",") == "1,25 kg"
    assert show(2_500, BaseUnit.EACH, decimal_mark=",") == "2,5"


@pytest.mark.parametrize(
    ("text", "asked", "answer"),
    [
        ("1 1/2 cups", {}, ("354.882", "ml")),
        ("1 lb", {}, ("453.592", "g")),
        ("a dozen", {}, ("12", "each")),
        ("2 cups", {"to": "g", "density": Fraction("0.53")}, ("250.784", "g")),
        ("250 g", {"to": "cup", "density": Fraction(1)}, ("1.05669", "us_cup")),
        ("3", {"to": "g", "piece_weight": Fraction(50)}, ("150", "g")),
        ("1250.5 g", {"to": "kg"}, ("1.2505", "kg")),
        ("1 cup", {"to": "cup"}, ("1", "us_cup")),
        ("½ cup", {"to": "tbsp"}, ("8", "us_tbsp")),
        ("1 kg", {"to": "mg"}, ("1000000", "mg")),
    ],
)
def test_MS2_a_conversion_answers_in_the_unit_asked_for(
    text: str, asked: dict[str, str], answer: tuple[str, str]
) -> None:
    converted = convert(text, system=US, **asked)
    assert (converted["value"], converted["unit"]) == answer


def test_MS3_a_conversion_without_its_fact_is_refused() -> None:
    for text, to, code in (
        ("2 cups", "g", "density_missing"),
        ("3", "g", "piece_weight_missing"),
        ("3 tins", None, "word_size_missing"),
        ("3 tins", "g", "word_size_missing"),
    ):
        with pytest.raises(MissingFact) as refused:
            convert(text, system=US, to=to)
        assert refused.value.code == code
    with pytest.raises(UnreadableInput) as unknown:
        convert("3", system=US, to="tin")
    assert unknown.value.code == "unit_unknown"
