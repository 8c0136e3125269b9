"""Sheets, links and answers, as they are kept."""

import hashlib
from datetime import date

from sqlalchemy import Connection, bindparam, func, select

from pantry.records.read.menu import last_served
from pantry.records.rows import every, find, made, table
from pantry.records.tables import (
    MenuAnswerRow,
    ServiceRow,
    SheetLinkRow,
    SheetRow,
    SheetServiceRow,
)
from pantry.rules.menu import ServiceState
from pantry.rules.new_dishes import Served

_FIRST_SERVED = (
    select(table(ServiceRow).c.dining_table, func.min(table(ServiceRow).c.on))
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.state == ServiceState.SERVED.value)
    .group_by(table(ServiceRow).c.dining_table)
)
_answer = table(MenuAnswerRow).c
_LAST = (
    select(func.max(_answer.number))
    .where(_answer.house == bindparam("house"))
    .group_by(_answer.service)
)
_STANDING = (
    select(table(MenuAnswerRow))
    .where(_answer.house == bindparam("house"))
    .where(_answer.number.in_(_LAST))
)


def served(connection: Connection, house: str) -> Served:
    """What the records say of what every table was served."""
    found = connection.execute(_FIRST_SERVED, {"house": house})
    first: dict[str, date] = {row[0]: row[1] for row in found}
    return Served(last_served(connection, house), first)


def standing_answers(connection: Connection, house: str) -> dict[str, MenuAnswerRow]:
    """The last answer to every service that was answered, by the service's id."""
    rows = made(MenuAnswerRow, connection.execute(_STANDING, {"house": house}))
    return {row.service: row for row in rows}


def standing_answer(connection: Connection, house: str, service: str) -> MenuAnswerRow | None:
    """The last answer to one service."""
    rows = every(connection, MenuAnswerRow, house=house, service=service)
    return max(rows, key=lambda row: row.number, default=None)


def services_of(connection: Connection, house: str, sheet: str) -> list[str]:
    """The services of a sheet, in their order."""
    rows = every(connection, SheetServiceRow, house=house, sheet=sheet)
    return [row.service for row in rows]


def kept(secret: str) -> str:
    """What is kept of what a link ends with."""
    return hashlib.sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()


def linked(connection: Connection, secret: str) -> tuple[SheetLinkRow, SheetRow] | None:
    """The sheet that a link leads to, whether or not it has ended; None: it leads nowhere."""
    link = find(connection, SheetLinkRow, id=kept(secret))
    sheet = link and find(connection, SheetRow, house=link.house, id=link.sheet)
    return (link, sheet) if link and sheet else None
