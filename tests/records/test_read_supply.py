"""Suppliers, packs, open orders and harvest estimates, as the rules see them."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import event

from pantry.records.database import reading, writing
from pantry.records.read import supply
from pantry.records.rows import add, change, remove
from pantry.records.tables import (
    ClosureRow,
    DeliveryRuleRow,
    HarvestRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    SupplierRow,
)
from pantry.rules.supply import ClosureKind
from tests.hazel_court import HOUR, ID, NOW

LONDON = ZoneInfo("Europe/London")
MILK = "dale-dairy/whole-milk/2-l"
DELIVERY = datetime(2027, 3, 11, 6, 30, tzinfo=UTC)


def read(house, what, *arguments):
    with reading(house.database) as connection:
        return what(connection, ID, *arguments)


def write(house, *rows):
    with writing(house.database) as connection:
        add(connection, *rows)


def milk_pack(**more):
    more = {"sealed_quantity": 2_000_000, "price": 215, "life_on_arrival_days": 7} | more
    return PackRow(
        house=ID,
        id=MILK,
        supplier="dale-dairy",
        item="whole-milk",
        name="2 l",
        quantity=2_000_000,
        **more,
    )


def order(state="open", at=DELIVERY):
    return OrderRow(house=ID, id="dale/1", supplier="dale-dairy", delivery_at=at, state=state)


def order_line(pack=MILK, item="whole-milk", **more):
    return OrderLineRow(
        house=ID, purchase_order="dale/1", pack=pack, item=item, packs=3, quantity=6_000_000, **more
    )


def test_PL2_a_supplier_is_read_with_its_calendar(house):
    write(
        house,
        SupplierRow(
            house=ID,
            id="brook",
            name="Brook",
            minimum=5_000,
            charge=450,
            may_fail=True,
            send_minutes=15,
        ),
        DeliveryRuleRow(
            house=ID,
            supplier="brook",
            weekday=1,
            at="09:00",
            cutoff_days_before=1,
            cutoff_at="12:00",
        ),
        ClosureRow(
            house=ID,
            supplier="brook",
            on=date(2027, 3, 26),
            what="no_delivery",
            instead=date(2027, 3, 25),
        ),
    )
    brook = read(house, supply.suppliers)["brook"]
    assert (brook.minimum, brook.charge, brook.may_fail) == (5_000, 450, True)
    assert brook.send == timedelta(minutes=15)
    (rule,) = brook.rules
    assert (rule.weekday, rule.at, rule.cutoff_days_before, rule.cutoff_at) == (
        1,
        time(9),
        1,
        time(12),
    )
    (closure,) = brook.closures
    assert (closure.kind, closure.instead) == (ClosureKind("no_delivery"), date(2027, 3, 25))
    assert read(house, supply.suppliers)["dale-dairy"].rules == ()


def test_PL2_packs_are_read_of_some_items_or_all(house):
    write(house, milk_pack())
    (pack,) = read(house, supply.packs)
    assert (pack.id, pack.price, pack.life_on_arrival_days) == (MILK, 215, 7)
    assert read(house, supply.packs, ["plain-flour"]) == []


def test_PL1_an_open_order_brings_what_it_has_not_brought_yet(house):
    write(house, milk_pack(), order(), order_line(received=2_000_000))
    (source,) = read(house, supply.on_order, LONDON, NOW)
    assert (source.kind, source.id, source.item) == ("delivery", f"dale/1|{MILK}", "whole-milk")
    assert source.quantity == 4_000_000
    assert source.ready == source.since == DELIVERY
    assert source.sealed_quantity == 2_000_000
    assert source.usable_until == datetime(2027, 3, 17, 23, 59, 59, tzinfo=UTC), (
        "seven days, the day of arrival being the first"
    )
    assert read(house, supply.on_order, LONDON, NOW, ["plain-flour"]) == []


def test_SL1_a_life_on_arrival_ends_with_the_houses_day_across_the_clock_change(house):
    """Summer time begins on 28 March 2027 at 01:00 UTC: the last second is an hour earlier in UTC.

    Source, from memory: Directive 2000/84/EC, article 2, as the United Kingdom's Summer Time Order
    2002: from 01:00 GMT on the last Sunday in March.
    """
    write(house, milk_pack(), order(at=datetime(2027, 3, 26, 6, 30, tzinfo=UTC)), order_line())
    (source,) = read(house, supply.on_order, LONDON, NOW)
    assert source.usable_until == datetime(2027, 4, 1, 22, 59, 59, tzinfo=UTC)


@pytest.mark.parametrize(
    ("order_state", "line"),
    [
        ("received", {}),
        ("cancelled", {}),
        ("open", {"closed": True}),
        ("open", {"received": 6_000_000}),
        ("open", {"received": 7_000_000}),
    ],
)
def test_PL1_what_is_received_cancelled_or_closed_is_not_coming(house, order_state, line):
    write(house, milk_pack(), order(state=order_state), order_line(**line))
    assert read(house, supply.on_order, LONDON, NOW) == []


@pytest.mark.parametrize(
    ("now", "received", "is_awaited"),
    [
        (DELIVERY - HOUR, 0, True),
        (DELIVERY + HOUR, 0, True),  # late, but it is still its day
        (DELIVERY + HOUR, 1, False),  # it came, and was short
        (DELIVERY - HOUR, 1, True),  # it came early, in part
        (DELIVERY + 24 * HOUR, 0, False),
    ],
)
def test_PL1_what_was_due_and_did_not_come_is_waited_for_until_its_day_ends(
    house, now, received, is_awaited
):
    write(house, milk_pack(), order(), order_line(received=received))
    assert bool(read(house, supply.on_order, LONDON, now)) == is_awaited


def test_PL1_an_order_of_a_pack_that_is_sold_no_more_still_comes(house):
    write(house, order(), order_line(pack="gone"))
    (source,) = read(house, supply.on_order, LONDON, NOW)
    assert (source.usable_until, source.sealed_quantity) == (None, 0)


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    quantity=st.integers(0, 10**7),
    gathered=st.integers(0, 10**7),
    days=st.integers(0, 20),
    since=st.integers(-5, 25),
)
def test_a_harvest_estimate_is_spread_over_the_days_that_are_left(
    house, quantity, gathered, days, since
):
    first = date(2027, 8, 1)
    with writing(house.database) as connection:
        remove(connection, HarvestRow, house=ID)
        add(
            connection,
            HarvestRow(
                house=ID,
                item="plums",
                first=first,
                last=first + timedelta(days=days),
                quantity=quantity,
                gathered=gathered,
            ),
        )
    today = first + timedelta(days=since)
    parts = read(house, supply.harvests, LONDON, today)
    left = quantity - gathered
    if left <= 0 or since > days:
        assert parts == []
        return
    assert sum(part.quantity for part in parts) == left
    assert len({part.id for part in parts}) == len(parts) <= days - max(since, 0) + 1
    for part in parts:
        local = part.ready.astimezone(LONDON)
        assert local.time() == time(12)
        assert max(first, today) <= local.date() <= first + timedelta(days=days)


def test_PL2_a_price_that_changed_is_read_as_it_is(house):
    write(house, milk_pack())
    with writing(house.database) as connection:
        change(connection, PackRow, {"house": ID, "id": MILK}, price=225)
    assert read(house, supply.packs)[0].price == 225


def test_of_what_is_on_order_only_the_items_concerned_are_read(house):
    write(house, milk_pack(), order(), order_line())
    asked = []
    event.listen(house.database, "before_cursor_execute", lambda *told: asked.append(told[2]))
    assert read(house, supply.on_order, LONDON, NOW, ["plain-flour"]) == []
    assert len([each for each in asked if "order" in each]) == 1
    assert read(house, supply.on_order, LONDON, NOW, ["whole-milk"]) == read(
        house, supply.on_order, LONDON, NOW
    )
