"""A delivery that is called off: the boat does not sail (PL2, PL5, LG4)."""

import pytest

from pantry.records.tables import ClosureRow, OrderRow, SupplierTermsRow
from tests.commands.house import at
from tests.commands.larkfield import CHEF, MANAGER
from tests.commands.test_orders import TUESDAY, order
from tests.commands.test_settings import calendar

DINNER = "2027-03-12/dinner/family"


def off(day="2027-03-09", **more):
    return {"supplier": "Hill Dairy", "date": day, "reason": "Gale"} | more


def test_what_was_ordered_on_it_is_not_awaited_and_comes_back_when_it_sails_after_all(house):
    house.do("place_order", order())
    given = house.do("call_off_delivery", off(), person=CHEF)
    row = house.row(OrderRow, id=TUESDAY)
    assert (row.state, row.reason) == ("cancelled", "Gale")
    assert house.refuses("place_order", order()).code == "no_delivery_then"
    house.do("correct", {"command": given, "reason": "the wind dropped"})
    row = house.row(OrderRow, id=TUESDAY)
    assert (row.state, row.delivery_at) == ("open", at(9, 6, 45))
    assert house.rows(ClosureRow) == []
    again = {"command": given, "reason": "twice"}
    assert house.refuses("correct", again).code == "reversed_already"


def test_SY3_it_is_called_off_on_the_supplier_as_it_was_seen(house):
    """An order that somebody placed meanwhile would be cancelled unseen."""
    house.do("place_order", order())
    answer = house.give("call_off_delivery", off(), base=1)
    assert (answer.outcome, answer.problem.code) == ("conflict", "base_moved")
    house.do("call_off_delivery", off(), base=2)


def test_it_comes_on_another_day_and_its_orders_with_it(house):
    house.do("place_order", order())
    given = house.do("call_off_delivery", off(instead="2027-03-14"))
    row = house.row(OrderRow, id=TUESDAY)
    assert (row.state, row.delivery_at) == ("open", at(14, 6, 45))
    house.do("correct", {"command": given, "reason": "it sailed"})
    assert house.row(OrderRow, id=TUESDAY).delivery_at == at(9, 6, 45)


def test_PL5_the_deadlines_of_what_is_confirmed_are_reckoned_anew(house):
    house.menu(DINNER, "rice-pudding")
    assert house.needs(item="whole-milk")[0].last_order_by == at(11, 17)
    house.do("call_off_delivery", off("2027-03-12"))
    assert house.needs(item="whole-milk")[0].last_order_by == at(10, 17)


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (off(supplier="?"), "supplier_unknown"),
        (off("soon"), "date_unreadable"),
        (off("2027-03-14"), "nothing_comes_then"),
        (off(instead="2027-03-09"), "instead_earlier"),
        (off(instead="2027-01-01"), "instead_earlier"),
    ],
)
def test_what_cannot_be_called_off_is_refused(house, body, code):
    assert house.refuses("call_off_delivery", body).code == code


def test_PL2_a_calendar_keeps_holidays_and_has_its_own_zone(house):
    kept = {"country": "gb", "subdivision": "sct", "delivery": "day_before"}
    house.do("set_calendar", calendar(holidays=kept, zone="Europe/Dublin"), person=MANAGER)
    row = house.row(SupplierTermsRow)
    assert (row.country, row.subdivision, row.zone) == ("GB", "SCT", "Europe/Dublin")
    house.do("set_calendar", calendar(holidays={}, zone=""), person=MANAGER)
    row = house.row(SupplierTermsRow)
    assert (row.country, row.subdivision, row.zone) == (None, None, None)


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"holidays": {"country": "XX"}}, "country_unknown"),
        ({"zone": "Mars/Phobos"}, "zone_unknown"),
        (
            {"closures": [{"date": "2027-05-02", "what": "no_orders", "until": "2027-05-01"}]},
            "closure_ends_first",
        ),
    ],
)
def test_PL2_a_calendar_that_cannot_be_is_refused(house, more, code):
    assert house.refuses("set_calendar", calendar(**more), person=MANAGER).code == code


def test_a_calendar_that_is_written_anew_still_knows_what_was_called_off(house):
    given = house.do("call_off_delivery", off())
    closures = [{"date": "2027-03-09", "what": "no_delivery"}]
    house.do("set_calendar", calendar(closures=closures), person=MANAGER)
    assert house.row(ClosureRow).command == given
    house.do("correct", {"command": given, "reason": "it sailed"})
    assert house.rows(ClosureRow) == []
