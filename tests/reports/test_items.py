"""Everything that is stocked, against the demo house's sheets."""

from collections import Counter

import pytest

from pantry.reports.items import items
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, sheet


@pytest.fixture(scope="module")
def stocked(house):
    return asked(house, items)


def test_every_item_is_there_by_name_with_what_the_sheet_says(stocked):
    written = {row["item"]: row for row in sheet("items")}
    assert [row["item"] for row in stocked] == sorted(written)
    for row in stocked:
        line = written[row["item"]]
        assert (row["unit"], row["group"], row["area"]) == (
            line["base_unit"],
            line["group"],
            line["area"] or None,
        )
        assert row["counted"] == (line["counted"] != "no")
        assert row["high_risk"] == (line["high_risk"] == "yes")
        assert row["whole"] == (line["whole"] == "yes")
        assert row["gtin"] == (line["gtin"].zfill(14) if line["gtin"] else None)


def test_every_pack_stands_under_its_item(stocked):
    written = Counter((row["item"], row["pack"], row["supplier"]) for row in sheet("packs"))
    found = Counter(
        (row["item"], pack["pack"], pack["supplier"]) for row in stocked for pack in row["packs"]
    )
    assert found == written


def test_SY10_no_price_stands_in_it(stocked):
    assert not any("minor" in str(row) or "price" in str(row) for row in stocked)


def test_only_what_nobody_counts_has_a_level(stocked):
    assert {row["level"] for row in stocked if row["counted"]} == {None}
    assert {row["level"] for row in stocked if not row["counted"]} == {"plenty"}


def test_a_level_is_as_it_was_last_set(lodge):
    lodge.do("set_level", {"item": "Salt", "level": "low"})
    assert one(told(lodge, items), item="Salt")["level"] == "low"


def test_AL3_unknown_is_not_free(stocked):
    """Nobody knows what the fudge contains; it is unknown for each of the fourteen of the law.

    Regulation (EU) No 1169/2011, Annex II, has fourteen.
    """
    unknown = {row["item"]: row["unknown"] for row in stocked if row["unknown"]}
    assert unknown.keys() == {"Island fudge"}
    assert len(unknown["Island fudge"]) == 14


def test_AL3_a_preparation_contains_what_goes_into_it(stocked):
    """Chicken stock: bones, carrots, onions, celery and herbs, of which celery is on the list."""
    stock = one(stocked, item="Chicken stock")
    assert (stock["contains"], stock["may_contain"], stock["unknown"]) == (["celery"], [], [])
    milk = one(stocked, item="Whole milk")
    assert milk["contains"] == ["milk"]
