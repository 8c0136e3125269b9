"""What holds of any plan (PL1, PL3, PL4, PL5, RQ5)."""

from collections import defaultdict
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pantry.rules import planning
from pantry.rules.deadlines import Alert
from pantry.rules.house_time import before
from pantry.rules.market import Market
from tests.rules.any_house import any_house, as_order
from tests.rules.planned_house import HORIZON, LONDON

FEW = settings(max_examples=40, deadline=None)


def market_of(house):
    return Market(
        house.suppliers,
        house.packs,
        margin=house.house.receiving_margin,
        zone=LONDON,
        now=house.now,
        last=HORIZON + timedelta(days=7),
    )


def ordered(plan):
    return [row for row in plan.rows if row.packs]


@given(any_house())
@FEW
def test_PL3_everything_proposed_can_still_be_ordered_and_comes_as_its_supplier_delivers(house):
    market = market_of(house)
    for row in ordered(house.plan()):
        assert row.order_by >= house.now
        assert row.delivery in market.calendar.deliveries[row.supplier]
        assert row.pack in house.packs
        assert (row.pack.item, row.pack.supplier) == (row.item, row.supplier)
        assert row.net > 0


@given(any_house())
@FEW
def test_PL3_one_row_for_each_pack_and_delivery(house):
    keys = [(row.pack.id, row.delivery.id) for row in ordered(house.plan())]
    assert len(keys) == len(set(keys))


@given(any_house(opening=False))
@FEW
def test_PL3_no_need_stays_short_that_a_delivery_could_have_covered(house):
    plan = house.plan()
    market = market_of(house)
    for item, needs in plan.projection.needs.items():
        short = plan.projection.allocations[item].short
        for need in needs:
            if need.id in short:
                assert not market.offers(item, need.wanted_by, need.until)


@given(any_house())
@FEW
def test_PL5_what_stays_short_is_exactly_what_is_said_to_be_missed(house):
    plan = house.plan()
    said = {
        line.need.id: line.lacking
        for row in plan.rows
        if row.alert is Alert.MISSED
        for line in row.derivation.lines
    }
    short = {}
    for allocation in plan.projection.allocations.values():
        short |= allocation.short
    assert said == short


@given(any_house())
@FEW
def test_PL1_nothing_comes_from_nowhere(house):
    """What needs are given of a lot is no more than its packs hold, in date and in time."""
    plan = house.plan()
    lots = {
        f"planned/{row.delivery.id}/{row.pack.id}": (
            row.packs * row.pack.quantity,
            row.delivery.at,
            row.derivation.usable_until,
        )
        for row in ordered(plan)
    }
    given_of = defaultdict(int)
    for item, allocation in plan.projection.allocations.items():
        needs = {need.id: need for need in plan.projection.needs[item]}
        for pick in allocation.picks:
            if pick.source.startswith("planned/"):
                _, at, dies = lots[pick.source]
                need = needs[pick.need]
                margin = house.house.receiving_margin
                assert at <= before(max(need.wanted_by, house.now), margin, LONDON)
                assert dies is None or dies >= need.until
                given_of[pick.source] += pick.quantity
    assert all(quantity <= lots[id_][0] for id_, quantity in given_of.items())


@given(any_house(par=False), st.randoms(use_true_random=False))
@FEW
def test_PL1_the_order_in_which_things_are_told_does_not_matter(house, random):
    def shuffled(things):
        return tuple(random.sample(things, len(things)))

    again = replace(
        house,
        items=shuffled(house.items),
        suppliers=shuffled(house.suppliers),
        packs=shuffled(house.packs),
        needs=shuffled(house.needs),
        stock=shuffled(house.stock),
    )
    assert again.plan() == house.plan()


@given(any_house(opening=False))
@FEW
def test_PL1_ordering_what_the_plan_says_leaves_nothing_for_menus_to_order(house):
    """Its lots become open orders: then no need asks for anything more."""
    orders = tuple(as_order(row) for row in ordered(house.plan()))
    later = house.plan(stock=(*house.stock, *orders))
    assert not [row for row in ordered(later) if row.because[0] not in ("par", "daily use")]


def free_at(plan, house, item, instant):
    """What no need is given, of what is there and usable then; nobody uses the item daily."""
    ready = {source.id: source.ready for source in house.stock}
    for row in ordered(plan):
        ready[f"planned/{row.delivery.id}/{row.pack.id}"] = row.delivery.at
    allocation = plan.projection.allocations[item]
    parts = [(part.id, part.quantity, part.usable_until) for part in allocation.left]
    parts += [(loss.source, loss.quantity, loss.at) for loss in allocation.lost]
    return sum(
        quantity
        for source, quantity, dies in parts
        if (ready[source] is None or ready[source] <= instant) and (dies is None or dies >= instant)
    )


@given(any_house(opening=False, sellers=1))
@FEW
def test_PL1_at_every_delivery_as_much_is_free_as_the_floor_says(house):
    plan = house.plan()
    market = market_of(house)
    for item in house.items:
        if item.floor is None or item.daily_per_head or not market.packs(item.id):
            continue
        for delivery in market.calendar.deliveries["seller 0"]:
            if delivery.order_by >= house.now <= delivery.at <= HORIZON:
                assert free_at(plan, house, item.id, delivery.at) >= item.floor


@given(any_house(par=False))
@FEW
def test_PL4_what_is_found_lot_by_lot_is_never_made_dearer(house):
    found = house.plan()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(planning, "consolidated", lambda outlooks, *_: outlooks)
        lot_by_lot = house.plan()
    assert found.cost <= lot_by_lot.cost
    for item, allocation in found.projection.allocations.items():
        assert allocation.short == lot_by_lot.projection.allocations[item].short
