"""Public holidays and what they move (PL2).

Dates: the bank holidays of England and Wales and of Scotland for 2027 as GOV.UK publishes them, and
the federal holidays of the United States for 2027 as its Office of Personnel Management does (New
Year's Day of 2028, a Saturday, is kept on 31 December); all from memory. Clock changes: the IANA
time zone database, as literals written out by hand (BST from 28 March 2027 01:00Z, EDT from 14
March 07:00Z).
"""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from pantry.refusals import UnreadableInput
from pantry.rules.closed_days import reason
from pantry.rules.deliveries import calendar_of, coming
from pantry.rules.house_time import zone
from pantry.rules.public_holidays import HolidayDelivery, HolidayRule, names
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Supplier

LONDON = zone("Europe/London")
ENGLAND_2027 = "01-01 03-26 03-29 05-03 05-31 08-30 12-27 12-28"
SCOTLAND_2027 = "01-01 01-04 03-26 05-03 05-31 08-02 11-30 12-27 12-28"
UNITED_STATES_2027 = "01-01 01-18 02-15 05-31 06-18 07-05 09-06 10-11 11-11 11-25 12-24 12-31"


def utc(text):
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def working_day_holidays(country, part):
    found = names(country, part, 2027)
    return " ".join(f"{day:%m-%d}" for day in found if day.weekday() < 5 and day.year == 2027)


@pytest.mark.parametrize(
    ("country", "part", "published"),
    [
        ("GB", "ENG", ENGLAND_2027),
        ("GB", "SCT", SCOTLAND_2027),
        ("US", None, UNITED_STATES_2027),
    ],
)
def test_PL2_the_holidays_on_working_days_are_those_published(country, part, published):
    assert working_day_holidays(country, part) == published


def test_PL2_a_country_nobody_knows_is_refused_by_name():
    with pytest.raises(UnreadableInput) as refused:
        names("GB", "ZZ", 2027)
    assert (refused.value.code, refused.value.value) == ("country_unknown", "GB-ZZ")


def keeps(delivery, *rules, country="GB", part="ENG", **more):
    return Supplier(
        "mill",
        "Mill",
        rules,
        holidays=HolidayRule(country, part, delivery, more.pop("orders_taken", False)),
        **more,
    )


def daily(*weekdays, days=1, cutoff=time(22)):
    return tuple(DeliveryRule(weekday, time(7), days, cutoff) for weekday in weekdays)


def of_days(supplier, first, last):
    start, end = utc(f"{first}T00:00"), utc(f"{last}T23:59")
    return [
        (f"{each.at:%m-%d %H:%M}", f"{each.cutoff:%m-%d %H:%M}")
        for each in coming(supplier, start, end, LONDON)
    ]


EASTER = [
    # Good Friday 26 March, Easter Monday 29 March; BST from 28 March; times UTC
    (HolidayDelivery.FALLS_AWAY, []),
    (HolidayDelivery.DAY_BEFORE, [("03-25 07:00", "03-24 22:00")]),
    # Monday 29 March moves to Tuesday 30; Friday 26 to the next working day, which is Tuesday too
    (HolidayDelivery.DAY_AFTER, [("03-30 06:00", "03-28 21:00")]),
]


@pytest.mark.parametrize(("rule", "comes"), EASTER)
def test_PL2_over_easter_a_delivery_moves_with_its_cut_off_as_the_rule_says(rule, comes):
    """A cut-off that would fall on Easter Monday falls on Sunday at the same wall time."""
    assert of_days(keeps(rule, *daily(0, 4)), "2027-03-23", "2027-03-31") == comes


def test_PL2_where_orders_are_taken_on_holidays_the_cut_off_stays():
    taken = keeps(HolidayDelivery.DAY_AFTER, *daily(0), orders_taken=True)
    assert of_days(taken, "2027-03-29", "2027-03-31") == [("03-30 06:00", "03-29 21:00")]


def test_PL2_christmas_in_a_supplier_s_own_zone():
    """New York: EST, five hours behind; 24 December 2027 is kept for Christmas Day, a Saturday."""
    baker = keeps(
        HolidayDelivery.DAY_BEFORE,
        *daily(4),
        country="US",
        part=None,
        zone=zone("America/New_York"),
    )
    assert of_days(baker, "2027-12-20", "2027-12-26") == [("12-23 12:00", "12-23 03:00")]


@pytest.mark.parametrize(
    ("place", "day", "at", "cutoff"),
    [
        ("Europe/London", "2027-03-29", "2027-03-29T06:00", "2027-03-28T21:00"),
        ("Europe/London", "2027-11-01", "2027-11-01T07:00", "2027-10-31T22:00"),
        ("America/New_York", "2027-03-15", "2027-03-15T11:00", "2027-03-15T02:00"),
        ("America/New_York", "2027-11-08", "2027-11-08T12:00", "2027-11-08T03:00"),
    ],
)
def test_PL2_both_clock_changes_in_the_supplier_s_zone(place, day, at, cutoff):
    supplier = Supplier("mill", "Mill", daily(0), zone=zone(place))
    noon = utc(f"{day}T12:00")
    (found,) = coming(supplier, noon - timedelta(hours=12), noon + timedelta(hours=12), LONDON)
    assert (found.at, found.cutoff) == (utc(at), utc(cutoff))


def test_PL2_out_of_season_nothing_comes_and_no_order_is_taken():
    first, last = date(2027, 5, 3), date(2027, 5, 16)
    shut = [Closure(first, kind, None, last, "No oysters") for kind in ClosureKind]
    oysters = Supplier("mill", "Mill", daily(0, days=3), tuple(shut))
    comes = of_days(oysters, "2027-04-26", "2027-05-17")
    assert comes == [("04-26 06:00", "04-23 21:00"), ("05-17 06:00", "05-02 21:00")]
    assert reason(oysters, date(2027, 5, 10)) == "No oysters"


def test_PL2_a_boat_that_does_not_sail_is_named_with_its_reason():
    off = Closure(date(2027, 3, 2), ClosureKind.NO_DELIVERY, reason="Gale from the west")
    boat = Supplier("boat", "Boat", daily(1, 4), (off,), may_fail=True)
    start = utc("2027-03-01T00:00")
    told = list(calendar_of(boat, start, start + timedelta(days=5), LONDON))
    assert [(each.on.day, each.delivery is not None) for each in told] == [(2, False), (5, True)]
    assert reason(boat, date(2027, 3, 2)) == "Gale from the west"


def test_PL2_a_holiday_has_its_name():
    mill = keeps(HolidayDelivery.FALLS_AWAY, *daily(0))
    assert reason(mill, date(2027, 3, 29)) == "Easter Monday"
    assert reason(mill, date(2027, 3, 30)) is None
