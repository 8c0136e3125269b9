"""What a late change would do, before it is done: short, spare, and until when it can be mended.

The kitchen is projected as it stands and as it would stand, by the same code that plans again when
the change is given; only what hangs together with the service's items is looked at. How it stands
is kept for as long as nothing in the house moves, since a person who asks about eight asks about
nine next.
"""

from collections import OrderedDict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from threading import Lock
from typing import TypeVar
from weakref import WeakKeyDictionary

from sqlalchemy import Engine
from sqlmodel import SQLModel

from pantry.records.read import menu, stock
from pantry.records.read.kitchen_part import Part, Planned, part_of, planned
from pantry.records.rows import find, look_among
from pantry.records.tables import BatchRow, NeedRow, RecipeRow, ServiceRow
from pantry.refusals import UnreadableInput, declare
from pantry.reports.meal_asked import meal_asked
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.reports.which_service import service_ahead, service_name
from pantry.rules.fefo import Need
from pantry.rules.late_change import Changed, changed
from pantry.rules.menu import Recipe, Service, ServiceState
from pantry.rules.recipes import direct_needs
from pantry.rules.services import settled
from pantry.rules.stock import Item

NOT_CONFIRMED = declare("not_confirmed", "Nothing is set aside for the service yet.")
Kept = TypeVar("Kept", bound=SQLModel)

_OFF = "yes"
_KEPT = 8
"""So many services are looked at at once, at most, by everybody; an estimate."""


def late_change(view: View, service: str, **to: str | int) -> list[Row]:
    """A row for each effect of changing a confirmed service, the worst first.

    Args:
        view: the house as it stands.
        service: which, `DATE/MEAL/TABLE`.
        **to: what would be otherwise: `covers`, `date`, `meal`, `table`, `time`; `off=yes` where
            nobody eats.

    Raises:
        NotThere: `service_not_ahead`, `table_not_there`.
        UnreadableInput: `not_confirmed`, `meal_unreadable`.
    """
    stands = _as_it_stands(view, _row(view, service))
    then = replace(view, now=stands.at)
    is_off = to.pop("off", None) == _OFF
    needs = [] if is_off else _needs(then, stands, _changed(then, stands.service, to))
    rest = [need for need in stands.before.needs if need.service != stands.service.id or need.via]
    after = planned(then, stands.part, [*rest, *needs])
    sources = (each for of_item in stands.part.sources.values() for each in of_item)
    found = changed(stands.before.projection, after.projection, sources, stands.at)
    names = _Names.of(view, found)
    return [_told(stands.part.items[each.item], each, names) for each in found]


def _row(view: View, written: str) -> ServiceRow:
    """The confirmed service that is meant."""
    row = find(view.connection, ServiceRow, house=view.id, id=service_name(written))
    if row is None or row.state == ServiceState.PROPOSED:
        name = service_ahead(view, written)
        raise UnreadableInput(
            NOT_CONFIRMED,
            f"{name} is not confirmed: nothing is set aside for it yet.",
            "Ask for its coverage, which says what it would need.",
            value=name,
            field="service",
        )
    if row.state != ServiceState.CONFIRMED:
        service_ahead(view, written)
    return row


@dataclass(frozen=True, slots=True)
class _Stands:
    """A confirmed service, with the part of the kitchen that hangs together with it.

    Attributes:
        at: the instant at which it was read.
        recipes: of its dishes.
        items: of all their ingredients.
        taken: what was taken out for it already, by item.
        before: that part, planned as it stands.
    """

    at: datetime
    service: Service
    recipes: Mapping[str, Recipe]
    items: Mapping[str, Item]
    taken: Mapping[str, int]
    part: Part
    before: Planned


def _read(view: View, row: ServiceRow) -> _Stands:
    connection, house = view.connection, view.id
    service = menu.service(connection, house, row)
    recipes = menu.recipes(connection, house, sorted({each.dish for each in service.servings}))
    own = look_among(connection, NeedRow, house, "service", [service.id])
    part = part_of(view, {need.item for need in own})
    return _Stands(
        at=view.now,
        service=service,
        recipes=recipes,
        items=stock.items(connection, house, sorted(set(_named(recipes)))),
        taken=stock.taken_out(connection, house, service.id),
        part=part,
        before=planned(view, part),
    )


def _named(recipes: Mapping[str, Recipe]) -> Iterator[str]:
    """Every item that recipes or their variants name."""
    for recipe in recipes.values():
        yield from (line.item for line in recipe.ingredients)
        for _, changes in recipe.variants:
            yield from (each.item for each in changes if each.item)
            yield from (each.with_item for each in changes if each.with_item)


_Key = tuple[str, int, str, datetime]
_stood: WeakKeyDictionary[Engine, OrderedDict[_Key, _Stands]] = WeakKeyDictionary()
_looking = Lock()


def _as_it_stands(view: View, row: ServiceRow) -> _Stands:
    """The service as it stands, as it was read before if nothing in the house has moved since.

    Within a minute the clock alone changes nothing that a person could decide by.
    """
    minute = view.now.replace(second=0, microsecond=0)
    key = (view.id, view.row.change, row.id, minute)
    with _looking:
        kept = _stood.setdefault(view.connection.engine, OrderedDict())
        if key in kept:
            kept.move_to_end(key)
            return kept[key]
    stands = _read(view, row)
    with _looking:
        kept[key] = stands
        while len(kept) > _KEPT:
            kept.popitem(last=False)
    return stands


def _changed(view: View, service: Service, to: Mapping[str, str | int]) -> Service:
    """The service as it would be."""
    local = service.at.astimezone(view.zone).time()
    to_be = meal_asked(
        view,
        on=str(to.get("date", service.date)),
        meal=str(to.get("meal", service.meal)),
        table=str(to.get("table", service.table)),
        clock=str(to.get("time", local.isoformat())),
    )
    return replace(
        service,
        id=to_be.id,
        date=to_be.date,
        meal=to_be.meal,
        table=to_be.table,
        at=to_be.at,
        covers=int(to.get("covers", service.covers)),
    )


def _needs(view: View, stands: _Stands, service: Service) -> list[Need]:
    """What the changed service would still want.

    What was taken out for it counts where it stays on its day, at its meal and table; elsewhere a
    person says what becomes of it.
    """
    needs = direct_needs(service, stands.recipes, stands.items, view.tables, view.zone)
    taken = settled(needs, stands.taken if service.id == stands.service.id else {})
    return [replace(need, quantity=need.quantity - taken[need.id]) for need in needs]


@dataclass(frozen=True, slots=True)
class _Names:
    """What batches and dishes are called."""

    labels: Mapping[str, str]
    dishes: Mapping[str, str]

    @classmethod
    def of(cls, view: View, found: Sequence[Changed]) -> "_Names":
        batches = [one.source.id for one in found if one.source and one.source.kind == "batch"]
        dishes = [one.need.dish for one in found if one.need]
        return cls(
            {row.id: row.label for row in _called(view, BatchRow, batches)},
            {row.id: row.name for row in _called(view, RecipeRow, dishes)},
        )


def _called(view: View, model: type[Kept], ids: Sequence[str]) -> list[Kept]:
    return look_among(view.connection, model, view.id, "id", ids) if ids else []


def _told(item: Item, one: Changed, names: _Names) -> Row:
    need, source = one.need, one.source
    batch = source.id if source and source.kind == "batch" else None
    return {
        "effect": one.effect.value,
        "item": item.name,
        "quantity": amount(one.quantity, item),
        "service": need.service if need else None,
        "dish": names.dishes.get(need.dish) if need else None,
        "mend_until": instant(need.last_order_by) if need else None,
        "batch": batch,
        "label": names.labels[batch] if batch else None,
        "usable_until": instant(source.usable_until) if source else None,
        "good_until": instant(source.good_until) if source else None,
        "when": instant(source.ready if source else one.on),
    }
