"""A guest joins a table, with what they cannot eat: what is chosen already is looked at again."""

import json

from pantry.commands import naming
from pantry.commands.decisions import AddGuest
from pantry.commands.given import Given
from pantry.commands.safe_tables import ask_about_conflicts
from pantry.records.books import Books
from pantry.records.rows import add, every, remove
from pantry.records.slugs import slug
from pantry.records.tables import ConstraintRow, ServiceRow, ServingRow
from pantry.rules.menu import ServiceState
from pantry.rules.services import lapsed

_TO_COME = (ServiceState.PROPOSED.value, ServiceState.CONFIRMED.value)


def add_guest(books: Books, given: Given[AddGuest]) -> None:
    """Write the constraint, and ask the chef about every menu it speaks against (AL3).

    Raises:
        NotThere: `table_unknown`.
        UnreadableInput: `date_unreadable`.
    """
    body = given.body
    table = naming.dining_table(books, body.table)
    row = ConstraintRow(
        house=books.id,
        id=f"{table.id}|{slug(body.person)}",
        person=body.person,
        dining_table=table.id,
        cannot_eat=json.dumps(sorted(body.cannot_eat)),
        first=None if body.first is None else naming.day(body.first, "body.first"),
        last=None if body.last is None else naming.day(body.last, "body.last"),
    )
    remove(books.connection, ConstraintRow, house=books.id, id=row.id)
    add(books.connection, row)
    books.note("constraint", row.id)
    _look_again(books, table.id, body.person)


def _look_again(books: Books, table: str, person: str) -> None:
    """Every menu of the table that is not over yet, held against what the guest cannot eat."""
    menus = [
        (service, every(books.connection, ServingRow, house=books.id, service=service.id))
        for service in every(books.connection, ServiceRow, house=books.id, dining_table=table)
        if service.state in _TO_COME and not lapsed(service.at, books.now)
    ]
    ask_about_conflicts(books, menus, f"{person} joins the table", only=person)
