"""A guest joins a table, with what they cannot eat: what is chosen already is looked at again."""

import json

from pantry.commands import naming
from pantry.commands.decisions import AddGuest
from pantry.commands.given import Given
from pantry.commands.safe_tables import refuse_conflicts
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import add, every, remove
from pantry.records.slugs import slug
from pantry.records.tables import ConstraintRow, ServiceRow, ServingRow
from pantry.refusals import NotNow
from pantry.rules.menu import ServiceState


def add_guest(books: Books, given: Given[AddGuest]) -> None:
    """Write the constraint, and ask the chef about every confirmed service it speaks against (AL3).

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
    confirmed = every(
        books.connection,
        ServiceRow,
        house=books.id,
        dining_table=table.id,
        state=ServiceState.CONFIRMED.value,
    )
    for service in confirmed:
        _look_again(books, service, body.person)


def _look_again(books: Books, service: ServiceRow, person: str) -> None:
    servings = every(books.connection, ServingRow, house=books.id, service=service.id)
    try:
        refuse_conflicts(books, service, servings, ())
    except NotNow as refusal:
        ask(
            books,
            "allergen",
            "chef",
            f"{service.id}|{slug(person)}",
            recorded=f"{service.id} is confirmed, and {person} joins the table.",
            against=str(refusal),
            answers=("swap the dish", "cook them their own", "it is safe"),
        )
