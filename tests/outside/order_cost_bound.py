"""The bound that a MILP solver proves for what a house's orders cost at least (PL4).

The model is written from the rules, not from the code: whole packs on deliveries, a charge for
each delivery used, what an order is below the minimum, the price of what dies by the horizon
unused. Stock and packs are given to needs that they reach in time and in date; and, as it is given
in a kitchen, a need has what lives longer only once nothing is left of what dies first (AL1).
Without that the model could let stock die for nothing and use up what is bought, which costs if it
dies; no plan may do so. (Of seeds 0 to 199 one house would be at 1.167 of such a bound, all others
under 1.10.) The latest delivery (PL3) is not asked of it: it may buy on any day that does.

HiGHS, through SciPy's `milp`, has a minute for each house, of which it needs a second or two, and
stops at a gap of one in ten thousand. What is used is its dual bound, proven whenever it stops.
"""

from itertools import chain, product
from math import inf

from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from pantry.rules.allocation import Need, Source
from tests.outside.order_cost_houses import END, Drawn, Lot

KILO = 1_000_000
SECONDS = 60
GAP = 1e-4


class Model:
    """Variables and rows of a MILP, added one by one; amounts in kilos."""

    def __init__(self):
        self.costs, self.whole, self.upper = [], [], []
        self.at, self.values, self.low, self.high = [], [], [], []

    def variable(self, cost=0.0, *, whole=False, upper=inf):
        self.costs.append(cost)
        self.whole.append(int(whole))
        self.upper.append(upper)
        return len(self.costs) - 1

    def row(self, terms, low, high):
        for variable, value in terms:
            self.at.append((len(self.low), variable))
            self.values.append(value)
        self.low.append(low)
        self.high.append(high)

    def bound(self):
        shape = (len(self.low), len(self.costs))
        rows, columns = zip(*self.at, strict=True)
        matrix = coo_array((self.values, (rows, columns)), shape).tocsr()
        found = milp(
            self.costs,
            constraints=LinearConstraint(matrix, self.low, self.high),
            integrality=self.whole,
            bounds=Bounds(0, self.upper),
            options={"time_limit": SECONDS, "mip_rel_gap": GAP},
        )
        return found.mip_dual_bound


class Given:
    """What can be given of one batch or lot to the needs that it reaches.

    Attributes:
        dies: its last usable instant; None: none.
        flows: by need id, the variable of what it gives.
        most: kilos that are worth having of it.
        there: the terms of how much there is of it.
    """

    def __init__(self, model: Model, source: Source | Lot, needs: list[Need]):
        self.dies = source.usable_until
        reached = [need for need in needs if reaches(source, need)]
        self.flows = {need.id: model.variable() for need in reached}
        if isinstance(source, Lot):
            # One pack more than all that it reaches can save no more than it costs.
            size = source.pack.quantity
            packs = -(-sum(need.quantity for need in reached) // size)
            self.packs = model.variable(source.pack.price, whole=True, upper=packs)
            self.most = packs * size / KILO
            self.there = (self.packs, size / KILO)
        else:
            self.most = source.quantity / KILO
            self.there = (model.variable(upper=self.most), 1)
            model.row([self.there], self.most, self.most)

    def left(self, needs: list[Need]) -> list[tuple[int, float]]:
        """The terms of what is left of it once these needs are given."""
        return [self.there, *((self.flows[n.id], -1) for n in needs if n.id in self.flows)]


def reaches(source: Source | Lot, need: Need) -> bool:
    if isinstance(source, Lot):
        return source.serves(need)
    alive = source.usable_until is None or source.usable_until >= need.until
    return source.item == need.item and alive


def proven_bound(house: Drawn) -> float:
    """What no orders for this house can cost less than, in minor units."""
    model = Model()
    lots = house.lots()
    bought: dict[Lot, int] = {}
    for item in house.items:
        needs = sorted(
            (n for n in house.needs if n.item == item), key=lambda n: (n.wanted_by, n.id)
        )
        of_item = [lot for lot in lots if lot.pack.item == item]
        batches = [batch for batch in house.stock if batch.item == item]
        given = [Given(model, source, needs) for source in (*batches, *of_item)]
        cover(model, needs, given)
        first_expired_first_out(model, needs, given)
        for lot, source in zip(of_item, given[len(batches) :], strict=True):
            bought[lot] = source.packs
            if lot.usable_until is not None and lot.usable_until <= END:
                lost = model.variable(lot.pack.price * KILO / lot.pack.quantity)
                model.row([*source.left(needs), (lost, -1)], 0, 0)
    charge_deliveries(model, house, bought)
    return model.bound()


def cover(model, needs, given):
    """Every need is met, and nothing gives more than there is of it."""
    for need in needs:
        kilos = need.quantity / KILO
        model.row([(s.flows[need.id], 1) for s in given if need.id in s.flows], kilos, kilos)
    for source in given:
        model.row(source.left(needs), 0, inf)


def first_expired_first_out(model, needs, given):
    """A need has what lives longer only once nothing is left of what dies first (AL1).

    Of what dies at the same instant either may go first.
    """
    ends = [s.dies for s in given if s.dies is not None]
    for dies, (number, need) in product(sorted(set(ends)), enumerate(needs)):
        first = [s for s in given if s.dies == dies and need.id in s.flows]
        later = [s for s in given if need.id in s.flows and (s.dies is None or s.dies > dies)]
        if not first or not later:
            continue
        used_up = model.variable(whole=True, upper=1)
        kilos = need.quantity / KILO
        most = sum(source.most for source in first)
        model.row([(used_up, kilos), *((s.flows[need.id], -1) for s in later)], 0, inf)
        left = chain.from_iterable(source.left(needs[: number + 1]) for source in first)
        model.row([*left, (used_up, most)], -inf, most)


def charge_deliveries(model, house, bought):
    """A charge for each delivery used, and what its goods are below the minimum."""
    for seller in house.suppliers:
        for at in {lot.at for lot in bought if lot.pack.supplier == seller.id}:
            on_it = {
                lot: packs
                for lot, packs in bought.items()
                if lot.at == at and lot.pack.supplier == seller.id
            }
            used = model.variable(seller.charge, whole=True, upper=1)
            below = model.variable(1.0)
            for packs in on_it.values():
                model.row([(used, model.upper[packs]), (packs, -1)], 0, inf)
            goods = [(packs, lot.pack.price) for lot, packs in on_it.items()]
            model.row([*goods, (below, 1), (used, -seller.minimum)], 0, inf)
