"""What holds of any plan (PL1, PL3, PL4, PL5, RQ5)."""

from collections import defaultdict
from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from pantry.rules import planning
from pantry.rules.deadlines import Alert
from pantry.rules.house_time import before
from pantry.rules.market import Market
from tests.rules import planned_house as rowan
from tests.rules.any_house import AnyHouse, any_house, as_order
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


class Taking:
    """So much of an item taken at an instant while every need still gets what the plan gives it.

    Decided by a linear programme (HiGHS through SciPy) that shares no code with rules/: how much
    of each source goes to each need and to who takes it. Nobody uses the item daily, and opening
    changes nothing.
    """

    def __init__(self, plan, house, item):
        margin = house.house.receiving_margin.exact
        self.sources = [
            (one.quantity, one.ready or house.now, one.ready or house.now, one.usable_until)
            for one in house.stock
            if one.item == item
        ]
        for row in ordered(plan):
            if row.item == item:
                at, dies = row.delivery.at, row.derivation.usable_until
                self.sources.append((row.packs * row.pack.quantity, at, at + margin, dies))
        short = plan.projection.allocations[item].short
        self.wants = [
            (need.quantity - short.get(need.id, 0), max(need.wanted_by, house.now), need.until)
            for need in plan.projection.needs.get(item, ())
        ]

    def leaves_nobody_shorter(self, quantity, instant):
        pairs = list(self._pairs(instant))
        if not pairs:
            return quantity == 0
        out, given = np.zeros((2, max(len(self.sources), len(self.wants) + 1), len(pairs)))
        for number, (source, want) in enumerate(pairs):
            out[source, number] = given[want, number] = 1
        found = linprog(
            np.zeros(len(pairs)),
            A_ub=out[: len(self.sources)],
            b_ub=[source[0] for source in self.sources],
            A_eq=given[: len(self.wants) + 1],
            b_eq=[quantity, *(want[0] for want in self.wants)],
        )
        assert found.status in (0, 2), found.message  # solved, or proven to have no solution
        return found.status == 0

    def _pairs(self, instant):
        for source, (_, at, ready, dies) in enumerate(self.sources):
            if at <= instant and (dies is None or dies >= instant):
                yield source, 0
            for number, (_, wanted_by, until) in enumerate(self.wants, start=1):
                if ready <= wanted_by and (dies is None or dies >= max(until, wanted_by)):
                    yield source, number


PAR_LOT_OLDER_THAN_THE_MENUS = AnyHouse(
    (rowan.item("fish", floor=50),),
    (rowan.delivers("seller 0", (0, 1), before=1, until=10),),
    (rowan.pack("seller 0", "fish", 250, 5),),
    (rowan.need("fish", 250, 15, hour=8),),
    (),
)
"""Par's pack comes on the 9th, the menu's on the 15th. First expired, first out gives the need the
older one, yet 250 g can be taken all the while: then the need has the pack of the 15th (AL2)."""


@given(any_house(opening=False, sellers=1))
@example(PAR_LOT_OLDER_THAN_THE_MENUS)
@FEW
def test_PL1_at_every_delivery_the_floor_could_be_taken_and_no_need_be_shorter(house):
    """Free is what could be taken, not what is promised by batch: a promise can be swapped (AL2).

    If what is promised were not free, each need of the horizon would have to be bought before the
    first delivery for par, and not at its latest delivery (PL3). Nobody is away: less fits those
    who stay (PL6).
    """
    house = replace(house, known={})
    plan = house.plan()
    market = market_of(house)
    for one in house.items:
        if one.floor is None or one.daily_per_head or not market.packs(one.id):
            continue
        taking = Taking(plan, house, one.id)
        for delivery in market.calendar.deliveries["seller 0"]:
            if delivery.order_by >= house.now <= delivery.at <= HORIZON:
                assert taking.leaves_nobody_shorter(one.floor, delivery.at)


def placed(house):
    """The house once it has ordered what its plan says; orders count from their delivery on."""
    rows = ordered(house.plan())
    orders = (replace(as_order(row), ready=row.delivery.at) for row in rows)
    return replace(house, stock=(*house.stock, *orders))


def test_PL1_what_par_has_ordered_is_not_ordered_again_when_the_menu_is_given_the_older_pack():
    house = PAR_LOT_OLDER_THAN_THE_MENUS
    assert [row.because for row in ordered(house.plan())] == [("par",), (house.needs[0].service,)]
    assert not ordered(placed(house).plan())


def test_PL1_what_par_has_ordered_is_not_ordered_again_along_a_chain_of_swaps():
    """Two dinners: each takes the pack before its own, and only the last pack is over."""
    they = (rowan.delivers("seller 0", (0, 2, 4), before=1, until=10),)
    needs = (rowan.need("fish", 250, 12, hour=8), rowan.need("fish", 250, 15, hour=8, id_="later"))
    house = replace(PAR_LOT_OLDER_THAN_THE_MENUS, suppliers=they, needs=needs)
    assert [row.delivery.at.day for row in ordered(house.plan())] == [10, 12, 15]
    assert not ordered(placed(house).plan())


def test_PL1_bread_that_dies_before_the_next_delivery_is_not_ordered_again():
    """It lasts its day; no second loaf of the same day lasts the night."""
    they = (rowan.delivers("seller 0"),)
    loaf = rowan.pack("seller 0", "bread", 250, life=1)
    house = AnyHouse((rowan.item("bread", floor=200),), they, (loaf,), (), ())
    assert {row.packs for row in ordered(house.plan())} == {1}
    assert not ordered(placed(house).plan())


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
