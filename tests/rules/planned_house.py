"""Rowan Lodge, an invented house: what the tests of the plan are told of."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

from pantry.rules.allocation import Handling, Need, Source
from pantry.rules.house_time import Span, end_of_day, last_day, local_date, zone
from pantry.rules.kitchen import Kitchen
from pantry.rules.menu import Recipe
from pantry.rules.plan import Plan, plan
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.supply import DeliveryRule, House, Pack, Supplier

LONDON = zone("Europe/London")
NOW = datetime(2027, 3, 8, 6, tzinfo=UTC)  # a Monday in winter time
HORIZON = NOW + timedelta(days=14)
EVERY_DAY = range(7)

HOUSE = House(
    id="rowan-lodge",
    name="Rowan Lodge",
    zone="Europe/London",
    currency="GBP",
    unit_system="metric",
    notice=Span(exact=timedelta(hours=72)),
    warning=Span(exact=timedelta(hours=24)),
    last_call=Span(exact=timedelta(hours=2)),
    receiving_margin=Span(),
    policy="uk",
    allergen_list="eu",
)


def at(day: int, hour: int = 7, minute: int = 0) -> datetime:
    """March 2027; the 8th is a Monday."""
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


def delivers(id_: str, weekdays=EVERY_DAY, *, hour=7, before=1, until=22, **terms) -> Supplier:
    """A supplier with a delivery on each weekday, ordered so many days before until an hour."""
    rules = tuple(DeliveryRule(day, time(hour), before, time(until)) for day in weekdays)
    return Supplier(id_, id_.title(), rules, **terms)


def pack(supplier, item, quantity, price=100, *, life=None, sealed=0) -> Pack:
    """Quantity in whole base units."""
    id_ = f"{supplier}:{item}:{quantity}"
    return Pack(id_, supplier, item, id_, round(quantity * 1000), sealed, price, life)


def item(id_="flour", **terms) -> Item:
    """Par in whole base units."""
    for level in ("floor", "order_up_to", "daily_per_head"):
        if terms.get(level) is not None:
            terms[level] = round(terms[level] * 1000)
    return Item(id_, id_.title(), BaseUnit.G, **terms)


def batch(item_, quantity, *, dies: int | None = None, id_="") -> Source:
    """What stands there; `dies` is the last day it is usable."""
    until = None if dies is None else at(dies, 23, 59) + timedelta(seconds=59)
    id_ = id_ or f"batch of {item_}"
    return Source("batch", id_, item_, round(quantity * 1000), until, None, NOW)


def coming(item_, quantity, day, hour=7) -> Source:
    """An open order."""
    when = at(day, hour)
    return Source(
        "delivery", f"order for {day}", item_, round(quantity * 1000), None, None, when, ready=when
    )


def need(item_, quantity, day, *, hour=12, until: datetime | None = None, rank=1, id_="") -> Need:
    """What a dinner at 19:00 wants, to be there at `hour` of its day."""
    service = f"2027-03-{day:02}/dinner/family"
    return Need(
        id_ or f"{service}|{item_}",
        service,
        "dish",
        item_,
        round(quantity * 1000),
        at(day, hour),
        until or at(day, 19),
        rank,
    )


def nothing_implied(_: Item) -> Handling:
    return Handling()


def opened_lasts(days: int):
    """What is opened lasts so many days, the day of opening being day 1."""

    def until(opened: datetime) -> datetime:
        return end_of_day(local_date(opened, LONDON) + timedelta(days=days - 1), LONDON)

    return lambda _: Handling(opened_until=until)


def planned(
    items,
    suppliers,
    packs,
    needs=(),
    stock=(),
    *,
    now: datetime = NOW,
    horizon: datetime = HORIZON,
    handling=nothing_implied,
    preparations: Mapping[str, Recipe] = {},
    fixed=(),
    house: House = HOUSE,
    people: int = 0,
    known: Mapping[date, int] = {},
    **terms,
) -> Plan:
    """The plan of Rowan Lodge with these items, suppliers, packs, needs and stock.

    `people` are there as a rule, and so many on the days that are `known`.
    """
    by_item: dict[str, list[Source]] = {}
    for source in stock:
        by_item.setdefault(source.item, []).append(source)
    kitchen = Kitchen(
        {one.id: one for one in items},
        preparations,
        by_item,
        dict(fixed),
        handling,
        zone(house.zone),
        own_life(zone(house.zone)),
    )
    settings = replace(house, people=people)
    return plan(settings, kitchen, suppliers, packs, needs, now, horizon, people=known, **terms)


def own_life(of_zone):
    """How long what is made keeps where only its recipe says: without a life, for ever."""

    def until(recipe: Recipe, at: datetime) -> datetime | None:
        days = recipe.life_days
        return end_of_day(last_day(local_date(at, of_zone), days), of_zone) if days else None

    return until


def figures(plan_: Plan):
    """Of each row: item, net in whole base units, packs, the day it comes, why."""
    return [
        (
            row.item,
            row.net / 1000,
            row.packs,
            row.delivery.at.day if row.delivery else None,
            row.because,
        )
        for row in plan_.rows
    ]
