"""Seeing to an alert, who is told by letter, and the hour of the day's letter."""

from pantry.commands.alert_decisions import SeeToAlert, SetDigest, SetOwnLetters
from pantry.commands.given import Given
from pantry.commands.set_calendar import wall_time
from pantry.records.alerts import last_turns
from pantry.records.books import Books
from pantry.records.rows import add, every, remove
from pantry.records.tables import DigestRow, JournalRow, NoLettersRow, SeenToRow
from pantry.refusals import NotThere, declare

ALERT_UNKNOWN = declare("alert_unknown", "No such alert is open: it was closed, or never raised.")


def see_to_alert(books: Books, given: Given[SeeToAlert]) -> None:
    """Write down who sees to an alert; the last who says so does.

    Raises:
        NotThere: `alert_unknown`.
    """
    row = last_turns(books.connection, books.id).get(given.body.alert)
    if row is None or row.why is not None:
        raise NotThere(
            ALERT_UNKNOWN,
            f"No alert {given.body.alert!r} is open.",
            "Look at what is to be done now.",
            value=given.body.alert,
            field="body.alert",
        )
    seen_to = SeenToRow(
        house=books.id,
        command=given.id,
        alert=row.id,
        turn=row.turn,
        person=given.person,
        at=given.at,
    )
    add(books.connection, seen_to)
    books.note("alert", row.id)


def is_seen_to(books: Books, row: JournalRow) -> bool:
    """Whether a person still sees to what they said they would."""
    return bool(every(books.connection, SeenToRow, house=books.id, command=row.id))


def let_go(books: Books, row: JournalRow) -> None:
    """Somebody does not see to an alert after all."""
    for seen_to in every(books.connection, SeenToRow, house=books.id, command=row.id):
        remove(books.connection, SeenToRow, house=books.id, command=row.id)
        books.note("alert", seen_to.alert)


def set_own_letters(books: Books, given: Given[SetOwnLetters]) -> None:
    """Write that whoever gives it wants no letters of alerts, or wants them again."""
    row = NoLettersRow(house=books.id, person=given.person)
    remove(books.connection, NoLettersRow, house=books.id, person=given.person)
    if not given.body.wanted:
        add(books.connection, row)
    books.note("letters", given.person)


def set_digest(books: Books, given: Given[SetDigest]) -> None:
    """Write at what hour of the house the day's letter goes out, or that none does.

    Raises:
        UnreadableInput: `wall_time_unreadable`.
    """
    at = given.body.at
    written = "" if at is None else wall_time(at, "body.at")
    remove(books.connection, DigestRow, house=books.id)
    add(books.connection, DigestRow(house=books.id, at=written))
    books.note("digest", "")
