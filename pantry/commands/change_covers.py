"""Change how many eat: eight, not six."""

from pantry.commands import menu_needs, menus
from pantry.commands.covers_said import COVERS_SAID
from pantry.commands.decisions import ChangeCovers
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.questions import close
from pantry.rules.menu import ServiceState


def change_covers(books: Books, given: Given[ChangeCovers]) -> None:
    """Write the new covers; dishes without portions of their own follow, and needs with them.

    Raises:
        NotThere: `service_unknown`.
        Moved: `base_moved`.
        NotNow: `service_state`.
    """
    body = given.body
    row = menus.decided(books, given, body.service, ServiceState.PROPOSED, ServiceState.CONFIRMED)
    after = menus.moved_on(books, row, covers=body.covers)
    close(books, COVERS_SAID, row.id, "the covers were changed", given.person)
    if after.state == ServiceState.CONFIRMED:
        menu_needs.write(books, after)
