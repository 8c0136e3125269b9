"""Any small house and what is wanted in it: what the properties of the plan hold for."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta

from hypothesis import strategies as st

from pantry.rules.allocation import Need, Source
from pantry.rules.house_time import Span
from pantry.rules.plan import Plan, PlanRow
from pantry.rules.stock import Item
from pantry.rules.supply import DeliveryRule, House, Pack, Supplier
from tests.rules.planned_house import (
    HOUSE,
    NOW,
    batch,
    coming,
    item,
    need,
    nothing_implied,
    opened_lasts,
    planned,
)

GRAMS = st.integers(1, 40).map(lambda n: n * 50)
FIRST_DAY, LAST_DAY = 8, 22
DAYS = st.dates(date(2027, 3, FIRST_DAY), date(2027, 3, LAST_DAY + 1))


@dataclass(frozen=True)
class AnyHouse:
    """What `planned` is told."""

    items: tuple[Item, ...]
    suppliers: tuple[Supplier, ...]
    packs: tuple[Pack, ...]
    needs: tuple[Need, ...]
    stock: tuple[Source, ...]
    house: House = HOUSE
    people: int = 0
    known: Mapping[date, int] = field(default_factory=dict)
    opened_days: int | None = None
    now: datetime = field(default=NOW)

    def plan(self, **changed) -> Plan:
        """Its plan, with something told otherwise."""
        it = replace(self, **changed)
        handling = nothing_implied if it.opened_days is None else opened_lasts(it.opened_days)
        return planned(
            it.items,
            it.suppliers,
            it.packs,
            it.needs,
            it.stock,
            now=it.now,
            handling=handling,
            house=it.house,
            people=it.people,
            known=it.known,
        )


def as_order(row: PlanRow) -> Source:
    """What a row proposes, once it has been ordered."""
    return Source(
        "delivery",
        f"order {row.delivery.id} {row.pack.id}",
        row.item,
        row.packs * row.pack.quantity,
        row.derivation.usable_until,
        None,
        row.delivery.at,
        row.delivery.at + row.derivation.margin.exact,
        row.pack.sealed_quantity,
    )


def rules():
    return st.builds(
        DeliveryRule,
        weekday=st.integers(0, 6),
        at=st.sampled_from((time(7), time(13))),
        cutoff_days_before=st.integers(1, 3),
        cutoff_at=st.sampled_from((time(10), time(22))),
    )


@st.composite
def any_house(draw, *, par=True, opening=True, sellers=2) -> AnyHouse:
    names = ["flour", "cream", "fish"][: draw(st.integers(1, 3))]
    they = tuple(
        Supplier(
            f"seller {number}",
            f"Seller {number}",
            tuple(draw(st.lists(rules(), min_size=1, max_size=4))),
            minimum=draw(st.sampled_from((0, 0, 1500))),
            charge=draw(st.sampled_from((0, 0, 400))),
            may_fail=draw(st.booleans()) if number == 1 else False,
            send=timedelta(minutes=draw(st.sampled_from((0, 30)))),
        )
        for number in range(draw(st.integers(1, sellers)))
    )
    return AnyHouse(
        tuple(_item(draw, name, par) for name in names),
        they,
        tuple(_packs(draw, names, they)),
        tuple(_needs(draw, names)),
        tuple(_stock(draw, names)),
        replace(HOUSE, receiving_margin=Span(exact=timedelta(hours=draw(st.integers(0, 6))))),
        draw(st.integers(0, 3)),
        draw(st.just({}) | st.dictionaries(DAYS, st.integers(0, 4))),
        draw(st.none() | st.integers(1, 4)) if opening else None,
        NOW + timedelta(hours=draw(st.integers(0, 48))),
    )


def _item(draw, name, par):
    if not par:
        return item(name)
    floor = draw(st.none() | GRAMS)
    more = draw(st.none() | GRAMS)
    upto = None if floor is None or more is None else floor + more
    daily = draw(st.sampled_from((0, 0, 50, 200)))
    return item(name, floor=floor, order_up_to=upto, daily_per_head=daily)


def _packs(draw, names, sellers):
    for name in names:
        for seller in sellers:
            sizes = draw(st.sets(st.sampled_from((250, 1000, 2500)), max_size=2))
            for size in sorted(sizes):
                price = draw(st.integers(1, 20)) * size // 50
                life = draw(st.none() | st.integers(1, 9))
                id_ = f"{seller.id}:{name}:{size}"
                sealed = draw(st.sampled_from((size * 1000, 250_000, 0)))
                yield Pack(id_, seller.id, name, id_, size * 1000, sealed, price, life)


def _needs(draw, names):
    for number in range(draw(st.integers(0, 6))):
        day = draw(st.integers(FIRST_DAY + 1, LAST_DAY))
        hour = draw(st.sampled_from((8, 12, 19)))
        yield need(
            draw(st.sampled_from(names)),
            draw(GRAMS),
            day,
            hour=hour,
            until=None if hour < 19 else need("x", 1, day, hour=19).wanted_by,
            rank=draw(st.integers(1, 3)),
            id_=f"need {number}",
        )


def _stock(draw, names):
    for number in range(draw(st.integers(0, 4))):
        name = draw(st.sampled_from(names))
        if draw(st.booleans()):
            dies = draw(st.none() | st.integers(FIRST_DAY, LAST_DAY))
            yield batch(name, draw(GRAMS), dies=dies, id_=f"batch {number}")
        else:
            order = coming(name, draw(GRAMS), draw(st.integers(FIRST_DAY, LAST_DAY)))
            yield replace(order, id=f"order {number}")
