"""What every report answers: `{schema, house, as_of, position, rows: [...]}`."""

from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime, timedelta
from enum import Enum
from fractions import Fraction
from typing import Any

from pantry.reports.view import View
from pantry.rules.house_time import Span, write_instant, write_span
from pantry.rules.measure import Quantity
from pantry.rules.stock import Item

SCHEMA = 1
"""The number of the shape of everything that is answered; it changes with a decision record."""

Row = dict[str, Any]


def report(view: View, rows: Iterable[Row], **beside: object) -> dict[str, Any]:
    """Rows with what they are of: the house, its zone named once, the instant and the position."""
    return {
        "schema": SCHEMA,
        "house": view.house.name,
        "zone": view.house.zone,
        "as_of": write_instant(view.now),
        "position": view.row.position,
        **beside,
        "rows": list(rows),
    }


def instant(at: datetime | None) -> str | None:
    """RFC 3339 in UTC, or null."""
    return None if at is None else write_instant(at)


def amount(thousandths: int, item: Item) -> dict[str, str]:
    """A quantity of an item as data, in its base unit."""
    return Quantity(thousandths, item.base_unit).as_json()


def money(minor: int, view: View) -> Mapping[str, object]:
    """Money as data, in the house's currency."""
    return {"minor": minor, "currency": view.house.currency}


def as_data(value: object) -> Any:  # noqa: ANN401, PLR0911 - data as deep as the rules made it
    """A frozen value of the rules as data: instants and spans as text, fractions as `n/d`.

    Raises:
        TypeError: the rules made something that has no shape on the wire.
    """
    match value:
        case Enum():
            return value.value
        case None | bool() | int() | str():
            return value
        case datetime():
            return write_instant(value)
        case date() | Fraction():
            return str(value)
        case timedelta():
            return write_span(Span(exact=value))
        case Span():
            return write_span(value)
        case Mapping():
            return {str(key): as_data(part) for key, part in value.items()}
        case tuple() | list() | frozenset():
            return [as_data(part) for part in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {part.name: as_data(getattr(value, part.name)) for part in fields(value)}
    raise TypeError(f"no shape on the wire for {type(value).__name__}")
