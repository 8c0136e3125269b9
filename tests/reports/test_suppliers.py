"""The suppliers' calendars as they are told (PL2): the demo house over Easter 2027."""

from datetime import UTC, datetime

import pytest

from pantry.reports.suppliers import suppliers
from tests.reports.demo_house import asked, one

EASTER_WEEK = datetime(2027, 3, 22, 7, tzinfo=UTC)


@pytest.fixture(scope="module")
def told(house):
    return asked(house, suppliers, at=EASTER_WEEK)


def on(told, supplier, day):
    return one(one(told, supplier=supplier)["coming"], on=day)


def test_PL2_a_delivery_that_is_moved_says_from_when_to_when(told):
    """As the sheet has it: Friday 26 March comes on Thursday 25; cut-off two days before, 10:00."""
    moved = on(told, "Kelderay Boat Stores", "2027-03-26")
    assert (moved["comes_on"], moved["delivery"]) == ("2027-03-25", "2027-03-25T14:00:00Z")
    assert (moved["cutoff"], moved["order_by"]) == ("2027-03-23T10:00:00Z", "2027-03-23T09:40:00Z")


def test_PL2_a_delivery_that_falls_away_is_told_without_a_time(told):
    gone = on(told, "Tolsaig Bakehouse", "2027-03-26")
    assert (gone["comes_on"], gone["delivery"], gone["order_by"]) == (None, None, None)


def test_PL2_a_cut_off_on_a_day_without_orders_is_marked(told):
    """No orders on Easter Monday: those for Tuesday end on Saturday 27 March, 22:00 GMT."""
    early = on(told, "Port Quillan Fish Market", "2027-03-30")
    assert (early["cutoff_moved"], early["cutoff"]) == (True, "2027-03-27T22:00:00Z")


def test_terms_that_nobody_gave_are_null(told):
    row = one(told, supplier="Kelderay Boat Stores")
    assert (row["may_fail"], row["fails_percent"], row["holidays"]) == (True, None, None)
    assert row["minimum"] == {"minor": 6000, "currency": "GBP"}
