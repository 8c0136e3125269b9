"""Rows as the tables declare them, through prepared Core statements: no session, no identity map.

SQLModel declares the tables and gives the rows their types; statements are built once a table and
compiled once by SQLAlchemy's own cache. A session for each command costs eleven times as much.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, TypeVar, cast

from sqlalchemy import Connection, CursorResult, RowMapping, Table, and_, bindparam, insert, select
from sqlmodel import SQLModel

Row = TypeVar("Row", bound=SQLModel)

_CHUNK = 1_000

_MOST_VALUES = 10_000
"""PostgreSQL takes 65,535 values in a statement, SQLite as usually built 32,766."""


@cache
def table(model: type[SQLModel]) -> Table:
    """The Core table a model declares."""
    return cast("Table", model.__table__)  # type: ignore[attr-defined]


Columns = tuple[tuple[str, bool], ...]
"""Columns by which rows are found, each with whether it is empty: NULL equals nothing in SQL."""


def _columns(values: Mapping[str, object]) -> Columns:
    return tuple((name, value is None) for name, value in values.items())


def _equal(model: type[SQLModel], columns: Columns) -> Any:  # noqa: ANN401 - SQLAlchemy's own
    of = table(model).c
    return and_(
        *(
            of[name].is_(None) if empty else of[name] == bindparam(f"of_{name}")
            for name, empty in columns
        )
    )


@cache
def _select(model: type[SQLModel], columns: Columns) -> Any:  # noqa: ANN401 - as above
    statement = select(table(model)).order_by(*table(model).primary_key.columns)
    return statement.where(_equal(model, columns)) if columns else statement


@cache
def _update(model: type[SQLModel], columns: Columns, changed: tuple[str, ...]) -> Any:  # noqa: ANN401 - as above
    values: dict[str, Any] = {name: bindparam(f"to_{name}") for name in changed}
    return table(model).update().where(_equal(model, columns)).values(values)


@cache
def _delete(model: type[SQLModel], columns: Columns) -> Any:  # noqa: ANN401 - as above
    return table(model).delete().where(_equal(model, columns))


@cache
def _insert(model: type[SQLModel]) -> Any:  # noqa: ANN401 - as above
    return insert(table(model))


def _of(values: Mapping[str, object]) -> dict[str, object]:
    return {f"of_{name}": value for name, value in values.items() if value is not None}


def every(connection: Connection, model: type[Row], **equal: object) -> list[Row]:
    """The rows whose columns equal these values, in the order of their primary key."""
    return made(model, connection.execute(_select(model, _columns(equal)), _of(equal)))


def grouped(rows: Iterable[Row], by: Callable[[Row], str]) -> dict[str, list[Row]]:
    """Rows by something of theirs, in their order."""
    found: dict[str, list[Row]] = {}
    for row in rows:
        found.setdefault(by(row), []).append(row)
    return found


def made(model: type[Row], result: CursorResult[Any]) -> list[Row]:
    """What a query for all columns of a table found, as its rows.

    They were valid when they were written, so that a row is made of its values in one go: letting
    the model make it, attribute by attribute, costs about twice the query.
    """
    names = tuple(result.keys())
    rows = []
    for values in result:
        row = model.__new__(model)
        row.__dict__.update(zip(names, values, strict=True))
        rows.append(row)
    return rows


def stream(connection: Connection, model: type[SQLModel], **equal: object) -> Iterator[RowMapping]:
    """The same rows as `every`, as mappings and a thousand at a time: a table may hold years."""
    result = connection.execute(
        _select(model, _columns(equal)), _of(equal), execution_options={"yield_per": _CHUNK}
    )
    yield from result.mappings()


def find(connection: Connection, model: type[Row], **equal: object) -> Row | None:
    """The first row whose columns equal these values, or None."""
    return next(iter(every(connection, model, **equal)), None)


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


def put_all(
    connection: Connection, model: type[SQLModel], rows: Sequence[Mapping[str, object]]
) -> None:
    """Insert rows as `put` does, in one statement."""
    if rows:
        connection.execute(_insert(model), rows)


def change(
    connection: Connection, model: type[SQLModel], where: Mapping[str, object], **to: object
) -> None:
    """Set columns of the rows whose columns equal these values."""
    statement = _update(model, _columns(where), tuple(to))
    connection.execute(statement, _of(where) | {f"to_{name}": value for name, value in to.items()})


def remove(connection: Connection, model: type[SQLModel], **equal: object) -> None:
    """Delete the rows of what is derived or passing; the ledger, promises and journal never are."""
    connection.execute(_delete(model, _columns(equal)), _of(equal))


def remove_all(
    connection: Connection, model: type[SQLModel], keys: Sequence[Mapping[str, object]]
) -> None:
    """As `remove`, by several keys of the same columns, none of them empty, in one statement."""
    if keys:
        statement = _delete(model, _columns(keys[0]))
        connection.execute(statement, [_of(key) for key in keys])


def among(
    connection: Connection, model: type[Row], house: str, column: str, values: Sequence[str]
) -> list[Row]:
    """The rows of a house whose column is one of these values, in the order of their key.

    They are asked for a part at a time, since a statement has room for so many values only.
    """
    wanted = sorted(set(values))
    found: list[Row] = []
    for first in range(0, len(wanted), _MOST_VALUES):
        part = {"of_house": house, "of_values": wanted[first : first + _MOST_VALUES]}
        found += made(model, connection.execute(_among(model, column), part))
    if len(wanted) > _MOST_VALUES:
        key = [each.name for each in table(model).primary_key.columns]
        found.sort(key=lambda row: [getattr(row, name) for name in key])
    return found


def look_among(
    connection: Connection, model: type[Row], house: str, column: str, values: Sequence[str]
) -> list[Row]:
    """The same rows as `among`, only to be looked at: a column of them is read and never set.

    They are what the driver found, in the form of the model and not models, which costs a third.
    """
    wanted = sorted(set(values))
    found: list[Row] = []
    for first in range(0, len(wanted), _MOST_VALUES):
        part = {"of_house": house, "of_values": wanted[first : first + _MOST_VALUES]}
        found += cast("list[Row]", connection.execute(_among(model, column), part).all())
    return found


@cache
def _among(model: type[SQLModel], column: str) -> Any:  # noqa: ANN401 - as above
    columns = table(model).c
    return (
        select(table(model))
        .where(columns.house == bindparam("of_house"))
        .where(columns[column].in_(bindparam("of_values", expanding=True)))
        .order_by(*table(model).primary_key.columns)
    )
