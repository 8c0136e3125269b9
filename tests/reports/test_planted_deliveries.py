"""What is short, what may not come and what nobody brings any more to the demo house."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from pantry.reports.coverage import coverage
from pantry.reports.notice import longer_notice, notice
from pantry.reports.plan import plan
from pantry.reports.stock import stock
from tests.reports.demo_house import one, only, value

SALMON = {"service": "2027-03-13/dinner/family", "item": "Smoked salmon"}
HAKE = {"service": "2027-03-12/dinner/family", "item": "Hake fillet"}
RISOTTO = {"service": "2027-03-17/dinner/family", "dish": "Wild mushroom risotto"}
GOOD_FRIDAY, EASTER_MONDAY = date(2027, 3, 26), date(2027, 3, 29)


def test_PL1_one_leg_of_lamb_is_short_and_can_only_come_on_saturday(told):
    row = one(
        told(coverage), service="2027-03-14/lunch/family", item="Leg of lamb", state="confirmed"
    )
    assert (value(row["need"]), value(row["short"])) == (2, 1)
    assert [(part["delivery"], value(part["quantity"])) for part in row["from"]] == [
        ("dunmarrow-butchers/2027-03-13", 1)
    ]
    assert row["mend_until"] == row["choose_by"] == "2027-03-12T14:45:00Z"
    order = one(told(plan), item="Leg of lamb")
    assert (order["supplier"], order["packs"]) == ("Dunmarrow Butchers", 1)
    assert order["order_by"] == "2027-03-12T14:45:00Z"
    assert order["delivery"] == "2027-03-13T09:00:00Z"
    after = datetime(2027, 3, 12, 14, 46, tzinfo=UTC)
    late = one(told(plan, at=after), item="Leg of lamb")
    assert (late["alert"], late["packs"], value(late["net"])) == ("missed", 0, 1)
    assert [way for way in late["ways_out"] if way["kind"] not in ("another_dish", "shop_run")] == [
        {
            "kind": "fewer_portions",
            "service": "2027-03-14/lunch/family",
            "dish": "Roast leg of lamb with rosemary",
            "portions": 6,
        }
    ]
    assert late["ways_out"][-1]["quantity"] == {"value": "1", "unit": "each"}


def test_PL2_smoked_salmon_is_covered_only_if_the_boat_comes(told):
    row = one(told(coverage), **SALMON)
    (part,) = row["from"]
    assert part["delivery"] == "kelderay-boat-stores/2027-03-12"
    assert (part["ready"], value(part["quantity"])) == ("2027-03-12T14:00:00Z", 560)
    assert value(row["short"]) == 0
    assert "may_not_come" in row["flags"]


def test_PL2_hake_is_covered_only_if_the_boat_comes_and_two_frozen_packs_stand_behind_it(told):
    row = one(told(coverage), **HAKE)
    assert {part["delivery"] for part in row["from"]} == {"port-quillan-fish-market/2027-03-12"}
    assert {part["ready"] for part in row["from"]} == {"2027-03-12T07:30:00Z"}
    assert sum(value(part["quantity"]) for part in row["from"]) == value(row["need"]) == 1080
    assert "may_not_come" in row["flags"]
    frozen = one(told(stock), item="Hake fillet")
    assert (frozen["label"], frozen["state"]) == ("B-0202", "frozen")
    assert value(frozen["available"]) == 1000


def test_PL2_what_a_sure_supplier_brings_is_not_said_to_be_in_doubt(told):
    lamb = one(told(coverage), service="2027-03-14/lunch/family", item="Leg of lamb")
    assert "may_not_come" not in lamb["flags"]


def test_PL5_duck_is_chosen_by_sunday_0940_for_the_boat_before_the_last(told):
    rows = only(told(coverage), service="2027-03-19/dinner/family", dish="Duck breast with rhubarb")
    duck = one(rows, item="Duck breast")
    assert (value(duck["need"]), value(duck["short"])) == (6, 4)
    assert [(part["label"], value(part["quantity"])) for part in duck["from"]] == [("B-0240", 2)]
    assert {row["choose_by"] for row in rows} == {"2027-03-14T09:40:00Z"}
    assert all("choose_early" in row["flags"] for row in rows)


def test_PL5_saddle_of_venison_is_chosen_eleven_days_early(told):
    rows = only(told(coverage), dish="Saddle of venison with redcurrant")
    saddle = one(rows, item="Venison saddle")
    assert value(saddle["short"]) == value(saddle["need"]) == 1500
    assert {row["choose_by"] for row in rows} == {"2027-03-13T09:30:00Z"}
    assert {row["service"] for row in rows} == {"2027-03-24/dinner/family"}
    assert all("choose_early" in row["flags"] for row in rows)


def test_PL5_a_risotto_whose_rice_cannot_come_any_more_is_missed_when_it_is_proposed(told):
    rice = one(told(coverage), **RISOTTO, item="Arborio rice")
    assert (value(rice["need"]), value(rice["short"])) == (320, 240)
    assert [(part["label"], value(part["quantity"])) for part in rice["from"]] == [("B-0104", 80)]
    assert rice["mend_until"] == "2027-03-08T11:30:00Z"
    assert "cannot_be_had" in rice["flags"]
    assert "choose_early" not in rice["flags"]
    ways = rice["ways_out"]
    (pudding,) = [way for way in ways if way["kind"] == "substitute"]
    assert (pudding["item"], pudding["quantity"]) == (
        "Pudding rice",
        {"value": "240", "unit": "g"},
    )
    assert pudding["buy"] is None
    assert "another_dish" in {way["kind"] for way in ways}
    assert "another_supplier" not in {way["kind"] for way in ways}


def test_PL5_no_boat_no_mussels_but_the_sea_kale_beside_them(told):
    rows = only(told(coverage), service="2027-03-16/dinner/family", course="starter")
    mussels = one(rows, item="Mussels")
    assert (value(mussels["need"]), value(mussels["short"])) == (2000, 2000)
    assert (mussels["mend_until"], mussels["choose_by"]) == (None, None)
    assert "cannot_be_had" in mussels["flags"]
    kale = only(rows, dish="Sea kale with lemon butter")
    assert kale
    assert {value(row["short"]) for row in kale} == {0}
    assert not any("cannot_be_had" in row["flags"] for row in kale)


def test_PL6_what_notice_does_not_suffice_for_is_kept_in_and_says_on_which_meals(told):
    for item, needed, by in [
        ("Venison saddle", "PT343H30M", "PT243H"),
        ("Arborio rice", "PT240H15M", "PT97H"),
        ("Rapeseed oil", "PT247H30M", "PT97H"),
    ]:
        row = one(told(notice), item=item)
        assert (row["verdict"], row["needed"]) == ("kept_in", needed)
        assert {"weekday": "monday", "meal": "lunch", "by": by} in row["fails"]
        assert len(row["fails"]) == 21
    assert one(told(notice), item="Duck breast")["verdict"] == "kept_in"
    fortnightly = one(told(notice), item="Pearl barley")
    assert fortnightly["verdict"] == "kept_in"


def test_PL6_a_longer_notice_lets_the_house_buy_what_it_had_to_keep_in(told):
    lengths = {row["notice"]: row for row in told(longer_notice)}
    own = lengths["PT72H"]
    assert (own["is_own"], own["gained"], own["lost"]) == (True, [], [])
    kept = {row["item"] for row in told(notice) if row["verdict"] == "kept_in"}
    assert own["kept_in"] == len(kept)
    # ten days and a quarter of an hour are not enough within ten days
    assert "Arborio rice" not in lengths["PT240H"]["gained"]
    assert "Arborio rice" in lengths["PT264H"]["gained"]
    assert {name for row in lengths.values() for name in row["gained"]} <= kept


def test_PL1_rapeseed_oil_below_par_is_ordered_up_to_its_level_at_the_next_delivery(told):
    on_hand = sum(value(row["on_hand"]) for row in only(told(stock), item="Rapeseed oil"))
    assert on_hand == 1550
    row = one(told(plan), item="Rapeseed oil")
    assert (row["supplier"], row["because"]) == ("Quillan Dry Goods", ["par"])
    assert row["delivery"] == "2027-03-25T10:00:00Z"
    assert (value(row["net"]), row["packs"]) == (4755, 2)


def test_PL1_white_wine_falls_below_par_with_the_hake_and_a_case_is_ordered(told):
    stood = one(told(stock), item="White wine for cooking")
    assert [value(stood[part]) for part in ("on_hand", "promised", "available")] == [
        1500,
        375,
        1125,
    ]
    row = one(told(plan), item="White wine for cooking")
    assert (value(row["net"]), row["pack"], row["packs"]) == (3375, "case of 6 x 750 ml", 1)
    assert row["order_by"] == "2027-03-10T09:40:00Z"
    assert row["alert"] == "open"


def test_PL2_over_easter_deliveries_and_cut_offs_move_and_nobody_comes_who_is_closed(told):
    at = datetime(2027, 3, 24, 7, tzinfo=UTC)
    rows = told(plan, at=at)
    zone = ZoneInfo("Europe/London")
    brought = {
        (row["supplier"], datetime.fromisoformat(row["delivery"]).astimezone(zone).date())
        for row in rows
        if row["packs"]
    }
    assert not {day for _, day in brought} & {EASTER_MONDAY}
    closed = {"Tolsaig Bakehouse", "Tolsaig Village Shop", "Port Quillan Fish Market"}
    assert not {supplier for supplier, day in brought if day == GOOD_FRIDAY} & closed
    cream = one(rows, item="Double cream", supplier="Tolsaig Creamery")
    assert cream["delivery"] == "2027-03-30T05:45:00Z"
    assert cream["order_by"] == "2027-03-28T15:50:00Z"
    # Quillan Dry Goods does not come on 1 April; a fortnight after 25 March is 8 April.
    assert one(rows, item="Rapeseed oil")["delivery"] == "2027-04-08T09:00:00Z"
