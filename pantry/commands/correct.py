"""Take an earlier fact back: new movements that name those they reverse (LG4)."""

from pantry.commands import menu_needs, menus
from pantry.commands.decisions import Correct
from pantry.commands.given import Given
from pantry.commands.order_lines import close_if_done
from pantry.commands.shelf import take
from pantry.records import journal, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import change, every, find, one
from pantry.records.tables import (
    BatchRow,
    JournalRow,
    MovementRow,
    OrderLineRow,
    ReceiptRow,
    ServiceRow,
)
from pantry.refusals import NotNow, NotThere, declare
from pantry.rules.menu import ServiceState

COMMAND_UNKNOWN = declare("command_unknown", "No applied command has that id.")
NOTHING_TO_REVERSE = declare("nothing_to_reverse", "The command moved nothing.")
REVERSED_ALREADY = declare("reversed_already", "The command has been taken back already.")
DEPENDED_ON = declare("depended_on", "Something that happened later depends on it.")


def correct(books: Books, given: Given[Correct]) -> None:
    """Move everything back that a command moved, as long as nothing depends on it.

    Raises:
        NotThere: `command_unknown`.
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
    moved = every(books.connection, MovementRow, house=books.id, command=row.id)
    if not moved:
        raise _cannot(NOTHING_TO_REVERSE, row, "moved nothing", "Give the opposite decision.")
    for movement in moved:
        if find(books.connection, MovementRow, house=books.id, reverses=movement.number):
            raise _cannot(REVERSED_ALREADY, row, "has been taken back already", "Nothing to do.")
    for movement in reversed(moved):
        _reverse(books, given, row, movement)
    _undo_beside(books, row)


def _reverse(books: Books, given: Given[Correct], row: JournalRow, movement: MovementRow) -> None:
    batch = one(books.connection, BatchRow, house=books.id, id=movement.batch)
    if ledger.balances(books, batch.id).get(movement.target, 0) < movement.quantity:
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
            at=given.at,
            pieces=movement.pieces,
            reason=given.body.reason,
            reverses=movement.number,
        ),
    )


def _undo_beside(books: Books, row: JournalRow) -> None:
    """What the command did beside the ledger: an order's line, an estimate, a service's state."""
    for receipt in every(books.connection, ReceiptRow, house=books.id, command=row.id):
        if receipt.purchase_order and receipt.pack:
            _await_again(books, receipt)
    if row.kind == "serve":
        for service in every(books.connection, ServiceRow, house=books.id, last_command=row.id):
            after = menus.moved_on(books, service, state=ServiceState.CONFIRMED.value)
            menu_needs.write(books, after)


def _await_again(books: Books, receipt: ReceiptRow) -> None:
    key = {"house": books.id, "purchase_order": receipt.purchase_order, "pack": receipt.pack}
    line = find(books.connection, OrderLineRow, **key)
    if line is not None:
        received = max(0, line.received - receipt.quantity)
        closed = received >= line.quantity
        change(books.connection, OrderLineRow, key, received=received, closed=closed)
        close_if_done(books, line.purchase_order)


def _cannot(code: str, row: JournalRow, why: str, todo: str) -> NotNow:
    return NotNow(
        code,
        f"The command {row.kind} of {row.at:%Y-%m-%d %H:%M} UTC {why}.",
        todo,
        value=row.id,
        field="body.command",
    )
