"""Take an earlier fact back: new movements that name those they reverse (LG4)."""

from pantry.commands import credit, put_right, rights
from pantry.commands.decisions import Correct
from pantry.commands.given import Given
from pantry.commands.shelf import take
from pantry.records import accounts, journal, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import find, one
from pantry.records.tables import BatchRow, JournalRow, MovementRow
from pantry.refusals import NotNow, NotThere, declare

COMMAND_UNKNOWN = declare("command_unknown", "No applied command has that id.")
NOTHING_TO_REVERSE = declare("nothing_to_reverse", "The command moved nothing.")
REVERSED_ALREADY = declare("reversed_already", "The command has been taken back already.")
DEPENDED_ON = declare("depended_on", "Something that happened later depends on it.")


def correct(books: Books, given: Given[Correct]) -> None:
    """Move everything back that a command moved, as long as nothing depends on it.

    What is moved back is moved as of when it was moved, so that a count in between still holds.

    Raises:
        NotThere: `command_unknown`.
        NotAllowed: `role_lacking`: who may not give a command does not take it back either.
        NotNow: `nothing_to_reverse`, `reversed_already`, `depended_on`.
    """
    row = journal.kept(books, given.body.command)
    if row is None or row.outcome != "applied":
        raise NotThere(
            COMMAND_UNKNOWN,
            f"No command {given.body.command} was applied.",
            "Name the command by its id.",
            value=given.body.command,
            field="body.command",
        )
    rights.check(books, row.kind, given.person)
    moved = put_right.own_movements(books, row)
    says = put_right.says_something(row)
    if says and not put_right.still_stands(books, row):
        raise _cannot(REVERSED_ALREADY, row, "has been taken back already", "Nothing to do.")
    if not moved and not put_right.may_move_nothing(row):
        raise _cannot(NOTHING_TO_REVERSE, row, "moved nothing", "Give the opposite decision.")
    for movement in moved:
        if find(books.connection, MovementRow, house=books.id, reverses=movement.number):
            raise _cannot(REVERSED_ALREADY, row, "has been taken back already", "Nothing to do.")
    if any(owed.settled_at for owed in credit.opened_by(books, row.id)):
        raise _cannot(
            DEPENDED_ON,
            row,
            "opened a credit that has been recorded",
            "Receive what has come of it, and settle the rest with the supplier.",
        )
    put_right.forget_count(books, row, moved)
    for movement in reversed(moved):
        _reverse(books, given, row, movement)
    put_right.undo_beside(books, row, moved, given.person)


def _reverse(books: Books, given: Given[Correct], row: JournalRow, movement: MovementRow) -> None:
    batch = one(books.connection, BatchRow, house=books.id, id=movement.batch)
    stands = ledger.balances(books, batch.id).get(movement.target, 0)
    # a batch that was made of another itself holds less than nothing where it came from
    if stands < movement.quantity and movement.target not in accounts.ORIGINS:
        raise _cannot(
            DEPENDED_ON,
            row,
            f"put {batch.label} where it no longer stands",
            "Take back what happened to it afterwards first.",
        )
    take(
        books,
        batch,
        Movement(
            batch=batch.id,
            quantity=movement.quantity,
            source=movement.target,
            target=movement.source,
            at=movement.at,
            pieces=movement.pieces,
            reason=given.body.reason,
            reverses=movement.number,
        ),
    )


def _cannot(code: str, row: JournalRow, why: str, todo: str) -> NotNow:
    return NotNow(
        code,
        f"The command {row.kind} of {row.at:%Y-%m-%d %H:%M} UTC {why}.",
        todo,
        value=row.id,
        field="body.command",
    )
