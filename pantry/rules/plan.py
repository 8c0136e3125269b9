"""What to order, of whom, by when: net requirements made into orders (PL1-PL5, PL7)."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction
from itertools import chain

from pantry.rules.allocation import Need
from pantry.rules.basket import Basket, Order
from pantry.rules.daily_use import daily_needs
from pantry.rules.house_time import local_date
from pantry.rules.kitchen import Kitchen, Projection
from pantry.rules.market import Market
from pantry.rules.occupancy import Occupancy
from pantry.rules.plan_rows import PlanRow, Rows
from pantry.rules.planning import ItemPlan, Planning
from pantry.rules.supply import House, Pack, Supplier

__all__ = ["Plan", "PlanRow", "plan"]


@dataclass(frozen=True, slots=True)
class Plan:
    """What to order, and what comes of it.

    Attributes:
        rows: by order-by, then supplier and item; what nobody can ever make is last.
        orders: what each delivery comes to, in the order of time.
        lost: the price, in minor units, of what the proposed packs leave to die by the horizon.
        projection: every need with what it is given, the proposed lots among the sources.
    """

    rows: tuple[PlanRow, ...]
    orders: tuple[Order, ...]
    lost: Fraction
    projection: Projection

    @property
    def cost(self) -> Fraction:
        """Goods, charges, what is below minimums, and what is lost, in minor units (PL4)."""
        beside = sum(order.goods + order.charge + order.below_minimum for order in self.orders)
        return beside + self.lost


def plan(
    house: House,
    kitchen: Kitchen,
    suppliers: Iterable[Supplier],
    packs: Iterable[Pack],
    direct: Iterable[Need],
    now: datetime,
    horizon: datetime,
    *,
    placed: frozenset[str] = frozenset(),
    covered: Mapping[str, int] = {},
    people: Mapping[date, int] = {},
    at_one_table: int = 0,
    yielding: frozenset[str] = frozenset(),
) -> Plan:
    """What to order by when, so that every confirmed need is covered and par is kept.

    First what the needs are short of is bought lot by lot (PL1, PL3) and made cheaper together
    (PL4); then par is added where what is free falls under a floor (PL1), and what daily use is
    short of even so (RQ5). What no delivery can make is a row of its own, *missed* (PL5).

    Args:
        house: its people, receiving margin, warning and last-call times.
        kitchen: items, preparations, and every source: batches, open orders, harvests.
        suppliers: all of them.
        packs: all of them, each of one of the suppliers.
        direct: the needs of confirmed services; daily use is added here.
        now: the present, aware, in UTC.
        horizon: daily use and par are looked at until then; needs may lie beyond.
        placed: ids of deliveries for which an order is already placed.
        covered: what each need had been promised before, by id.
        people: in the house on days of which another number is known than the house's (RQ5, PL6).
        at_one_table: the most who usually eat together; 0: all the house's people (PL6).
        yielding: ids of needs that the chef has agreed to uncover.

    Raises:
        UnreadableInput, NotThere, MissingFact: what the recipes refuse; see `kitchen.project`.
    """
    needs = tuple(direct)
    zone = kitchen.zone
    first, last = local_date(now, zone), local_date(horizon, zone)
    daily = daily_needs(kitchen.items, house.people, first, last, zone, people)
    market = Market(
        suppliers,
        packs,
        margin=house.receiving_margin,
        zone=zone,
        now=now,
        last=max((horizon, *(need.wanted_by for need in needs))),
    )
    used_daily = frozenset(need.id for need in daily)
    planning = Planning(
        kitchen,
        market,
        used_daily,
        horizon,
        placed,
        covered,
        yielding,
        Occupancy(house.people, at_one_table, people),
    )
    planning.run((*needs, *daily))
    return _answer(planning, Rows(house, market, used_daily))


def _answer(planning: Planning, rows: Rows) -> Plan:
    plans = planning.plans
    allocations = {
        **planning.projection.allocations,
        **{item: of_item.final.allocation for item, of_item in plans.items()},
    }
    needs = {**dict.fromkeys(plans, ()), **planning.projection.needs}
    projection = replace(planning.projection, needs=needs, allocations=allocations)
    basket = Basket(planning.market.suppliers, planning.placed)
    basket.add(chain.from_iterable(of_item.final.lots for of_item in plans.values()))
    lost = (of_item.final.lost(planning.horizon) for of_item in plans.values())
    return Plan(
        tuple(sorted(_rows(plans, projection, rows), key=_by_deadline)),
        basket.orders(),
        sum(lost, Fraction(0)),
        projection,
    )


def _rows(plans: Mapping[str, ItemPlan], projection: Projection, rows: Rows) -> Iterator[PlanRow]:
    for item, of_item in plans.items():
        yield from rows.to_order(of_item)
        yield from rows.par_missed(item, of_item.refills)
    for item, needs in projection.needs.items():
        if projection.allocations[item].short:
            yield from rows.missed(needs, projection.allocations[item])


def _by_deadline(row: PlanRow) -> tuple[bool, datetime, str, str, str]:
    at = row.order_by or row.wanted_by
    return (row.order_by is None, at, row.supplier or "", row.item, row.pack.id if row.pack else "")
