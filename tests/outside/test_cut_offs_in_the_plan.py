"""What the plan tells to order by when: clock changes, public holidays, a boat in port (PL2, PL5).

Sources: the IANA time zone database for when each clock changes (London to BST on 28 March 2027 at
01:00Z and back on 31 October at 01:00Z; Sydney back to +10 on 3 April 2027 at 16:00Z and to +11 on
2 October at 16:00Z); RFC 5545, 3.3.5 (a wall time that does not exist is read with the offset
before the gap, one that exists twice is the first); Banking and Financial Dealings Act 1971 (Easter
Monday and the last Monday in August) and Public Holidays Act 2010 of New South Wales (Labour Day,
the first Monday in October), both from memory. Instants are written out by hand from those. That
nothing comes over a sea on which no boat sails: common practice, no source.
"""

from datetime import UTC, date, datetime, timedelta

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import HouseRow
from pantry.reports.plan import plan
from tests.commands.house import House, at
from tests.commands.larkfield import CHEF, ID, MANAGER, found_database, open_copy
from tests.reports.asking import told

LONDON, SYDNEY = "Europe/London", "Australia/Sydney"


@pytest.fixture(scope="module")
def founded(tmp_path_factory):
    return found_database(tmp_path_factory.mktemp("cut-offs") / "founded.db")


@pytest.fixture
def lodge(founded, tmp_path):
    engine = open_copy(founded, tmp_path / "lodge.db")
    yield House(engine)
    engine.dispose()


def found_at(lodge, zone, now):
    """The lodge in another part of the world, and at another time."""
    lodge.now = now
    with writing(lodge.engine) as connection:
        change(connection, HouseRow, {"id": ID}, zone=zone)


def comes_on_mondays(lodge, days_before, cutoff, **more):
    """The dairy comes once a week, at seven."""
    rule = {"weekday": "monday", "time": "07:00"}
    rule |= {"cutoff_days_before": days_before, "cutoff_time": cutoff}
    body = {"supplier": "Hill Dairy", "deliveries": [rule], "closures": []}
    lodge.do("set_calendar", body | more, person=MANAGER)


def milk(lodge):
    """The plan's one row for milk."""
    (row,) = [row for row in told(lodge, plan) if row["item"] == "Whole milk"]
    return row


def deadline(lodge):
    row = milk(lodge)
    return row["order_by"], row["delivery"], row["alert"]


MONDAYS = [
    # (house's zone, Monday, cut-off: days before, wall time) -> (order-by, delivery), UTC
    (LONDON, "2027-03-29", 1, "22:00", "2027-03-28T21:00", "2027-03-29T06:00"),
    (LONDON, "2027-03-29", 1, "01:30", "2027-03-28T01:30", "2027-03-29T06:00"),  # no such time
    (LONDON, "2027-03-29", 2, "22:00", "2027-03-27T22:00", "2027-03-29T06:00"),  # before it
    (LONDON, "2027-11-01", 1, "22:00", "2027-10-31T22:00", "2027-11-01T07:00"),
    (LONDON, "2027-11-01", 1, "01:30", "2027-10-31T00:30", "2027-11-01T07:00"),  # the first
    (LONDON, "2027-11-01", 2, "22:00", "2027-10-30T21:00", "2027-11-01T07:00"),  # before it
    (SYDNEY, "2027-04-05", 1, "22:00", "2027-04-04T12:00", "2027-04-04T21:00"),
    (SYDNEY, "2027-04-05", 1, "02:30", "2027-04-03T15:30", "2027-04-04T21:00"),  # the first
    (SYDNEY, "2027-04-05", 2, "22:00", "2027-04-03T11:00", "2027-04-04T21:00"),  # before it
    (SYDNEY, "2027-10-04", 1, "22:00", "2027-10-03T11:00", "2027-10-03T20:00"),
    (SYDNEY, "2027-10-04", 1, "02:30", "2027-10-02T16:30", "2027-10-03T20:00"),  # no such time
    (SYDNEY, "2027-10-04", 2, "22:00", "2027-10-02T12:00", "2027-10-03T20:00"),  # before it
]


@pytest.mark.parametrize(("zone", "monday", "days", "wall", "order_by", "comes"), MONDAYS)
def test_PL2_PL5_order_by_keeps_its_wall_time_over_both_clock_changes(
    lodge, zone, monday, days, wall, order_by, comes
):
    now = datetime.fromisoformat(monday).replace(tzinfo=UTC) - timedelta(days=4)
    found_at(lodge, zone, now)
    comes_on_mondays(lodge, days, wall)
    lodge.menu(f"{monday}/dinner/family", "rice-pudding")
    assert deadline(lodge) == (f"{order_by}:00Z", f"{comes}:00Z", "none")


@pytest.mark.parametrize(("zone", "monday", "days", "wall", "order_by", "comes"), MONDAYS)
def test_PL5_to_the_second_it_is_last_call_and_then_missed(
    lodge, zone, monday, days, wall, order_by, comes
):
    last = datetime.fromisoformat(order_by).replace(tzinfo=UTC)
    found_at(lodge, zone, last - timedelta(days=2))
    comes_on_mondays(lodge, days, wall)
    lodge.menu(f"{monday}/dinner/family", "rice-pudding")
    lodge.now = last
    assert deadline(lodge) == (f"{order_by}:00Z", f"{comes}:00Z", "last_call")
    lodge.now = last + timedelta(seconds=1)
    assert deadline(lodge) == (f"{order_by}:00Z", f"{comes}:00Z", "missed")


HOLIDAYS = [
    # (zone, country, part, day wanted, its delivery's Monday being a holiday) -> for each rule
    (LONDON, "GB", "ENG", "2027-03-30", "2027-03-28T21:00", "2027-03-30T06:00"),
    (LONDON, "GB", "ENG", "2027-08-31", "2027-08-29T21:00", "2027-08-31T06:00"),
    (SYDNEY, "AU", "NSW", "2027-10-05", "2027-10-03T11:00", "2027-10-04T20:00"),
]
"""Easter Monday and Labour Day come the day after the clocks change, too."""


@pytest.mark.parametrize(("zone", "country", "part", "tuesday", "order_by", "comes"), HOLIDAYS)
def test_PL2_a_holiday_moves_the_delivery_and_the_cut_off_that_the_plan_tells(
    lodge, zone, country, part, tuesday, order_by, comes
):
    """Monday's delivery comes on Tuesday; nobody takes orders on Monday, so on Sunday at ten."""
    found_at(lodge, zone, datetime.fromisoformat(tuesday).replace(tzinfo=UTC) - timedelta(days=6))
    kept = {"country": country, "subdivision": part, "delivery": "day_after"}
    comes_on_mondays(lodge, 1, "22:00", holidays=kept | {"orders_taken": False})
    lodge.menu(f"{tuesday}/dinner/family", "rice-pudding")
    assert deadline(lodge) == (f"{order_by}:00Z", f"{comes}:00Z", "none")


@pytest.mark.parametrize(("zone", "country", "part", "tuesday"), [case[:4] for case in HOLIDAYS])
def test_PL2_where_the_holiday_s_delivery_falls_away_the_monday_before_has_to_do(
    lodge, zone, country, part, tuesday
):
    """Milk of the Monday before lives seven days on arrival, and is dead on the Tuesday."""
    found_at(lodge, zone, datetime.fromisoformat(tuesday).replace(tzinfo=UTC) - timedelta(days=11))
    kept = {"country": country, "subdivision": part, "delivery": "falls_away"}
    comes_on_mondays(lodge, 1, "22:00", holidays=kept | {"orders_taken": False})
    lodge.menu(f"{tuesday}/dinner/family", "rice-pudding")
    butter, dead = told(lodge, plan)
    assert (dead["item"], dead["alert"]) == ("Whole milk", "missed")
    week_before = date.fromisoformat(tuesday) - timedelta(days=8)
    eve = datetime.fromisoformat(butter["order_by"])
    assert (butter["item"], butter["alert"]) == ("Butter", "none")
    assert datetime.fromisoformat(butter["delivery"]) - eve == timedelta(hours=9)
    assert eve.date() == week_before - timedelta(days=1)


FRIDAY_DINNER = "2027-03-12/dinner/family"


def put_to_sea(lodge):
    """Milk is ordered for Friday's boat; an earlier one comes on Tuesday."""
    rules = [
        {
            "weekday": day,
            "time": "09:00",
            "cutoff_days_before": 1,
            "cutoff_time": "15:00",
        }
        for day in ("tuesday", "friday")
    ]
    body = {"supplier": "Hill Dairy", "deliveries": rules, "closures": []}
    lodge.do("set_calendar", body, person=MANAGER)
    lodge.menu(FRIDAY_DINNER, "rice-pudding")
    lines = [
        {"item": "Whole milk", "pack": "2 l bottle", "packs": 1},
        {"item": "Butter", "pack": "250 g block", "packs": 1},
    ]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-12", "lines": lines})
    assert told(lodge, plan) == []


def stays_in_port(lodge, **more):
    body = {"supplier": "Hill Dairy", "date": "2027-03-12", "reason": "Gale from the west"}
    return lodge.do("call_off_delivery", body | more, person=CHEF)


def test_PL2_when_the_boat_does_not_sail_the_plan_asks_for_the_boat_before(lodge):
    put_to_sea(lodge)
    stays_in_port(lodge)
    row = milk(lodge)
    assert (row["delivery"], row["order_by"]) == ("2027-03-09T09:00:00Z", "2027-03-08T15:00:00Z")
    assert (row["packs"], row["because"]) == (1, [FRIDAY_DINNER])


def test_PL5_when_the_boat_before_has_gone_too_it_is_missed_with_ways_out(lodge):
    put_to_sea(lodge)
    lodge.now = at(11, 16)
    stays_in_port(lodge)
    row = milk(lodge)
    assert (row["alert"], row["packs"], row["net"]["value"]) == ("missed", 0, "1000")
    assert row["ways_out"]


def test_PL2_a_boat_that_sails_a_day_late_does_for_a_meal_after_it_alone(lodge):
    put_to_sea(lodge)
    lodge.menu("2027-03-14/lunch/family", "rice-pudding")
    assert told(lodge, plan) == []
    lodge.now = at(11, 16)
    stays_in_port(lodge, instead="2027-03-13")
    row = milk(lodge)
    assert (row["alert"], row["because"]) == ("missed", [FRIDAY_DINNER])


def test_PL2_a_boat_that_sails_after_all_leaves_nothing_to_order(lodge):
    put_to_sea(lodge)
    given = stays_in_port(lodge)
    assert milk(lodge)["packs"] == 1
    lodge.do("correct", {"command": given, "reason": "The wind has dropped"}, person=CHEF)
    assert told(lodge, plan) == []
