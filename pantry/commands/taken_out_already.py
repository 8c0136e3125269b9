"""'Already taken out?', which comes before a count's difference (LG3)."""

from datetime import timedelta

from pantry.commands.counting import Counting
from pantry.commands.shelf import draw
from pantry.records import accounts
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import every
from pantry.records.tables import BatchRow, ItemRow, PromisedRow
from pantry.rules.house_time import local_date
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit


def asked(counting: Counting, item: ItemRow, batch: BatchRow, missing: int) -> bool:
    """Whether what is missing may have been taken out for a service of that day or the next.

    If so that is asked and nothing is posted: the count is given again with `taken_out` said.
    """
    if sum(_promised_soon(counting, batch).values()) < missing:
        return False
    ask(
        counting.books,
        "taken_out",
        "chef",
        f"{counting.given.id}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}: {show(missing, BaseUnit(item.base_unit))} "
        f"less was counted in {counting.area.name} than the books have there.",
        against="As much is promised for today and tomorrow, and may have been taken out already.",
        answers=("it was taken out", "it is missing", "count again"),
    )
    return True


def write(counting: Counting, batch: BatchRow, missing: int) -> None:
    """Write that it was taken out, for the services of both days in the order of their ids.

    What none of them was promised is taken as used outside any menu.
    """
    books, given = counting.books, counting.given
    shelf = accounts.area(counting.area.id)
    for service, promised in sorted(_promised_soon(counting, batch).items()):
        part = min(missing, promised)
        kitchen = accounts.kitchen(service)
        draw(books, batch, Movement(batch.id, part, shelf, kitchen, given.at))
        missing -= part
    eaten = accounts.served(accounts.OFF_MENU)
    draw(books, batch, Movement(batch.id, missing, shelf, eaten, given.at))


def _promised_soon(counting: Counting, batch: BatchRow) -> dict[str, int]:
    """What is promised to services of that day and the next, whose picks are fixed (AL2)."""
    books = counting.books
    today = local_date(counting.given.at, books.zone)
    days = {today.isoformat(), (today + timedelta(days=1)).isoformat()}
    found: dict[str, int] = {}
    for row in every(books.connection, PromisedRow, house=books.id, batch=batch.id):
        if row.service.split("/")[0] in days:
            found[row.service] = found.get(row.service, 0) + row.quantity
    return found
