"""Supplier calendars and what they offer for a need (PL2, PL3, PL5)."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import UnreadableInput
from pantry.rules.deliveries import Calendar, coming, refuse_late_cutoff
from pantry.rules.house_time import Span, before, end_of_day, zone
from pantry.rules.market import Market
from pantry.rules.supply import Closure, ClosureKind, DeliveryRule, Pack, Supplier

LONDON = zone("Europe/London")
MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY = range(5)
NOW = datetime(2027, 3, 8, 9, tzinfo=UTC)  # a Monday
LAST = NOW + timedelta(days=28)


def day_before(*weekdays, at=time(7), cutoff_at=time(22)):
    return tuple(DeliveryRule(weekday, at, 1, cutoff_at) for weekday in weekdays)


def supplier(id_, *rules, **terms):
    return Supplier(id_, id_, rules, **terms)


def pack(supplier_, life=None, id_="pack"):
    return Pack(f"{supplier_}/{id_}", supplier_, "cream", id_, 1000, 0, 100, life)


def market(suppliers, packs, margin=Span(), now=NOW):
    return Market(suppliers, packs, margin=margin, zone=LONDON, now=now, last=LAST)


def at(day, hour=7, minute=0):
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


def test_PL2_deliveries_come_in_time_order_within_the_asked_time_inclusive():
    dairy = supplier("dairy", *day_before(FRIDAY, TUESDAY))
    found = coming(dairy, at(9), at(16), LONDON)
    assert [d.at for d in found] == [at(9), at(12), at(16)]


def test_PL2_no_delivery_without_another_date_drops_it():
    closed = Closure(date(2027, 3, 12), ClosureKind.NO_DELIVERY)
    dairy = supplier("dairy", *day_before(TUESDAY, FRIDAY), closures=(closed,))
    assert [d.at for d in coming(dairy, at(9), at(16), LONDON)] == [at(9), at(16)]


def test_PL2_a_delivery_moved_onto_a_usual_one_is_that_one_with_the_later_cut_off():
    closed = Closure(date(2027, 3, 9), ClosureKind.NO_DELIVERY, date(2027, 3, 10))
    early = DeliveryRule(WEDNESDAY, time(7), 3, time(12))
    dairy = supplier("dairy", *day_before(TUESDAY), early, closures=(closed,))
    (delivery,) = coming(dairy, at(8), at(11), LONDON)
    assert (delivery.at, delivery.cutoff) == (at(10), at(9, 22))


def test_PL2_a_delivery_moved_in_from_outside_the_asked_time_is_found():
    closed = Closure(date(2027, 4, 5), ClosureKind.NO_DELIVERY, date(2027, 3, 10))
    dairy = supplier("dairy", *day_before(MONDAY), closures=(closed,))
    assert [d.at for d in coming(dairy, at(9), at(11), LONDON)] == [at(10)]


def test_PL2_closures_that_point_at_each_other_deliver_nothing_and_end():
    closed = tuple(
        Closure(date(2027, 3, a), ClosureKind.NO_DELIVERY, date(2027, 3, b))
        for a, b in ((9, 10), (10, 9))
    )
    dairy = supplier("dairy", *day_before(TUESDAY), closures=closed)
    assert [d.at for d in coming(dairy, at(8), at(16), LONDON)] == [at(16)]


@pytest.mark.parametrize(
    ("days", "cutoff_at", "late"),
    [(0, time(7), False), (0, time(7, 1), True), (1, time(22), False), (0, time(6, 59), False)],
)
def test_PL2_no_cut_off_is_later_than_its_delivery(days, cutoff_at, late):
    rule = DeliveryRule(TUESDAY, time(7), days, cutoff_at)
    if not late:
        refuse_late_cutoff(rule)
        return
    with pytest.raises(UnreadableInput) as refused:
        refuse_late_cutoff(rule)
    assert (refused.value.code, refused.value.value) == ("cutoff_after_delivery", "07:01")


@pytest.mark.parametrize(("cutoff_at", "day"), [(time(7), 9), (time(22), 7)])
def test_PL2_a_cut_off_moved_to_the_day_of_the_delivery_is_before_it_or_not_moved(cutoff_at, day):
    closed = Closure(date(2027, 3, 8), ClosureKind.NO_ORDERS, date(2027, 3, 9))
    dairy = supplier("dairy", *day_before(TUESDAY, cutoff_at=cutoff_at), closures=(closed,))
    (delivery,) = coming(dairy, at(9), at(10), LONDON)
    assert delivery.cutoff == at(day, cutoff_at.hour)


def test_PL2_a_run_of_days_without_orders_moves_the_cut_off_before_all_of_them():
    closed = tuple(Closure(date(2027, 3, day), ClosureKind.NO_ORDERS) for day in (8, 7, 6, 4))
    dairy = supplier("dairy", *day_before(TUESDAY), closures=closed)
    (delivery,) = coming(dairy, at(9), at(10), LONDON)
    assert delivery.cutoff == at(5, 22)


def test_PL2_a_cut_off_is_not_moved_to_after_the_delivery():
    closed = Closure(date(2027, 3, 8), ClosureKind.NO_ORDERS, date(2027, 3, 11))
    dairy = supplier("dairy", *day_before(TUESDAY), closures=(closed,))
    (delivery,) = coming(dairy, at(9), at(10), LONDON)
    assert delivery.cutoff == at(7, 22)


def test_PL5_order_by_is_the_cut_off_less_the_time_to_send():
    dairy = supplier("dairy", *day_before(TUESDAY), send=timedelta(minutes=45))
    (delivery,) = coming(dairy, at(9), at(10), LONDON)
    assert delivery.order_by == at(8, 21, 15)


def test_PL3_the_latest_delivery_before_wanted_by_less_the_margin_is_taken():
    dairy = supplier("dairy", *day_before(TUESDAY, THURSDAY, FRIDAY))
    shop = market([dairy], [pack("dairy")])
    (offer,) = shop.offers("cream", at(12), at(12, 19))
    assert offer.delivery.at == at(12)
    cautious = market([dairy], [pack("dairy")], margin=Span(exact=timedelta(seconds=1)))
    (offer,) = cautious.offers("cream", at(12), at(12, 19))
    assert offer.delivery.at == at(11)


def test_PL3_order_by_ahead_means_up_to_the_second():
    dairy = supplier("dairy", *day_before(TUESDAY))
    (offer,) = market([dairy], [pack("dairy")], now=at(8, 22)).offers("cream", at(9), at(9, 19))
    assert offer.delivery.at == at(9)
    late = market([dairy], [pack("dairy")], now=at(8, 22) + timedelta(seconds=1))
    assert late.offers("cream", at(9), at(9, 19)) == ()
    missed = late.last_offer("cream", at(9), at(9, 19))
    assert missed.delivery.order_by == at(8, 22)


def test_PL3_life_on_arrival_counts_the_day_of_arrival_as_the_first():
    dairy = supplier("dairy", *day_before(TUESDAY))
    for life, offered in ((3, False), (4, True)):
        offers = market([dairy], [pack("dairy", life)]).offers("cream", at(12), at(12, 23, 59))
        assert bool(offers) is offered
    assert offers[0].usable_until == at(12, 23, 59) + timedelta(seconds=59)


def test_PL3_of_a_supplier_who_may_fail_one_delivery_earlier_is_planned():
    boat = supplier("boat", *day_before(TUESDAY, THURSDAY), may_fail=True)
    (offer,) = market([boat], [pack("boat")]).offers("cream", at(12), at(12, 19))
    assert (offer.delivery.at, offer.at_risk) == (at(9), False)


def test_PL3_where_the_earlier_delivery_would_not_do_the_risk_is_said():
    boat = supplier("boat", *day_before(TUESDAY, THURSDAY), may_fail=True)
    (offer,) = market([boat], [pack("boat", life=3)]).offers("cream", at(12), at(12, 19))
    assert (offer.delivery.at, offer.at_risk) == (at(11), True)
    late = market([boat], [pack("boat")], now=at(9))
    (offer,) = late.offers("cream", at(12), at(12, 19))
    assert (offer.delivery.at, offer.at_risk) == (at(11), True)


def test_PL5_the_last_order_by_looks_over_all_suppliers_and_not_at_the_clock():
    dairy = supplier("dairy", *day_before(TUESDAY))
    farm = supplier("farm", DeliveryRule(WEDNESDAY, time(7), 5, time(12)))
    packs = [pack("dairy"), pack("farm")]
    for now in (NOW, at(12)):
        shop = market([dairy, farm], packs, now=now)
        assert shop.last_order_by("cream", at(12), at(12, 19)) == at(8, 22)
        assert shop.last_order_by("saffron", at(12), at(12, 19)) is None


def test_PL5_an_earlier_delivery_with_a_later_cut_off_gives_the_last_order_by():
    odd = supplier(
        "odd",
        DeliveryRule(TUESDAY, time(7), 0, time(6)),
        DeliveryRule(FRIDAY, time(7), 9, time(12)),
    )
    assert market([odd], [pack("odd")]).last_order_by("cream", at(12), at(12, 19)) == at(9, 6)
    short = market([odd], [pack("odd", life=2)])
    assert short.last_order_by("cream", at(12), at(12, 19)) == at(3, 12)


rules = st.builds(
    DeliveryRule,
    weekday=st.integers(0, 6),
    at=st.builds(time, st.integers(5, 18), st.sampled_from((0, 30))),
    cutoff_days_before=st.integers(1, 6),
    cutoff_at=st.builds(time, st.integers(0, 23), st.sampled_from((0, 30))),
)
closures = st.builds(
    Closure,
    on=st.dates(date(2027, 3, 1), date(2027, 4, 10)),
    kind=st.sampled_from(ClosureKind),
    instead=st.none() | st.dates(date(2027, 3, 1), date(2027, 4, 10)),
)
suppliers = st.builds(
    lambda id_, weekly, closed, fail, send: Supplier(
        id_, id_, tuple(weekly), tuple(closed), may_fail=fail, send=timedelta(minutes=send)
    ),
    st.sampled_from(("dairy", "boat")),
    st.lists(rules, min_size=1, max_size=4),
    st.lists(closures, max_size=5),
    st.booleans(),
    st.integers(0, 90),
)


@given(suppliers)
def test_PL2_every_day_of_a_closed_date_keeps_its_word(given_supplier):
    first, last = at(1, 0), LAST
    found = coming(given_supplier, first, last, LONDON)
    ats = [d.at for d in found]
    assert ats == sorted(set(ats))
    closed = {c.on for c in given_supplier.closures if c.kind is ClosureKind.NO_DELIVERY}
    no_orders = {c.on for c in given_supplier.closures if c.kind is ClosureKind.NO_ORDERS}
    walls = {(r.at, r.cutoff_at) for r in given_supplier.rules}
    for delivery in found:
        assert delivery.at.astimezone(LONDON).date() not in closed
        assert delivery.cutoff.astimezone(LONDON).date() not in no_orders
        assert delivery.order_by == delivery.cutoff - given_supplier.send
        if not {delivery.cutoff.astimezone(LONDON).date()} & {date(2027, 3, 28)}:
            local = (d.astimezone(LONDON).time() for d in (delivery.at, delivery.cutoff))
            assert tuple(local) in walls


@given(suppliers, st.integers(0, 27 * 24), st.integers(0, 72), st.none() | st.integers(1, 9))
def test_PL3_offers_agree_with_a_search_over_every_delivery(one, hours, more, life):
    wanted_by = NOW + timedelta(hours=hours)
    until = wanted_by + timedelta(hours=more)
    margin = Span(exact=timedelta(hours=3))
    shop = market([one], [pack(one.id, life)], margin=margin)
    good = [
        d
        for d in coming(one, NOW - timedelta(days=35), LAST, LONDON)
        if d.at <= before(wanted_by, margin, LONDON)
        and (
            life is None
            or end_of_day(d.at.astimezone(LONDON).date() + timedelta(days=life - 1), LONDON)
            >= until
        )
    ]
    planned = good[:-1] if one.may_fail and len(good) > 1 else good
    expected = [d for d in planned if d.order_by >= NOW] or [d for d in good if d.order_by >= NOW]
    offers = shop.offers("cream", wanted_by, until)
    assert [o.delivery for o in offers] == expected[-1:]
    (sold,) = shop.packs("cream")
    assert set(shop.reach(sold, wanted_by, until).open) == set(expected)
    last = max((d.order_by for d in planned), default=None)
    assert shop.last_order_by("cream", wanted_by, until) == last


@given(suppliers, st.integers(0, 600))
def test_PL2_a_calendar_holds_the_same_deliveries(one, hours):
    calendar = Calendar([one], LONDON, NOW, LAST)
    since = NOW + timedelta(hours=hours)
    later = [d for d in coming(one, since, LAST, LONDON) if d.order_by >= NOW]
    assert calendar.next_open(one.id, since) == (later[0] if later else None)
    assert all(calendar.named(d.id) == d for d in later)
