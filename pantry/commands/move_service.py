"""A meal is had at another time, on another day or at another table: Thursday, or a picnic."""

from datetime import datetime

from pantry.commands import menu_needs, menus, naming
from pantry.commands.decisions import MoveService
from pantry.commands.given import Given
from pantry.commands.overrides import write_overrides
from pantry.commands.parts import ServicePart
from pantry.commands.safe_tables import ask_about_conflicts, refuse_conflicts
from pantry.commands.take_off import free
from pantry.records.books import Books
from pantry.records.rows import add, every, find
from pantry.records.tables import ServiceRow, ServingRow
from pantry.refusals import NotNow, declare
from pantry.rules.house_time import write_instant
from pantry.rules.menu import ServiceState

SERVICE_THERE = declare("service_there", "Another menu stands there already.")
SERVICE_PAST = declare("service_past", "That time has passed.")


def move_service(books: Books, given: Given[MoveService]) -> None:
    """Move a proposed or confirmed service with its dishes, its covers unless others are given.

    What is confirmed stays confirmed, and its needs follow. Where the date, the meal or the table
    is another, the service that was is taken off, and what was taken out for it is asked about.

    Raises:
        NotThere: `service_unknown`, an unknown table.
        Moved: `base_moved`.
        NotNow: `service_state`, `service_there`, `service_past`, `allergen_conflict`.
        UnreadableInput: the date or the time cannot be read.
    """
    body = given.body
    row = menus.decided(books, given, body.service, ServiceState.PROPOSED, ServiceState.CONFIRMED)
    at = _ahead(books, menus.at(books, body.to, row if _same_day(row, body.to) else None))
    covers = row.covers if body.to.covers is None else body.to.covers
    identity = naming.service_id(body.to, books)
    if identity == row.id:
        after = menus.moved_on(books, row, at=at, covers=covers)
    else:
        after = _put(books, given, row, identity, at=at, covers=covers)
    if after.state == ServiceState.CONFIRMED:
        menu_needs.write(books, after)


def _same_day(row: ServiceRow, to: ServicePart) -> bool:
    """Whether the service keeps its hour where none is given: it stays on its day."""
    return naming.day(to.date, "body.to.date") == row.on


def _ahead(books: Books, at: datetime) -> datetime:
    if at < books.now:
        raise NotNow(
            SERVICE_PAST,
            f"{write_instant(at)} has passed.",
            "Give a time ahead.",
            value=write_instant(at),
            field="body.to.time",
        )
    return at


def _put(
    books: Books,
    given: Given[MoveService],
    row: ServiceRow,
    identity: str,
    *,
    at: datetime,
    covers: int,
) -> ServiceRow:
    """The service in its new place, and the old one taken off."""
    after = _stands_there(books, given, row, identity, at=at, covers=covers)
    servings = [
        ServingRow(**line.model_dump() | {"service": identity})
        for line in every(books.connection, ServingRow, house=books.id, service=row.id)
    ]
    overrides = given.body.overrides
    if row.state == ServiceState.CONFIRMED:
        refuse_conflicts(books, after, servings, overrides)
    else:
        ask_about_conflicts(books, [(after, servings)], "it was moved there")
    menus.set_servings(books, identity, servings)
    if row.state == ServiceState.CONFIRMED:
        write_overrides(books, given, after, servings, overrides)
    free(books, row, f"moved to {identity}", given.person)
    return after


def _stands_there(
    books: Books,
    given: Given[MoveService],
    row: ServiceRow,
    identity: str,
    *,
    at: datetime,
    covers: int,
) -> ServiceRow:
    """The row of the new place: a new one, or that of a service that was taken off there."""
    known = find(books.connection, ServiceRow, house=books.id, id=identity)
    if known is not None:
        _refuse_taken(known)
        return menus.moved_on(books, known, at=at, covers=covers, state=row.state, reason=None)
    _, meal, table = identity.split("/")
    after = ServiceRow(
        house=books.id,
        id=identity,
        on=naming.day(given.body.to.date, "body.to.date"),
        meal=meal,
        dining_table=table,
        at=at,
        covers=covers,
        state=row.state,
        last_command=given.id,
    )
    add(books.connection, after)
    books.note("service", identity)
    return after


def _refuse_taken(known: ServiceRow) -> None:
    if known.state != ServiceState.TAKEN_OFF:
        raise NotNow(
            SERVICE_THERE,
            f"The service {known.id} is {known.state.replace('_', ' ')} already.",
            "Take that one off first, or choose another time or table.",
            value=known.id,
            field="body.to",
        )
