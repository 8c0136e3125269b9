"""What is expected at the back door, against the demo house's orders, and what has come of it."""

from decimal import Decimal

import pytest

from pantry.reports.expected import expected
from tests.commands.house import at, use_by
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, sheet, value

ORDER = "hill-dairy/2027-03-09"


@pytest.fixture(scope="module")
def coming(house):
    return asked(house, expected)


def test_every_line_on_order_is_expected_with_its_pack(coming):
    packs = {(row["supplier"], row["item"], row["pack"]): row for row in sheet("packs")}
    lines = [
        (row["supplier"], row["at"][:10], line["item"], line["pack"], line["packs"])
        for row in coming
        for line in row["lines"]
    ]
    columns = ("supplier", "delivery_date", "item", "pack")
    ordered = [(*(row[name] for name in columns), int(row["packs"])) for row in sheet("orders")]
    assert sorted(ordered) == sorted(lines)
    for supplier, line in ((row["supplier"], line) for row in coming for line in row["lines"]):
        told_of = packs[supplier, line["item"], line["pack"]]
        life, gtin = told_of["life_on_arrival_days"], told_of["gtin"]
        assert line["life_on_arrival_days"] == (int(life) if life else None)
        assert line["gtin"] == (gtin.zfill(14) if gtin else None)


def test_it_comes_in_the_order_of_deliveries_at_the_suppliers_time(coming):
    instants = [row["at"] for row in coming]
    assert instants == sorted(instants)
    lamb = one(coming, order="dunmarrow-butchers/2027-03-13")
    assert (lamb["at"], lamb["supplier_id"]) == ("2027-03-13T09:00:00Z", "dunmarrow-butchers")


def test_a_line_says_where_it_goes_and_whether_it_is_high_risk(coming):
    items = {row["item"]: row for row in sheet("items")}
    for row in coming:
        for line in row["lines"]:
            item = items[line["item"]]
            assert line["area"] == (item["area"] or None)
            assert line["high_risk"] == (item["high_risk"] == "yes")
            assert line["counted"] == (item["counted"] != "no")


def test_nothing_has_come_yet(coming):
    crate = one(one(coming, order="tolsaig-creamery/2027-03-10")["lines"], item="Whole milk")
    assert crate["quantity"] == crate["outstanding"] == {"value": "12000", "unit": "ml"}
    assert value(crate["received"]) == Decimal(0)


def test_AL1_a_line_says_which_services_wait_for_it(coming):
    """The salmon is for Saturday's dinner, the leg for Sunday's lunch; nobody waits for water."""
    boat = one(coming, order="kelderay-boat-stores/2027-03-12")["lines"]
    assert one(boat, item="Smoked salmon")["for"] == ["2027-03-13/dinner/family"]
    assert one(boat, item="Sparkling water")["for"] == []
    pears = one(one(coming, order="whinhope-greengrocers/2027-03-10")["lines"], item="Pears")
    assert pears["for"][-2:] == ["2027-03-12/lunch/family", "2027-03-12/dinner/family"]
    (leg,) = one(coming, order="dunmarrow-butchers/2027-03-13")["lines"]
    assert leg["for"] == ["2027-03-14/lunch/family"]


def test_SY10_no_price_stands_in_it(coming):
    assert not any("minor" in str(row) or "price" in str(row) for row in coming)


def test_what_came_is_outstanding_no_more_and_an_order_that_came_is_gone(lodge):
    lines = [
        {"item": "Whole milk", "pack": "2 l bottle", "packs": 2},
        {"item": "Butter", "pack": "250 g block", "packs": 1},
    ]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    (before,) = told(lodge, expected)
    lodge.now = at(9, 7)
    lodge.receive("m", "whole-milk", "2 l", use_by(15), order=ORDER)
    (after,) = told(lodge, expected)
    milk = one(after["lines"], item="Whole milk")
    assert (value(milk["received"]), value(milk["outstanding"])) == (2000, 2000)
    assert after["version"] == before["version"]
    lodge.receive("n", "whole-milk", "3 l", use_by(15), order=ORDER)
    milk = one(told(lodge, expected)[0]["lines"], item="Whole milk")
    assert (value(milk["received"]), value(milk["outstanding"])) == (5000, 0)
    lodge.receive("b", "butter", "250 g", order=ORDER)
    assert told(lodge, expected) == []


def test_what_should_have_come_is_expected_still(lodge):
    line = {"item": "Butter", "pack": "250 g block", "packs": 1}
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": [line]})
    lodge.now = at(20)
    (row,) = told(lodge, expected)
    assert value(row["lines"][0]["outstanding"]) == 250
