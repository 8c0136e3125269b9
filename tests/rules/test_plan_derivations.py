"""Every figure of a row follows from its derivation, with pencil and paper (PL7)."""

from collections import defaultdict
from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given, settings

from pantry.rules.deadlines import Alert
from pantry.rules.house_time import Span
from tests.rules.any_house import any_house
from tests.rules.planned_house import HOUSE, batch, delivers, item, need, pack, planned

FEW = settings(max_examples=40, deadline=None)


def follows(row, house):
    """Recompute the row from its derivation; shares nothing with the code that made it."""
    why = row.derivation
    for line in why.lines:
        assert line.lacking == line.need.quantity - sum(quantity for _, quantity in line.given)
        assert 0 <= line.covered <= line.lacking
        assert line.need.item == row.item
    par = 0
    if why.par:
        free = sum(quantity for _, quantity in why.par.free)
        if why.par.order_up_to is None:
            par = why.par.floor - why.par.lowest + why.par.over
        else:
            par = why.par.order_up_to - free + why.par.over
        if why.par.reckoned:
            fits(why.par)
            par = max(par, why.par.floor - why.par.lowest + why.par.over)
        assert why.par.quantity == par
        assert why.par.lowest < why.par.floor
    if row.alert is Alert.MISSED:
        assert row.net == sum(line.lacking for line in why.lines) + par
        assert (row.packs, row.cost) == (0, 0)
        return
    counted = [line for line in why.lines if line.counts]
    covered = sum(line.covered for line in counted)
    daily = sum(quantity for _, quantity in why.daily)
    assert row.net == covered + par + why.used_up + daily
    assert_packs(row, covered)
    assert_terms(row, counted, house)
    because = list(dict.fromkeys(line.need.service for line in counted if line.need.service))
    assert [why_ for why_ in row.because if why_ not in ("par", "daily use")] == because
    assert ("par" in row.because) == (why.par is not None)
    used_daily = bool(why.daily) or any(not line.need.service for line in counted)
    assert ("daily use" in row.because) == used_daily


def fits(par):
    """The levels from those that are set and who is there each day, as fractions."""
    why = par.reckoned
    share = {day: people if 2 * people <= why.usual else why.usual for day, people in why.days}
    together = min(max(share.values()), why.at_one_table)
    assert par.floor == ceil(Fraction(why.floor * together, why.at_one_table))
    if why.order_up_to is not None:
        beyond = Fraction(sum(share.values()), len(share) * why.usual)
        assert par.order_up_to == par.floor + ceil((why.order_up_to - why.floor) * beyond)


def assert_packs(row, covered):
    why = row.derivation
    menu = ceil(covered / why.pack_quantity)
    assert why.menu_packs >= menu if why.opened else why.menu_packs == menu
    if why.par:
        wanted = why.par.quantity - why.par.over
        assert why.par_packs == ceil(wanted / why.pack_quantity) > 0
    else:
        assert why.par_packs == 0
    assert why.daily_packs == sum(ceil(short / why.pack_quantity) for _, short in why.daily)
    assert row.packs == why.menu_packs + why.par_packs + why.daily_packs
    assert row.cost == row.packs * why.price == row.packs * row.pack.price
    assert sum(line.covered for line in why.lines) <= why.menu_packs * why.pack_quantity


def assert_terms(row, counted, house):
    why = row.derivation
    assert row.order_by == why.cutoff - why.send
    assert row.delivery.at == why.at
    assert isinstance(why.margin, Span)
    for line in counted:
        assert why.at <= line.need.wanted_by - why.margin.exact
    assert row.wanted_by == min((line.need.wanted_by for line in counted), default=why.at)
    assert why.margin == house.receiving_margin


EXAMPLES = {
    "menu": ([], [], [need("flour", 800, 10)]),
    "stock and menu": ([], [batch("flour", 500)], [need("flour", 800, 10), need("flour", 900, 13)]),
    "par": ([2000, 5000], [batch("flour", 500)], []),
    "par and menu": ([2000, 5000], [batch("flour", 3000)], [need("flour", 4000, 10)]),
    "nothing to be had": ([], [], [need("flour", 800, 8)]),
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_PL7_every_figure_follows_from_the_derivation(name):
    par, stock, needs = EXAMPLES[name]
    levels = dict(zip(("floor", "order_up_to"), par, strict=False))
    plan = planned([item(**levels)], [delivers("mill")], [pack("mill", "flour", 700)], needs, stock)
    assert plan.rows
    for row in plan.rows:
        follows(row, HOUSE)


@given(any_house())
@FEW
def test_PL7_every_figure_of_any_plan_follows_from_its_derivation(house):
    for row in house.plan().rows:
        follows(row, house.house)


@given(any_house())
@FEW
def test_PL3_what_counts_in_a_row_can_be_given_of_it_or_of_what_it_leaves(house):
    plan = house.plan()
    for row in plan.rows:
        dies = row.derivation.usable_until
        for line in row.derivation.lines if row.packs and dies else ():
            if line.need.until > dies:
                lot = f"planned/{row.delivery.id}/{row.pack.id}"
                picks = plan.projection.allocations[row.item].picks
                mine = {pick.source for pick in picks if pick.need == line.need.id}
                assert mine
                assert lot not in mine


@given(any_house(opening=False))
@FEW
def test_PL7_where_nothing_is_opened_no_pack_is_said_to_be_bought_for_that(house):
    assert not any(row.derivation.opened for row in house.plan().rows)


@given(any_house())
@FEW
def test_PL7_the_orders_and_the_cost_are_the_sums_of_the_rows(house):
    plan = house.plan()
    goods = defaultdict(int)
    for row in plan.rows:
        if row.packs:
            goods[row.delivery.id] += row.cost
    assert {order.delivery.id: order.goods for order in plan.orders} == goods
    terms = {seller.id: seller for seller in house.suppliers}
    for order in plan.orders:
        seller = terms[order.delivery.supplier]
        assert order.charge == seller.charge
        assert order.below_minimum == max(0, seller.minimum - order.goods)
    beside = sum(order.charge + order.below_minimum for order in plan.orders)
    assert plan.cost == sum(goods.values()) + beside + plan.lost
