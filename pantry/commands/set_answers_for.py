"""Say which table somebody answers for who chooses menus: they are told of who eats there only."""

from pantry.commands import naming
from pantry.commands.given import Given
from pantry.commands.rights import PERSON_UNKNOWN
from pantry.commands.sheet_decisions import SetAnswersFor
from pantry.records.books import Books
from pantry.records.rows import add, remove
from pantry.records.slugs import slug
from pantry.records.tables import AnswersForRow
from pantry.refusals import NotThere


def set_answers_for(books: Books, given: Given[SetAnswersFor]) -> None:
    """Write the table, or none: then they are told of all tables.

    Raises:
        NotThere: `person_unknown`, `table_unknown`.
    """
    body = given.body
    known = slug(body.person)
    row = next((each for each in books.people if known in (each.id, slug(each.name))), None)
    if row is None:
        raise NotThere(
            PERSON_UNKNOWN,
            f"Nobody called {body.person!r} works in this house.",
            "Name one of the people of the house.",
            value=body.person,
            field="body.person",
        )
    of = {"house": books.id, "person": row.id}
    remove(books.connection, AnswersForRow, **of)
    if body.table is not None:
        table = naming.dining_table(books, body.table)
        add(books.connection, AnswersForRow(**of, dining_table=table.id))
    books.note("person", row.id)
    books.settings_changed()
