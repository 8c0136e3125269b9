"""Orders against worked MRP tables (PL1, PL3).

A lot size is a pack, a lead time is how many days before its delivery an order closes, a scheduled
receipt is an open order; what is required in a week is wanted at noon of its Monday, and what is
received in it comes that morning.
"""

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

from pantry.rules.house_time import Span
from pantry.rules.menu import Ingredient, Recipe, RecipeKind
from tests.rules.planned_house import (
    NOW,
    at,
    batch,
    delivers,
    item,
    need,
    pack,
    planned,
)

MONDAY = 0
WEEK = timedelta(days=7)
START = NOW - WEEK
"""A week before week 1, so that what has to be released early still can be."""


def week(number):
    """Monday of a week, at 07:00 in winter time; the table's eight weeks end in May."""
    return at(8) + (number - 1) * WEEK


def weekly(name, lead_weeks, **terms):
    return delivers(name, [MONDAY], before=7 * lead_weeks, until=6, **terms)


def wanted(item_, table):
    """Requirements by week, in whole units, wanted at noon and used up then."""
    return [
        _at(need(item_, quantity, 8, id_=f"{item_} in week {number}"), week(number))
        for number, quantity in table.items()
    ]


def _at(need_, monday):
    return replace(need_, wanted_by=monday + timedelta(hours=5), until=monday + timedelta(hours=5))


def receipts(plan, item_):
    """(week received, quantity), and (week released, quantity), in whole units."""
    rows = [row for row in plan.rows if row.item == item_]
    received = [_week_of(row.delivery.at) for row in rows]
    released = [_week_of(row.order_by + timedelta(hours=1)) for row in rows]
    quantities = [row.packs * row.pack.quantity // 1000 for row in rows]
    return (
        list(zip(received, quantities, strict=True)),
        list(zip(released, quantities, strict=True)),
    )


def _week_of(instant):
    return round((instant - week(1)) / WEEK) + 1


def left_at_the_end(plan, item_):
    return sum(part.quantity for part in plan.projection.allocations[item_].left) // 1000


def test_PL3_a_fixed_lot_size():
    """Krajewski & Ritzman, Operations Management, seat subassembly example (from memory).

    Lot 230, lead time 2 weeks, on hand 37, 230 received in week 1: planned receipts 230 in weeks 4
    and 7, released in weeks 2 and 5, 187 on hand at the end.
    """
    plan = planned(
        [item("seat")],
        [weekly("joiner", 2)],
        [pack("joiner", "seat", 230)],
        wanted("seat", {1: 150, 4: 120, 6: 150, 7: 120}),
        [batch("seat", 37), _received("seat", 230, 1)],
        now=START,
        horizon=week(9),
    )
    received, released = receipts(plan, "seat")
    assert received == [(4, 230), (7, 230)]
    assert released == [(2, 230), (5, 230)]
    assert [row.net for row in plan.rows] == [3_000, 43_000]
    assert left_at_the_end(plan, "seat") == 187


def _received(item_, quantity, number):
    return replace(batch(item_, quantity, id_="open order"), ready=week(number), since=week(number))


SHUTTER = Recipe(
    "shutter",
    "Shutter",
    RecipeKind.PREPARATION,
    Fraction(1),
    (Ingredient("frame", Fraction(2)), Ingredient("wood", Fraction(4))),
    makes="shutter",
    lead=Span(days=7),
)


def shutters(*packs):
    """Stevenson, Operations Management, MRP chapter, shutters example (from memory).

    100 shutters in week 4 and 150 in week 8, assembled in a week of two frames and four wood
    sections each; frames take two weeks to come, wood sections one; 70 sections come in week 1.
    """
    return planned(
        [item("shutter"), item("frame"), item("wood")],
        [weekly("frame maker", 2), weekly("sawmill", 1)],
        packs,
        wanted("shutter", {4: 100, 8: 150}),
        [_received("wood", 70, 1)],
        preparations={"shutter": SHUTTER},
        now=START - WEEK,
        horizon=week(9),
    )


def test_PL3_lot_for_lot():
    plan = shutters(pack("frame maker", "frame", 1), pack("sawmill", "wood", 1))
    assert receipts(plan, "frame")[1] == [(1, 200), (5, 300)]
    assert receipts(plan, "wood")[1] == [(2, 330), (6, 600)]
    assert left_at_the_end(plan, "frame") == left_at_the_end(plan, "wood") == 0


def test_PL3_multiples_of_a_lot_size():
    plan = shutters(pack("frame maker", "frame", 320), pack("sawmill", "wood", 70))
    assert receipts(plan, "frame")[1] == [(1, 320), (5, 320)]
    assert left_at_the_end(plan, "frame") == 140
    assert receipts(plan, "wood")[1] == [(2, 350), (6, 630)]
    assert left_at_the_end(plan, "wood") == 50


def cream(stock_dies=None, life=None):
    """The same arithmetic in a kitchen: 2.5 l packs, a day's lead, 1.5 l there (computed by hand).

    3.6 l are wanted on day 2, 4.2 on day 5, 2.4 on day 7; day 1 is the 9th.
    """
    return planned(
        [item("cream")],
        [delivers("dairy")],
        [pack("dairy", "cream", 2500, life=life)],
        [need("cream", 3600, 10), need("cream", 4200, 13), need("cream", 2400, 15)],
        [batch("cream", 1500, dies=stock_dies)],
    )


def by_day(plan):
    return [(row.delivery.at.day - 8, row.net, row.packs) for row in plan.rows]


def test_PL1_cream_in_packs_of_two_and_a_half_litres():
    plan = cream()
    assert by_day(plan) == [(2, 2_100_000, 1), (5, 3_800_000, 2), (7, 1_200_000, 1)]
    assert [row.order_by.day - 8 for row in plan.rows] == [1, 4, 6]
    assert left_at_the_end(plan, "cream") == 1300


def test_PL1_four_days_from_the_second_are_alive_on_the_fifth_day_still():
    """Received on day 2, day 2 being the first: the 0.4 l left serve day 5, its last."""
    assert by_day(cream(life=4)) == by_day(cream())


def test_PL1_expired_stock_leaves_the_balance():
    """With three days the 0.4 l are dead on day 5, and 1.2 l of day 5's still serve day 7."""
    plan = cream(stock_dies=10, life=3)
    assert by_day(plan) == [(2, 2_100_000, 1), (5, 4_200_000, 2), (7, 1_600_000, 1)]
    lost = plan.projection.allocations["cream"].lost
    assert sum(loss.quantity for loss in lost) == 400_000
    assert left_at_the_end(plan, "cream") == 900
