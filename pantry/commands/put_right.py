"""What a command did beside the movements that are taken back (LG4)."""

from collections.abc import Callable, Mapping, Sequence

from pantry.commands import (
    alerts,
    asked_for,
    call_off_delivery,
    came_short,
    close_delivery,
    last_counted,
    measured,
    menu_needs,
    menus,
    numbered_labels,
    order_before,
    said_of_presence,
    shop_run,
    standing_recipes,
)
from pantry.commands.counting import ANSWERED_BY_A_COUNT
from pantry.commands.harvest import gathered
from pantry.commands.order_lines import await_again, forget_credits
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import close, close_what_was_asked, reopen
from pantry.records.rows import change, every, one, remove
from pantry.records.tables import (
    BalanceRow,
    BatchParentRow,
    BatchRow,
    ChangeRow,
    JournalRow,
    LeftOverRow,
    MovementRow,
    ReceiptRow,
    ServiceRow,
    ServingRow,
)
from pantry.rules.menu import ServiceState


def own_movements(books: Books, row: JournalRow) -> list[MovementRow]:
    """What a command moved, without what a later count had taken up of it.

    That follows from the count, and is written anew for the movements that take it back (SY8).
    """
    moved = every(books.connection, MovementRow, house=books.id, command=row.id)
    return [each for each in moved if row.kind == "count" or not _is_taken_up(each)]


def _is_taken_up(movement: MovementRow) -> bool:
    by_count = accounts.COUNT_DIFFERENCE in (movement.source, movement.target)
    return by_count and movement.reverses is None


def says_something(row: JournalRow) -> bool:
    """Whether a command says something that stands though nothing was moved."""
    return row.kind in _STANDS


def may_move_nothing(row: JournalRow) -> bool:
    """Whether a command says something that can be taken back though nothing was moved.

    A count that agreed holds what happens to be written later; what was refused at the door is said
    of the line.
    """
    return row.kind == "count" or says_something(row)


def still_stands(books: Books, row: JournalRow) -> bool:
    """Whether what a command said still stands."""
    return _STANDS[row.kind](books, row)


def _is_received(books: Books, row: JournalRow) -> bool:
    return bool(every(books.connection, ReceiptRow, house=books.id, command=row.id))


_STANDS: Mapping[str, Callable[[Books, JournalRow], bool]] = {
    "ask_for": asked_for.stands,
    "bind_label": numbered_labels.is_bound,
    "call_off_delivery": call_off_delivery.stands,
    "close_delivery": close_delivery.has_left,
    "put_away_recipe": standing_recipes.stands,
    "receive": _is_received,
    "rename_recipe": standing_recipes.stands,
    "run_out": asked_for.stands,
    "see_to_alert": alerts.is_seen_to,
    "shop_run": shop_run.stands,
    "tick_off": asked_for.stands,
    **dict.fromkeys(order_before.KINDS, order_before.stands),
    **dict.fromkeys(said_of_presence.SAID_IN, said_of_presence.stands),
    **dict.fromkeys(measured.KEPT_IN, measured.still_stands),
}
"""Of what says something beside the ledger: whether that still stands."""


def forget_count(books: Books, row: JournalRow, moved: Sequence[MovementRow]) -> None:
    """A count that is taken back holds no more: what it had taken up of late facts counts again."""
    if row.kind != "count":
        return
    last_counted.forget(books, row.id)
    marked = every(books.connection, BalanceRow, house=books.id, counted_position=row.position)
    agreed = {(each.batch, each.account) for each in marked if each.counted_at}
    for batch, account in sorted({(m.batch, _shelf(m)) for m in moved} | agreed):
        ledger.forget_count(books, batch, account)
        for kind in ANSWERED_BY_A_COUNT:
            reopen(books, kind, f"{account}|{batch}", row.id)
        for late in every(books.connection, MovementRow, house=books.id, batch=batch, at=row.at):
            if late.command != row.id and _is_taken_up(late) and _shelf(late) == account:
                _let_count(books, late)


def _shelf(movement: MovementRow) -> str:
    is_source = movement.source == accounts.COUNT_DIFFERENCE
    return movement.target if is_source else movement.source


def _let_count(books: Books, late: MovementRow) -> None:
    ledger.post(
        books,
        Movement(
            batch=late.batch,
            quantity=late.quantity,
            source=late.target,
            target=late.source,
            at=late.at,
            reverses=late.number,
        ),
    )


def undo_beside(books: Books, row: JournalRow, moved: Sequence[MovementRow], person: str) -> None:
    """Undo what the command wrote beside the ledger; `person` takes it back."""
    _undo_receipt(books, row, person)
    asked_for.open_again(books, row.id)
    asked_for.take_back(books, row, person)
    if row.kind == "count":
        close_what_was_asked(books, row.id, "the count was taken back", person)
    _take_back(books, row, person)
    measured.take_back(books, row, person)
    said_of_presence.take_back(books, row)
    standing_recipes.take_back(books, row)
    for movement in moved:
        if movement.source == accounts.MADE_INTO:
            remove(books.connection, BatchParentRow, house=books.id, batch=movement.batch)
            remove(books.connection, LeftOverRow, house=books.id, batch=movement.batch)
        if movement.source == accounts.GARDEN:
            batch = one(books.connection, BatchRow, house=books.id, id=movement.batch)
            gathered(books, batch.item, movement.at, -movement.quantity)
    if row.kind == "serve":
        _confirmed_again(books, row)
    if row.kind == "recall":
        _no_recall(books, row)


def _take_back(books: Books, row: JournalRow, person: str) -> None:
    """What a command said that stands by itself."""
    if row.kind == "shop_run":
        shop_run.take_back(books, row, person)
    if row.kind == "see_to_alert":
        alerts.let_go(books, row)
    if row.kind == "bind_label":
        numbered_labels.take_off(books, row)
    if row.kind == "call_off_delivery":
        call_off_delivery.take_back(books, row)
    if row.kind == "close_delivery":
        close_delivery.await_again(books, row, person)
    if row.kind in order_before.KINDS:
        order_before.take_back(books, row)


def _undo_receipt(books: Books, row: JournalRow, person: str) -> None:
    receipts = every(books.connection, ReceiptRow, house=books.id, command=row.id)
    remove(books.connection, ReceiptRow, house=books.id, command=row.id)
    for receipt in receipts:
        forget_credits(books, row.id)
        await_again(books, receipt)
        close(books, "on_hold", receipt.batch, "it was taken back", person)
        if receipt.purchase_order:
            came_short.hush_if_whole(books, receipt.purchase_order, person)


def _confirmed_again(books: Books, row: JournalRow) -> None:
    for service in every(books.connection, ServiceRow, house=books.id, last_command=row.id):
        of_service = {"house": books.id, "service": service.id}
        change(books.connection, ServingRow, of_service, served=None)
        after = menus.moved_on(books, service, state=ServiceState.CONFIRMED.value)
        menu_needs.write(books, after)


def _no_recall(books: Books, row: JournalRow) -> None:
    noted = every(books.connection, ChangeRow, house=books.id, position=row.position, what="batch")
    for batch in sorted({each.key for each in noted}):
        change(books.connection, BatchRow, {"house": books.id, "id": batch}, recalled=False)
        books.note("batch", batch)
