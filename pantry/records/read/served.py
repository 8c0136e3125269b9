"""What was served when, and what was left over of it."""

from collections.abc import Sequence
from datetime import date

from sqlalchemy import Connection, bindparam, select

from pantry.records import accounts
from pantry.records.rows import among, made, table
from pantry.records.tables import LeftOverRow, MovementRow, ServiceRow, ServingRow
from pantry.rules.menu import ServiceState

_service = table(ServiceRow).c
_IN_DAYS = (
    select(table(ServiceRow))
    .where(_service.house == bindparam("house"))
    .where(_service.state == bindparam("state"))
    .where(_service.on >= bindparam("first"))
    .where(_service.on <= bindparam("last"))
    .order_by(_service.at, _service.id)
)
_COURSES = (
    select(table(ServingRow).c.dish, table(ServingRow).c.course)
    .where(table(ServingRow).c.house == bindparam("house"))
    .distinct()
)


def courses_of(connection: Connection, house: str) -> dict[str, set[str]]:
    """The courses in which each dish has been on a menu, by dish."""
    found: dict[str, set[str]] = {}
    for dish, course in connection.execute(_COURSES, {"house": house}):
        found.setdefault(dish, set()).add(course)
    return found


def in_days(
    connection: Connection, house: str, state: ServiceState, first: date, last: date
) -> list[ServiceRow]:
    """The services of a state on the days from one to another, in the order of their time."""
    days = {"house": house, "state": state.value, "first": first, "last": last}
    return made(ServiceRow, connection.execute(_IN_DAYS, days))


def left_overs(
    connection: Connection, house: str, services: Sequence[str]
) -> dict[str, list[LeftOverRow]]:
    """What was left over of these services, by service."""
    found: dict[str, list[LeftOverRow]] = {}
    for row in among(connection, LeftOverRow, house, "service", services):
        found.setdefault(row.service, []).append(row)
    return found


def standing_movements(
    connection: Connection, house: str, batches: Sequence[str]
) -> dict[str, list[MovementRow]]:
    """The movements of these batches that were not taken back, by batch."""
    moved = among(connection, MovementRow, house, "batch", batches)
    back = {row.reverses for row in moved}
    found: dict[str, list[MovementRow]] = {}
    for row in moved:
        if row.reverses is None and row.number not in back:
            found.setdefault(row.batch, []).append(row)
    return found


def command_that_made(moved: Sequence[MovementRow]) -> str | None:
    """The command that made a batch, of its movements; None: that was taken back."""
    began = (row.command for row in moved if row.source == accounts.MADE_INTO)
    return next(began, None)
