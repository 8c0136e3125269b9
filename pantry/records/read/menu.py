"""Recipes, tables, constraints and services, as the rules see them."""

import json
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from fractions import Fraction
from typing import TypeVar

from sqlalchemy import Connection, bindparam, func, select
from sqlmodel import SQLModel

from pantry.records.read.presence import stays
from pantry.records.rows import among, every, made, table
from pantry.records.tables import (
    ConstraintRow,
    DiningTableRow,
    IngredientRow,
    NeedRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
    SubstituteRow,
    VariantRow,
)
from pantry.rules.fefo import Need
from pantry.rules.house_time import read_span
from pantry.rules.menu import (
    Change,
    Constraint,
    Dating,
    DiningTable,
    Ingredient,
    Recipe,
    RecipeKind,
    Scaling,
    Service,
    ServiceState,
    Serving,
    Substitute,
    VariantChange,
)
from pantry.rules.presence import while_they_stay

Kept = TypeVar("Kept", bound=SQLModel)

_SERVICES = (
    select(table(ServiceRow))
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.at >= bindparam("first"))
    .where(table(ServiceRow).c.at <= bindparam("last"))
    .order_by(table(ServiceRow).c.at, table(ServiceRow).c.id)
)
_LAST_SERVED = (
    select(
        table(ServingRow).c.dish,
        table(ServiceRow).c.dining_table,
        func.max(table(ServiceRow).c.on),
    )
    .join_from(
        table(ServiceRow),
        table(ServingRow),
        (table(ServingRow).c.house == table(ServiceRow).c.house)
        & (table(ServingRow).c.service == table(ServiceRow).c.id),
    )
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.state == ServiceState.SERVED.value)
    .where(func.coalesce(table(ServingRow).c.served, 1) > 0)
    .group_by(table(ServingRow).c.dish, table(ServiceRow).c.dining_table)
)


def recipes(
    connection: Connection, house: str, ids: Sequence[str] | None = None
) -> dict[str, Recipe]:
    """The recipes of these ids, or all, by id."""
    lines: dict[str, list[Ingredient]] = {}
    for row in _of_recipes(connection, IngredientRow, house, "recipe", ids):
        lines.setdefault(row.recipe, []).append(_ingredient(row))
    variants: dict[str, dict[str, list[VariantChange]]] = {}
    for change in _of_recipes(connection, VariantRow, house, "recipe", ids):
        of_recipe = variants.setdefault(change.recipe, {})
        of_recipe.setdefault(change.variant, []).append(_variant_change(change))
    return {
        row.id: _recipe(row, lines.get(row.id, ()), variants.get(row.id, {}))
        for row in _of_recipes(connection, RecipeRow, house, "id", ids)
    }


def _of_recipes(
    connection: Connection,
    model: type[Kept],
    house: str,
    column: str,
    ids: Sequence[str] | None,
) -> list[Kept]:
    if ids is None:
        return every(connection, model, house=house)
    return among(connection, model, house, column, ids) if ids else []


def _ingredient(row: IngredientRow) -> Ingredient:
    return Ingredient(
        item=row.item,
        amount=Fraction(row.amount),
        scaling=Scaling(row.scaling),
        trimming_yield=Fraction(row.trimming_yield),
    )


def _variant_change(row: VariantRow) -> VariantChange:
    return VariantChange(
        change=Change(row.change),
        item=row.item,
        with_item=row.with_item,
        amount=None if row.amount is None else Fraction(row.amount),
    )


def _recipe(
    row: RecipeRow, lines: Iterable[Ingredient], variants: dict[str, list[VariantChange]]
) -> Recipe:
    return Recipe(
        id=row.id,
        name=row.name,
        kind=RecipeKind(row.kind),
        yields=Fraction(row.yields),
        ingredients=tuple(lines),
        dating=Dating(row.dating),
        makes=row.makes,
        lead=read_span(row.lead),
        life_days=row.life_days,
        full_recipes=row.full_recipes,
        approved=row.approved,
        put_away=row.put_away_by is not None,
        variants=tuple((name, tuple(changes)) for name, changes in variants.items()),
        season=_season(row),
    )


def _season(row: RecipeRow) -> tuple[tuple[int, int], tuple[int, int]] | None:
    if not row.season_from or not row.season_to:
        return None
    return _month_day(row.season_from), _month_day(row.season_to)


def _month_day(written: str) -> tuple[int, int]:
    month, _, day = written.partition("-")
    return int(month), int(day)


def tables(connection: Connection, house: str) -> dict[str, DiningTable]:
    """Every table by its id."""
    return {
        row.id: DiningTable(row.id, row.name, row.rank, row.usual_covers)
        for row in every(connection, DiningTableRow, house=house)
    }


def constraints(connection: Connection, house: str) -> list[Constraint]:
    """What everybody cannot eat, of whom a stay is known on its days."""
    said = [
        Constraint(
            person=row.person,
            table=row.dining_table,
            cannot_eat=frozenset(json.loads(row.cannot_eat)),
            first=row.first,
            last=row.last,
        )
        for row in every(connection, ConstraintRow, house=house)
    ]
    return while_they_stay(said, stays(connection, house))


def substitutes(connection: Connection, house: str) -> list[Substitute]:
    """What may stand in for what."""
    return [
        Substitute(row.item, row.substitute, Fraction(row.ratio), row.condition)
        for row in every(connection, SubstituteRow, house=house)
    ]


def services(connection: Connection, house: str, first: datetime, last: datetime) -> list[Service]:
    """The services between two instants, in the order of their time."""
    result = connection.execute(_SERVICES, {"house": house, "first": first, "last": last})
    return _with_servings(connection, house, made(ServiceRow, result))


def last_served(connection: Connection, house: str) -> dict[str, dict[str, date]]:
    """The date on which each dish was last served to each table, by dish and table id."""
    found: dict[str, dict[str, date]] = {}
    for dish, table_, on in connection.execute(_LAST_SERVED, {"house": house}):
        found.setdefault(dish, {})[table_] = on
    return found


def service(connection: Connection, house: str, row: ServiceRow) -> Service:
    """One service of which the row is at hand."""
    return _with_servings(connection, house, [row])[0]


def _with_servings(connection: Connection, house: str, rows: list[ServiceRow]) -> list[Service]:
    servings: dict[str, list[Serving]] = {}
    for line in among(connection, ServingRow, house, "service", [row.id for row in rows]):
        serving = Serving(line.course, line.dish, line.variant, line.portions, line.chosen)
        servings.setdefault(line.service, []).append(serving)
    return [_service(row, servings.get(row.id, [])) for row in rows]


def _service(row: ServiceRow, servings: list[Serving]) -> Service:
    return Service(
        id=row.id,
        date=row.on,
        meal=row.meal,
        table=row.dining_table,
        at=row.at,
        covers=row.covers,
        state=ServiceState(row.state),
        servings=tuple(servings),
    )


def need(row: NeedRow) -> Need:
    """What a confirmed service still wants of an item, less what was taken out for it."""
    return Need(
        id=row.id,
        service=row.service,
        dish=row.dish,
        item=row.item,
        quantity=max(0, row.quantity - row.settled),
        wanted_by=row.wanted_by,
        until=row.until,
        rank=row.rank,
        via=row.via,
        last_order_by=row.last_order_by,
    )
