"""Rows as the tables declare them, through prepared Core statements: no session, no identity map.

SQLModel declares the tables and gives the rows their types; statements are built once a table and
compiled once by SQLAlchemy's own cache. A session for each command costs eleven times as much.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, TypeVar, cast

from sqlalchemy import Connection, RowMapping, Table, and_, bindparam, insert, select
from sqlmodel import SQLModel

Row = TypeVar("Row", bound=SQLModel)

_CHUNK = 1_000


@cache
def table(model: type[SQLModel]) -> Table:
    """The Core table a model declares."""
    return cast("Table", model.__table__)  # type: ignore[attr-defined]


def _equal(model: type[SQLModel], columns: Iterable[str]) -> Any:  # noqa: ANN401 - SQLAlchemy's own
    return and_(*(table(model).c[name] == bindparam(f"of_{name}") for name in columns))


@cache
def _select(model: type[SQLModel], columns: tuple[str, ...]) -> Any:  # noqa: ANN401 - as above
    statement = select(table(model)).order_by(*table(model).primary_key.columns)
    return statement.where(_equal(model, columns)) if columns else statement


@cache
def _update(model: type[SQLModel], columns: tuple[str, ...], changed: tuple[str, ...]) -> Any:  # noqa: ANN401 - as above
    values: dict[str, Any] = {name: bindparam(f"to_{name}") for name in changed}
    return table(model).update().where(_equal(model, columns)).values(values)


@cache
def _delete(model: type[SQLModel], columns: tuple[str, ...]) -> Any:  # noqa: ANN401 - as above
    return table(model).delete().where(_equal(model, columns))


@cache
def _insert(model: type[SQLModel]) -> Any:  # noqa: ANN401 - as above
    return insert(table(model))


def _named(prefix: str, values: Mapping[str, object]) -> dict[str, object]:
    return {f"{prefix}_{name}": value for name, value in values.items()}


def every(connection: Connection, model: type[Row], **equal: object) -> list[Row]:
    """The rows whose columns equal these values, in the order of their primary key."""
    result = connection.execute(_select(model, tuple(equal)), _named("of", equal))
    return [model.model_construct(**row) for row in result.mappings()]


def stream(connection: Connection, model: type[SQLModel], **equal: object) -> Iterator[RowMapping]:
    """The same rows as `every`, as mappings and a thousand at a time: a table may hold years."""
    result = connection.execute(
        _select(model, tuple(equal)), _named("of", equal), execution_options={"yield_per": _CHUNK}
    )
    yield from result.mappings()


def find(connection: Connection, model: type[Row], **equal: object) -> Row | None:
    """The first row whose columns equal these values, or None."""
    result = connection.execute(_select(model, tuple(equal)), _named("of", equal))
    row = result.mappings().first()
    return None if row is None else model.model_construct(**row)


def one(connection: Connection, model: type[Row], **equal: object) -> Row:
    """The row that must be there.

    Raises:
        LookupError: it is not; a fault of the program or a damaged database.
    """
    row = find(connection, model, **equal)
    if row is None:
        raise LookupError(f"no {table(model).name} with {equal}")
    return row


def add(connection: Connection, *rows: SQLModel) -> None:
    """Insert rows, those of one table in one statement."""
    by_model: dict[type[SQLModel], list[dict[str, Any]]] = {}
    for row in rows:
        by_model.setdefault(type(row), []).append(row.model_dump())
    for model, values in by_model.items():
        connection.execute(_insert(model), values)


def put(connection: Connection, model: type[SQLModel], **values: object) -> None:
    """Insert one row given as all its values, without making a row of them first.

    What every command writes is written so: making the row costs three times the insert.
    """
    connection.execute(_insert(model), values)


def change(
    connection: Connection, model: type[SQLModel], where: Mapping[str, object], **to: object
) -> None:
    """Set columns of the rows whose columns equal these values."""
    statement = _update(model, tuple(where), tuple(to))
    connection.execute(statement, _named("of", where) | _named("to", to))


def remove(connection: Connection, model: type[SQLModel], **equal: object) -> None:
    """Delete the rows of what is only derived; the ledger, promises and journal never are."""
    connection.execute(_delete(model, tuple(equal)), _named("of", equal))


def among(
    connection: Connection, model: type[Row], house: str, column: str, values: Sequence[str]
) -> list[Row]:
    """The rows of a house whose column is one of these values, in the order of their key."""
    if not values:
        return []
    statement = _among(model, column)
    result = connection.execute(statement, {"of_house": house, "of_values": list(values)})
    return [model.model_construct(**row) for row in result.mappings()]


@cache
def _among(model: type[SQLModel], column: str) -> Any:  # noqa: ANN401 - as above
    columns = table(model).c
    return (
        select(table(model))
        .where(columns.house == bindparam("of_house"))
        .where(columns[column].in_(bindparam("of_values", expanding=True)))
        .order_by(*table(model).primary_key.columns)
    )
