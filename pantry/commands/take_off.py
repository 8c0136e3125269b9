"""Take a service off: nobody eats, and what it held is free again."""

from pantry.commands import menu_needs, menus
from pantry.commands.covers_said import COVERS_SAID
from pantry.commands.decisions import TakeOff
from pantry.commands.given import Given
from pantry.commands.overrides import answer_questions
from pantry.commands.take_out import ask_what_becomes
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.questions import close
from pantry.records.rows import every
from pantry.records.tables import BalanceRow, ServiceRow
from pantry.rules.menu import ServiceState


def take_off(books: Books, given: Given[TakeOff]) -> None:
    """Take a proposed or confirmed service off, with a reason.

    Raises:
        NotThere: `service_unknown`.
        Moved: `base_moved`.
        NotNow: `service_state`.
    """
    row = menus.decided(
        books, given, given.body.service, ServiceState.PROPOSED, ServiceState.CONFIRMED
    )
    free(books, row, given.body.reason, given.person)


def free(books: Books, row: ServiceRow, reason: str, person: str) -> None:
    """A service does not take place, or not there: what it held is free again."""
    menus.moved_on(books, row, state=ServiceState.TAKEN_OFF.value, reason=reason)
    menu_needs.clear(books, row.id)
    close(books, COVERS_SAID, row.id, "it did not take place", person)
    close(books, "unserved", row.id, "it did not take place", person)
    answer_questions(books, row, person, "it did not take place")
    account = accounts.kitchen(row.id)
    if any(
        each.quantity
        for each in every(books.connection, BalanceRow, house=books.id, account=account)
    ):
        ask_what_becomes(books, row.id)
