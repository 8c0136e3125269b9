"""What dies, thaws, is past its best or stands forgotten in the demo house, where a person looks.

The dates are those of the invented labels in `seed/`; the house and its food are invented. In a
real kitchen the label in the hand, local codes and licensed practice come first.
"""

from decimal import Decimal

from pantry.reports.coverage import coverage
from pantry.reports.plan import plan
from pantry.reports.stock import stock
from pantry.reports.use_first import use_first
from tests.reports.demo_house import one, only, value

SATURDAY_DINNER = "2027-03-13/dinner/family"
VENISON = {
    "service": "2027-03-11/dinner/family",
    "dish": "Venison casserole with juniper",
}


def given(row):
    """What a dish is given of which label, in the item's base unit."""
    return [(part["label"], value(part["quantity"])) for part in row["from"]]


def test_SL2_two_litres_of_cream_that_die_on_friday_do_not_count_for_saturday(told):
    cream = one(told(stock), label="B-0004")
    assert cream["usable_until"] == "2027-03-12T23:59:59Z"
    assert value(cream["on_hand"]) == 2000
    wanted = [
        (SATURDAY_DINNER, "Lemon posset with shortbread", 1200),
        ("2027-03-13/lunch/family", "Spinach and goat's cheese tart", Decimal("187.5")),
        ("2027-03-14/lunch/family", "Rhubarb crumble with custard", Decimal("266.667")),
    ]
    for service, dish, quantity in wanted:
        row = one(told(coverage), service=service, dish=dish, item="Double cream")
        assert row["from"] == []
        assert (value(row["need"]), value(row["short"])) == (quantity, quantity)


def test_PL3_cream_for_saturday_is_ordered_of_the_creamery_by_friday_1650(told):
    row = one(told(plan), item="Double cream", supplier="Tolsaig Creamery")
    assert row["order_by"] == "2027-03-12T16:50:00Z"
    assert row["delivery"] == "2027-03-13T06:45:00Z"
    assert (row["pack"], row["packs"], value(row["net"])) == ("1 l tub", 2, Decimal("1387.5"))
    assert row["because"] == ["2027-03-13/lunch/family", SATURDAY_DINNER]


def test_SL3_an_opened_carton_of_buttermilk_ends_on_its_fifth_day_not_on_its_use_by(told):
    carton = one(told(stock), label="B-0010")
    assert carton["date_mark"] == {"kind": "use_by", "date": "2027-03-17"}
    assert carton["usable_until"] == "2027-03-12T23:59:59Z"
    pancakes = one(
        told(coverage),
        service="2027-03-13/supper/children",
        dish="Buttermilk pancakes",
        item="Buttermilk",
    )
    assert pancakes["from"] == []
    assert value(pancakes["short"]) == value(pancakes["need"]) == Decimal("221.801")
    order = one(told(plan), item="Buttermilk")
    assert order["order_by"] == "2027-03-12T16:50:00Z"
    assert order["delivery"] == "2027-03-13T06:45:00Z"
    assert (order["packs"], order["because"]) == (1, ["2027-03-13/supper/children"])


def test_RQ2_venison_is_out_of_the_freezer_by_2130_for_a_marinade_at_0930_next_day(told):
    whole = one(told(coverage), **VENISON, variant=None, item="Venison shoulder, diced")
    assert given(whole) == [("B-0241", Decimal(600))]
    without = one(
        told(coverage), **VENISON, variant="without alcohol", item="Venison shoulder, diced"
    )
    assert given(without) == [("B-0241", Decimal(200))]
    for row in (whole, without):
        assert row["wanted_by"] == "2027-03-11T09:30:00Z"
        assert row["from"][0]["thaw_from"] == "2027-03-10T21:30:00Z"
        assert "thaw" in row["flags"]
    shelf = one(told(stock), label="B-0241")
    assert (shelf["state"], shelf["area"]) == ("frozen", "Outhouse freezer")


def test_SL2_redcurrant_jelly_past_its_best_is_counted_and_flagged(told):
    jelly = one(told(stock), label="B-0127")
    assert (jelly["flagged"], jelly["usable"]) == (True, True)
    assert jelly["good_until"] == "2027-02-28T23:59:59Z"
    row = one(told(coverage), **VENISON, variant=None, item="Redcurrant jelly")
    assert given(row) == [("B-0127", Decimal("30.434"))]
    assert value(row["short"]) == 0
    assert "past_its_best" in row["flags"]
    first = one(told(use_first), label="B-0127")
    assert first["past"] == "good_until"
    assert first["could_use"][0] == {"dish": VENISON["dish"], "service": VENISON["service"]}


def test_SL2_what_the_freezer_forgot_is_to_be_used_first(told):
    raspberries = one(told(use_first), label="B-0247")
    assert raspberries["area"] == "Outhouse freezer"
    assert raspberries["past"] == "good_until"
    assert raspberries["usable_until"] is None
    assert raspberries["good_until"] == "2027-02-26T23:59:59Z"
    assert value(raspberries["available"]) == 750
    assert {"dish": "Raspberry cranachan", "service": "2027-03-19/dinner/family"} in raspberries[
        "could_use"
    ]
    chicken = one(told(use_first), label="B-0250")
    assert (chicken["past"], chicken["good_until"]) == (None, "2027-03-11T23:59:59Z")
    assert value(chicken["available"]) == 2000
    assert "Pheasant with barley and bacon" in {use["dish"] for use in chicken["could_use"]}
    order = [row["label"] for row in told(use_first)]
    assert order.index("B-0247") == 0
    assert only(told(stock), label="B-0247")[0]["flagged"]
