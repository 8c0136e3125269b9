"""What in the house carries a scanned code: packs, items, batches, and how much of it."""

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import ItemRow, PackRow
from pantry.refusals import UnreadableInput
from pantry.reports.code import code
from pantry.rules.codes import read_code
from tests.commands.house import use_by
from tests.commands.larkfield import ID
from tests.reports.asking import told
from tests.reports.demo_house import NOW, asked, one, only, sheet

MILK = "09521234543213"
WEIGHED = "99521234543216"
"""With indicator 9: of goods sold by measure (GS1 General Specifications, section 2.1)."""

BOTTLE = "hill-dairy/whole-milk/2-l-bottle"
CRATE = "hill-dairy/whole-milk/crate-of-6-x-2-l"


def numbered(lodge, model, id_, gtin, **more):
    with writing(lodge.engine) as connection:
        change(connection, model, {"house": ID, "id": id_}, gtin=gtin, **more)


def matches(lodge, text):
    return told(lodge, code, text)[0]["matches"]


def test_it_says_what_read_code_says(house):
    """Computed; the same by biip 5.2.0."""
    text = "]d2010952123454321310LOT42A<GS>17270331"
    (row,) = asked(house, code, text)
    assert row["read"] == read_code(text, NOW.date()).as_json()
    assert (row["read"]["lot"], row["read"]["date_mark"]) == (
        "LOT42A",
        {"kind": "use_by", "date": "2027-03-31"},
    )


def test_every_number_of_the_demo_house_finds_all_that_carries_it(house):
    carried = {}
    for row in sheet("packs"):
        if row["gtin"]:
            found = ("pack", row["item"], row["pack"], row["supplier"])
            carried.setdefault(row["gtin"], set()).add(found)
    for row in sheet("items"):
        if row["gtin"]:
            carried.setdefault(row["gtin"], set()).add(("item", row["item"], None, None))
    assert len(carried) > 80
    for gtin, expected in list(carried.items())[::7]:
        rows = asked(house, code, gtin)[0]["matches"]
        found = {(row["kind"], row["item"], row["pack"], row["supplier"]) for row in rows}
        assert found == expected, gtin


def test_a_case_and_a_single_have_what_each_holds(house):
    """The crate of six bottles of 2 l has the bottle's number with an indicator before it."""
    crate = one(asked(house, code, "19521234000379")[0]["matches"], kind="pack")
    bottle = one(asked(house, code, "9521234000372")[0]["matches"], kind="pack")
    assert crate["quantity"] == {"value": "12000", "unit": "ml"}
    assert bottle["quantity"] == {"value": "2000", "unit": "ml"}


def test_a_single_and_its_case_that_share_a_number_both_match(lodge):
    numbered(lodge, PackRow, BOTTLE, MILK)
    numbered(lodge, PackRow, CRATE, MILK)
    numbered(lodge, ItemRow, "whole-milk", MILK)
    found = matches(lodge, MILK.lstrip("0"))
    assert [(row["kind"], row["id"]) for row in found] == [
        ("pack", BOTTLE),
        ("pack", CRATE),
        ("item", "whole-milk"),
    ]
    assert [row["quantity"] and row["quantity"]["value"] for row in found] == [
        "2000",
        "12000",
        None,
    ]


def test_a_number_is_the_same_with_or_without_its_leading_zeros(lodge):
    numbered(lodge, PackRow, BOTTLE, MILK.lstrip("0"))
    for text in (MILK, MILK.lstrip("0"), f"(01){MILK}"):
        assert [row["id"] for row in matches(lodge, text)] == [BOTTLE]


def test_MS1_a_weighed_pack_has_the_weight_that_its_code_gives(lodge):
    """AI 3103: kilograms with three decimals (GS1 General Specifications, section 3.6.1)."""
    numbered(lodge, PackRow, "bruns-butcher/chicken-bones/1-kg-bag", WEIGHED)
    (found,) = matches(lodge, f"(01){WEIGHED}(3103)001250")
    assert found["quantity"] == {"value": "1250", "unit": "g"}


def test_MS2_a_volume_in_gallons_is_one_of_the_us(lodge):
    """AI 3610: 1 US gallon = 231 cubic inches = 3.785411784 l (NIST Handbook 44, appendix C)."""
    numbered(lodge, ItemRow, "whole-milk", WEIGHED)
    (found,) = matches(lodge, f"(01){WEIGHED}(3610)000001")
    assert found["quantity"] == {"value": "3785.412", "unit": "ml"}


def test_MS3_a_weight_of_what_is_measured_in_ml_is_not_guessed(lodge):
    numbered(lodge, ItemRow, "whole-milk", WEIGHED)
    text = f"(01){WEIGHED}(3103)001250"
    assert matches(lodge, text)[0]["quantity"] is None
    assert told(lodge, code, text)[0]["read"]["quantity"] == {"value": "1.250", "unit": "kg"}
    numbered(lodge, ItemRow, "whole-milk", WEIGHED, density="5/4")
    assert matches(lodge, text)[0]["quantity"] == {"value": "1000", "unit": "ml"}


def test_so_many_inside_a_unit_are_so_many_packs(lodge):
    """Computed; the same by biip 5.2.0: twelve of product 95012345678903 in one unit."""
    numbered(lodge, PackRow, BOTTLE, "95012345678903")
    (found,) = matches(lodge, "]C10037610425002123456902950123456789033712")
    assert found["quantity"] == {"value": "24000", "unit": "ml"}


def test_a_count_of_pieces_is_so_many_of_an_item_in_each(lodge):
    """AI 30: a variable count (GS1 General Specifications, section 3.6)."""
    numbered(lodge, ItemRow, "eggs", WEIGHED)
    (found,) = matches(lodge, f"(01){WEIGHED}(30)18")
    assert found["quantity"] == {"value": "18", "unit": "each"}


def test_an_item_that_nobody_counts_has_no_quantity(lodge):
    numbered(lodge, ItemRow, "salt", WEIGHED)
    (found,) = matches(lodge, f"(01){WEIGHED}(3103)001250")
    assert (found["item"], found["quantity"]) == ("Salt", None)


def test_a_shops_own_number_matches_what_has_that_very_number(lodge):
    """A number of restricted circulation, of which no layout is known, gives no weight."""
    numbered(lodge, ItemRow, "salmon", "2012301928752")
    (row,) = told(lodge, code, "2012301928752")
    assert row["read"]["warnings"] == ["store_number_not_global"]
    assert [(each["kind"], each["item"]) for each in row["matches"]] == [("item", "Salmon")]


def test_a_lot_finds_what_stands_of_it_and_no_other(lodge):
    numbered(lodge, PackRow, BOTTLE, MILK)
    lodge.receive("m", "whole-milk", "2 l", use_by(12), lot="L1")
    lodge.receive("n", "whole-milk", "2 l", use_by(13), lot="L2")
    lodge.receive("b", "butter", "250 g", lot="L1")
    lodge.receive("gone", "whole-milk", "1 l", use_by(12), lot="L1")
    waste = {"batch": "gone", "quantity": "1 l", "reason": "spilt", "destination": "drain"}
    lodge.do("waste", waste)
    (batch,) = only(matches(lodge, f"(01){MILK}(10)L1"), kind="batch")
    assert (batch["id"], batch["quantity"]) == ("m", {"value": "2000", "unit": "ml"})


def test_a_label_finds_its_batch_and_what_there_is_of_it(house):
    (row,) = asked(house, code, "B-0004")
    assert row["read"]["label"] == "B-0004"
    (batch,) = row["matches"]
    assert (batch["kind"], batch["item"], batch["label"]) == ("batch", "Double cream", "B-0004")
    assert batch["quantity"] == {"value": "2000", "unit": "ml"}


def test_a_label_is_found_behind_what_a_scanner_says_of_its_symbology(house):
    """`]C0`: Code 128, `]Q1`: QR Code (ISO/IEC 15424)."""
    for symbology in ("]C0", "]Q1"):
        (row,) = asked(house, code, f"{symbology}B-0004")
        assert [each["label"] for each in row["matches"]] == ["B-0004"]


def test_a_label_that_no_code_is_written_like_finds_its_batch(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12), label="Milk of Monday")
    (row,) = told(lodge, code, " Milk of Monday ")
    assert row["read"]["label"] == "Milk of Monday"
    assert [each["id"] for each in row["matches"]] == ["m"]


@pytest.mark.parametrize(
    ("text", "why"), [("9521234000373", "wrong_check_digit"), ("?!", "not_a_code")]
)
def test_what_is_no_code_is_refused_and_not_guessed(lodge, text, why):
    with pytest.raises(UnreadableInput) as refused:
        told(lodge, code, text)
    assert refused.value.code == why


def test_a_number_that_nobody_knows_has_no_match(lodge):
    assert matches(lodge, MILK) == []
