"""Wall times and spans on the days when clocks change, against what is published.

Sources: RFC 5545, 3.3.5 (wall times skipped or shown twice, with its two examples) and 3.3.6 (days
are nominal); when each clock changes is the IANA time zone database's, through the standard
library; the instants beside each case follow from both by arithmetic.
"""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from pantry.rules.house_time import (
    Span,
    after,
    before,
    end_of_day,
    instant_of,
    start_of_day,
    zone,
)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.mark.parametrize(
    ("name", "day", "wall", "instant"),
    [
        # RFC 5545, 3.3.5: TZID=America/New_York:20070311T023000 does not exist and means 3:30 EDT
        ("America/New_York", "2007-03-11", "02:30", "2007-03-11T07:30"),
        # RFC 5545, 3.3.5: TZID=America/New_York:20071104T013000 is shown twice; the first, EDT
        ("America/New_York", "2007-11-04", "01:30", "2007-11-04T05:30"),
        # the same two shapes in the year of the other examples; Europe/London changes at 01:00 UTC
        ("Europe/London", "2027-03-28", "00:59:59", "2027-03-28T00:59:59"),
        ("Europe/London", "2027-03-28", "01:30", "2027-03-28T01:30"),
        ("Europe/London", "2027-03-28", "02:00", "2027-03-28T01:00"),
        ("Europe/London", "2027-10-31", "01:30", "2027-10-31T00:30"),
        ("Europe/London", "2027-10-31", "02:00", "2027-10-31T02:00"),
        ("America/New_York", "2027-03-14", "02:30", "2027-03-14T07:30"),
        ("America/New_York", "2027-11-07", "01:30", "2027-11-07T05:30"),
        # Lord Howe Island moves by half an hour: +10:30 to +11 and back (tz database, australasia)
        ("Australia/Lord_Howe", "2027-10-03", "02:15", "2027-10-02T15:45"),
        ("Australia/Lord_Howe", "2027-04-04", "01:45", "2027-04-03T14:45"),
    ],
)
def test_SL1_RFC_5545_wall_times_skipped_or_shown_twice(
    name: str, day: str, wall: str, instant: str
) -> None:
    read = instant_of(date.fromisoformat(day), time.fromisoformat(wall), zone(name))
    assert read == utc(instant)


@pytest.mark.parametrize(
    ("name", "day", "hours"),
    [
        ("Europe/London", "2027-03-28", 23.0),
        ("Europe/London", "2027-10-31", 25.0),
        ("Europe/London", "2027-06-01", 24.0),
        ("America/New_York", "2027-03-14", 23.0),
        ("America/New_York", "2027-11-07", 25.0),
        ("Australia/Lord_Howe", "2027-10-03", 23.5),
        ("Australia/Lord_Howe", "2027-04-04", 24.5),
        ("America/Sao_Paulo", "2018-11-04", 23.0),  # 00:00 was skipped
        ("America/Sao_Paulo", "2018-02-17", 25.0),  # 23:00 to 23:59 came twice
        ("America/Havana", "2027-11-07", 25.0),  # 00:00 to 00:59 comes twice
        ("America/Toronto", "1919-03-30", 23.5),  # 23:30 became 00:30 of the next date
    ],
)
def test_SL1_a_day_is_as_long_as_the_clock_makes_it(name: str, day: str, hours: float) -> None:
    house, civil = zone(name), date.fromisoformat(day)
    length = end_of_day(civil, house) + timedelta(seconds=1) - start_of_day(civil, house)
    assert length == timedelta(hours=hours)


@pytest.mark.parametrize(
    ("name", "day", "last"),
    [
        # São Paulo skipped the midnight that ends 3 November 2018 (tz database, southamerica)
        ("America/Sao_Paulo", "2018-11-03", "2018-11-04T02:59:59"),
        ("America/Sao_Paulo", "2018-11-04", "2018-11-05T01:59:59"),
        # Cairo skips the midnight that ends Thursday, 29 April 2027 (tz database, africa)
        ("Africa/Cairo", "2027-04-29", "2027-04-29T21:59:59"),
        ("Europe/London", "2027-03-28", "2027-03-28T22:59:59"),
        ("Europe/London", "2027-10-31", "2027-10-31T23:59:59"),
        ("America/New_York", "2027-03-14", "2027-03-15T03:59:59"),
        ("America/New_York", "2027-11-07", "2027-11-08T04:59:59"),
        ("America/Havana", "2027-11-06", "2027-11-07T03:59:59"),
        # Samoa had no 30 December 2011 (tz database, australasia): it ends with the 29th
        ("Pacific/Apia", "2011-12-30", "2011-12-30T09:59:59"),
        # until 2011 Newfoundland's clock went back at 00:01, so that 23:59:59 came twice
        ("America/St_Johns", "2010-11-06", "2010-11-07T03:29:59"),
    ],
)
def test_SL1_a_use_by_date_ends_with_its_own_midnight(name: str, day: str, last: str) -> None:
    assert end_of_day(date.fromisoformat(day), zone(name)) == utc(last)


@pytest.mark.parametrize(
    ("service", "notice", "choose_by"),
    [
        # RFC 5545, 3.3.6: three days before Monday 29 March 2027, 18:00 BST, is Friday 18:00 GMT
        ("2027-03-29T17:00", Span(days=3), "2027-03-26T18:00"),
        ("2027-03-29T17:00", Span(exact=timedelta(hours=72)), "2027-03-26T17:00"),
        # ... and before Monday 1 November 2027, 11:00 GMT, is Friday 11:00 BST
        ("2027-11-01T11:00", Span(days=3), "2027-10-29T10:00"),
        ("2027-11-01T11:00", Span(exact=timedelta(hours=72)), "2027-10-29T11:00"),
        # both: the day first, in wall time, then the hours (RFC 5545, 3.3.6)
        ("2027-03-29T00:30", Span(days=1, exact=timedelta(hours=2)), "2027-03-27T23:30"),
    ],
)
def test_SL1_RFC_5545_days_are_nominal_and_hours_exact(
    service: str, notice: Span, choose_by: str
) -> None:
    assert before(utc(service), notice, zone("Europe/London")) == utc(choose_by)


def test_SL1_a_day_later_than_a_time_that_does_not_exist_then_leaves_the_gap_forward() -> None:
    house = zone("Europe/London")
    assert after(utc("2027-03-27T01:30"), Span(days=1), house) == utc("2027-03-28T01:30")
    assert after(utc("2027-03-27T01:30"), Span(days=2), house) == utc("2027-03-29T00:30")


def test_SL1_hours_alone_never_move_between_the_two_times_of_an_autumn_night() -> None:
    house = zone("Europe/London")
    second = utc("2027-10-31T01:30")
    assert after(second, Span(), house) == second
    assert before(second, Span(exact=timedelta(hours=1)), house) == utc("2027-10-31T00:30")
