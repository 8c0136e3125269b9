"""Write down that something was cleaned."""

from pantry.commands import naming
from pantry.commands.facts import Clean
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.rows import add
from pantry.records.tables import CleaningRow


def clean(books: Books, given: Given[Clean]) -> None:
    """What was cleaned, and where; the list of what is cleaned is what was cleaned before.

    Raises:
        NotThere: `area_unknown`.
    """
    body = given.body
    cleaning = CleaningRow(
        house=books.id,
        command=given.id,
        what=body.what.strip(),
        area=naming.area(books, body.area).id if body.area else None,
        at=given.at,
        person=given.person,
    )
    add(books.connection, cleaning)
    books.note("cleaning", cleaning.what)
