"""Cut-offs against the calendar: both clock changes of 2027, bank holidays (SL1, PL2, PL5).

Sources: IANA time zone database (dates of the clock changes and offsets); RFC 5545, 3.3.5 (a wall
time that does not exist is read with the offset before the gap, one that exists twice is the
first). Instants are written out here by hand from those, not computed. The suppliers are invented.
"""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from pantry.rules.deliveries import coming
from pantry.rules.house_time import zone
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Supplier

LONDON = zone("Europe/London")
NEW_YORK = zone("America/New_York")
MONDAY, THURSDAY, FRIDAY = 0, 3, 4


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def only(supplier: Supplier, day: str, place=LONDON):
    """The supplier's one delivery within a day of noon, UTC, of that date."""
    noon = utc(f"{day}T12:00")
    (delivery,) = coming(supplier, noon - timedelta(hours=12), noon + timedelta(hours=12), place)
    return delivery


def weekly(*rules: DeliveryRule, closures: tuple[Closure, ...] = (), send: int = 0) -> Supplier:
    return Supplier("cairn-dairy", "Cairn Dairy", rules, closures, send=timedelta(minutes=send))


MONDAYS = [
    # (zone, date, rule's cut-off wall time the day before) -> (in the house, cut-off), UTC
    (LONDON, "2027-03-22", time(22), "2027-03-22T07:00", "2027-03-21T22:00"),  # GMT throughout
    (LONDON, "2027-03-29", time(22), "2027-03-29T06:00", "2027-03-28T21:00"),  # BST since 01:00Z
    (LONDON, "2027-03-29", time(0, 30), "2027-03-29T06:00", "2027-03-28T00:30"),  # before the gap
    (LONDON, "2027-03-29", time(1, 30), "2027-03-29T06:00", "2027-03-28T01:30"),  # does not exist
    (LONDON, "2027-10-25", time(22), "2027-10-25T06:00", "2027-10-24T21:00"),  # still BST
    (LONDON, "2027-11-01", time(22), "2027-11-01T07:00", "2027-10-31T22:00"),  # GMT again
    (LONDON, "2027-11-01", time(1, 30), "2027-11-01T07:00", "2027-10-31T00:30"),  # twice: the first
    (NEW_YORK, "2027-03-15", time(22), "2027-03-15T11:00", "2027-03-15T02:00"),  # EDT
    (NEW_YORK, "2027-03-15", time(2, 30), "2027-03-15T11:00", "2027-03-14T07:30"),  # does not exist
    (NEW_YORK, "2027-11-08", time(22), "2027-11-08T12:00", "2027-11-08T03:00"),  # EST
    (NEW_YORK, "2027-11-08", time(1, 30), "2027-11-08T12:00", "2027-11-07T05:30"),  # the first
]


@pytest.mark.parametrize(("place", "day", "wall", "at", "cutoff"), MONDAYS)
def test_PL2_a_cut_off_keeps_its_wall_time_over_both_clock_changes(place, day, wall, at, cutoff):
    delivery = only(weekly(DeliveryRule(MONDAY, time(7), 1, wall)), day, place)
    assert (delivery.at, delivery.cutoff) == (utc(at), utc(cutoff))
    assert delivery.id == f"cairn-dairy/{at}:00Z"


def test_PL2_a_cut_off_before_the_clock_change_for_a_delivery_after_it():
    """Saturday 27 March 2027, 12:00 GMT, for Monday 29 March 07:00 BST: 42 hours, not 43."""
    delivery = only(weekly(DeliveryRule(MONDAY, time(7), 2, time(12))), "2027-03-29")
    assert delivery.cutoff == utc("2027-03-27T12:00")
    assert delivery.at - delivery.cutoff == timedelta(hours=42)


def test_PL5_the_time_to_send_is_exact_even_over_the_clock_change():
    """Cut-off 03:00 EDT on 2027-03-14; ninety minutes before it the clock showed 00:30 EST."""
    delivery = only(
        weekly(DeliveryRule(MONDAY, time(7), 1, time(3)), send=90), "2027-03-15", NEW_YORK
    )
    assert delivery.cutoff == utc("2027-03-14T07:00")
    assert delivery.order_by == utc("2027-03-14T05:30")
    assert delivery.order_by.astimezone(NEW_YORK).time() == time(0, 30)


EASTER_2027 = tuple(
    # Good Friday 26 March and Easter Monday 29 March 2027 are bank holidays in England and Wales
    # (Banking and Financial Dealings Act 1971 and common law; dates by the Gregorian computus).
    Closure(date(2027, 3, day), kind, instead)
    for day, kind, instead in (
        (26, ClosureKind.NO_DELIVERY, None),
        (26, ClosureKind.NO_ORDERS, None),
        (28, ClosureKind.NO_ORDERS, None),
        (29, ClosureKind.NO_DELIVERY, date(2027, 3, 30)),
        (29, ClosureKind.NO_ORDERS, None),
    )
)


def test_PL2_easter_moves_the_delivery_and_the_cut_off():
    """Monday's milk comes on Tuesday; nobody takes orders on Sunday and Monday: Saturday, GMT."""
    milk = weekly(
        DeliveryRule(MONDAY, time(7), 1, time(22)),
        DeliveryRule(FRIDAY, time(7), 1, time(22)),
        closures=EASTER_2027,
    )
    found = coming(milk, utc("2027-03-23T00:00"), utc("2027-04-02T23:00"), LONDON)
    assert [(d.at, d.cutoff) for d in found] == [
        (utc("2027-03-30T06:00"), utc("2027-03-27T22:00")),
        (utc("2027-04-02T06:00"), utc("2027-04-01T21:00")),
    ]


def test_PL2_a_delivery_moved_forward_takes_its_cut_off_along():
    """Thanksgiving 2027 is Thursday 25 November (5 U.S.C. 6103); it comes on Wednesday."""
    closed = Closure(date(2027, 11, 25), ClosureKind.NO_DELIVERY, date(2027, 11, 24))
    supplier = weekly(DeliveryRule(THURSDAY, time(9), 2, time(17)), closures=(closed,))
    (delivery,) = coming(supplier, utc("2027-11-22T00:00"), utc("2027-11-27T00:00"), NEW_YORK)
    assert delivery.at == utc("2027-11-24T14:00")
    assert delivery.cutoff == utc("2027-11-22T22:00")


def test_PL2_a_cut_off_can_move_to_a_named_date():
    closed = Closure(date(2027, 12, 25), ClosureKind.NO_ORDERS, date(2027, 12, 23))
    supplier = weekly(DeliveryRule(MONDAY, time(7), 2, time(12)), closures=(closed,))
    assert only(supplier, "2027-12-27").cutoff == utc("2027-12-23T12:00")
