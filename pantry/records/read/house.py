"""The house's settings, as the rules see them."""

from sqlalchemy import Connection, bindparam, func, select

from pantry.records.rows import every, table
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    HouseRow,
    ItemRow,
    PersonRow,
    RecipeRow,
    ServiceRow,
    SupplierRow,
)
from pantry.rules.house_time import read_span
from pantry.rules.supply import House

_COUNTED = {
    "items": table(ItemRow),
    "batches": table(BatchRow),
    "recipes": table(RecipeRow),
    "services": table(ServiceRow),
    "suppliers": table(SupplierRow),
    "people": table(PersonRow),
}
_NUMBERS = select(
    *(
        select(func.count())
        .select_from(of)
        .where(of.c.house == bindparam("house"))
        .where(*((of.c.active.is_(True),) if name == "people" else ()))
        .scalar_subquery()
        .label(name)
        for name, of in _COUNTED.items()
    )
)


def settings(row: HouseRow) -> House:
    """The settings as one row keeps them."""
    return House(
        id=row.id,
        name=row.name,
        zone=row.zone,
        currency=row.currency,
        unit_system=row.unit_system,
        notice=read_span(row.notice),
        warning=read_span(row.warning),
        last_call=read_span(row.last_call),
        receiving_margin=read_span(row.receiving_margin),
        policy=row.policy,
        allergen_list=row.allergen_list,
        people=row.people,
        decimal_mark=row.decimal_mark,
    )


def area_names(connection: Connection, house_id: str) -> dict[str, str]:
    """The name of every storage area by its id."""
    return {row.id: row.name for row in every(connection, AreaRow, house=house_id)}


def numbers_of(connection: Connection, house_id: str) -> dict[str, int]:
    """How many items, batches (ever), recipes, services (ever), suppliers and active people."""
    return dict(connection.execute(_NUMBERS, {"house": house_id}).mappings().one())
