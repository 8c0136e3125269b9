"""Show proposed menus to the household, on paper or by a link, and take that back."""

from datetime import datetime

from pantry.commands import base, menus, naming
from pantry.commands.given import Given
from pantry.commands.safe_tables import ask_about_conflicts
from pantry.commands.sheet_decisions import SendSheet, WithdrawSheet
from pantry.records.books import Books
from pantry.records.read.menu import constraints
from pantry.records.read.sheets import served
from pantry.records.rows import add, every, find, one
from pantry.records.tables import (
    RecipeRow,
    ServiceRow,
    ServingRow,
    SheetLinkRow,
    SheetRow,
    SheetServiceRow,
)
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.menu import ServiceState
from pantry.rules.new_dishes import is_new, lacks

SHEET_UNKNOWN = declare("sheet_unknown", "No such sheet was sent to the household.")
SHEET_OVER = declare("sheet_over", "The sheet was withdrawn, or its time is over.")
SHEET_RECIPE_MISSING = declare(
    "sheet_recipe_missing", "A dish that is new to the table has no recipe that could be shown."
)
SHEET_TIME = declare("sheet_time", "A sheet cannot be shown until then.")
APPROVER_UNKNOWN = declare("approver_unknown", "Nobody of that name chooses menus in this house.")
LINK_TAKEN = declare("link_taken", "Another sheet has that link already.")


def send_sheet(books: Books, given: Given[SendSheet]) -> None:
    """Write down what is shown to whom, and until when.

    Raises:
        NotThere: an unknown service, `approver_unknown`.
        NotNow: `service_state`, `sheet_recipe_missing`, `link_taken`.
        UnreadableInput: `sheet_time`.
    """
    body = given.body
    services = _services(books, given)
    _refuse_without_recipe(books, services)
    tables = {row.dining_table for row in services}
    sheet = SheetRow(
        house=books.id,
        id=given.id,
        recipient=_recipient(books, body.to),
        dining_table=tables.pop() if len(tables) == 1 else None,
        sent_by=given.person,
        sent_at=given.at,
        expires_at=_until(books, body.until, services),
        last_command=given.id,
    )
    lines = (
        SheetServiceRow(house=books.id, sheet=sheet.id, line=line, service=row.id)
        for line, row in enumerate(services)
    )
    add(books.connection, sheet, *lines)
    if body.link is not None:
        _link(books, sheet, body.link)
    books.note("sheet", sheet.id)
    _look_at_tables(books, services)


def _look_at_tables(books: Books, services: list[ServiceRow]) -> None:
    """What is shown is looked at once more; what a person has answered is not asked again (AL3)."""
    shown = [
        (row, every(books.connection, ServingRow, house=books.id, service=row.id))
        for row in services
    ]
    tables, known = {row.dining_table for row in services}, constraints(books.connection, books.id)
    recorded = "it was shown to the household"
    for person in sorted({each.person for each in known if each.table in tables}):
        ask_about_conflicts(books, shown, recorded, only=person, again=False)


def withdraw_sheet(books: Books, given: Given[WithdrawSheet]) -> None:
    """The sheet is shown to nobody any more; what was answered stays.

    Raises:
        NotThere: `sheet_unknown`.
        NotNow: `sheet_over`.
        Moved: `base_moved`.
    """
    row = sheet_named(books, given.body.sheet)
    base.check(books, given, row, "The sheet")
    if row.withdrawn_at is not None:
        raise _over(row)
    base.next_version(books, row, "sheet", withdrawn_at=given.at)


def sheet_named(books: Books, sheet: str) -> SheetRow:
    """The sheet of that id, or `sheet_unknown`."""
    row = find(books.connection, SheetRow, house=books.id, id=sheet)
    if row is None:
        raise NotThere(
            SHEET_UNKNOWN,
            f"No sheet {sheet!r} was sent to the household.",
            "Look at the sheets that were sent.",
            value=sheet,
            field="body.sheet",
        )
    return row


def refuse_over(books: Books, row: SheetRow) -> None:
    """See to it that a sheet is still shown.

    Raises:
        NotNow: `sheet_over`.
    """
    if row.withdrawn_at is not None or row.expires_at < books.now:
        raise _over(row)


def _over(row: SheetRow) -> NotNow:
    said = "was withdrawn" if row.withdrawn_at else "is over"
    return NotNow(
        SHEET_OVER,
        f"The sheet {said}.",
        f"Tell {row.sent_by}, or ask for a new one.",
        value=row.id,
        field="body.sheet",
    )


def _services(books: Books, given: Given[SendSheet]) -> list[ServiceRow]:
    """The services that are shown, each once, in the order of their time."""
    named = [naming.service(books, which, "body.services") for which in given.body.services]
    services = {row.id: row for row in named}
    for row in services.values():
        over = row.at < books.now
        if row.state != ServiceState.PROPOSED or over:
            raise NotNow(
                menus.SERVICE_STATE,
                f"The service {row.id} is {'over' if over else row.state.replace('_', ' ')}.",
                "Only what is proposed and still to come is shown to be chosen from.",
                value=row.id,
                field="body.services",
            )
    return sorted(services.values(), key=lambda row: (row.at, row.id))


def _refuse_without_recipe(books: Books, services: list[ServiceRow]) -> None:
    """A new dish is not sent up without its recipe.

    Raises:
        NotNow: `sheet_recipe_missing`.
    """
    known, today = served(books.connection, books.id), local_date(books.now, books.zone)
    for service in services:
        for serving in every(books.connection, ServingRow, house=books.id, service=service.id):
            dish = books.recipes[serving.dish]
            if not is_new(dish, service.dining_table, known, today):
                continue
            row = one(books.connection, RecipeRow, house=books.id, id=dish.id)
            if missing := lacks(dish, row.method):
                raise NotNow(
                    SHEET_RECIPE_MISSING,
                    f"{dish.name} is new to them, and its recipe lacks {' and '.join(missing)}.",
                    "Write the recipe, or propose another dish.",
                    value=dish.name,
                    field="body.services",
                )


def _recipient(books: Books, named: str | None) -> str | None:
    """The id of who chooses; None where nobody is named and the house has not just one."""
    approvers = [row for row in books.people if row.role == "approver"]
    if named is None:
        return approvers[0].id if len(approvers) == 1 else None
    found = next((row for row in approvers if named in (row.id, row.name)), None)
    if found is None:
        names = ", ".join(row.name for row in approvers) or "nobody"
        raise NotThere(
            APPROVER_UNKNOWN,
            f"{named!r} does not choose menus in this house.",
            f"Name who does: {names}.",
            value=named,
            field="body.to",
        )
    return found.id


def _until(books: Books, written: str | None, services: list[ServiceRow]) -> datetime:
    """When the link ends: before the last of its services at the latest."""
    last = max(row.at for row in services)
    if written is None:
        return last
    until = read_instant(written)
    if not books.now < until <= last:
        raise UnreadableInput(
            SHEET_TIME,
            f"{written} is over, or after the last of the services.",
            "Choose a time until the last of the services, or leave it out.",
            value=written,
            field="body.until",
        )
    return until


def _link(books: Books, sheet: SheetRow, link: str) -> None:
    if find(books.connection, SheetLinkRow, id=link) is not None:
        raise NotNow(
            LINK_TAKEN,
            "Another sheet has that link already.",
            "Make a new link for every sheet.",
            field="body.link",
        )
    add(books.connection, SheetLinkRow(id=link, house=books.id, sheet=sheet.id))
