"""Serve a service: as planned, and only the exceptions are said (LG2)."""

from collections.abc import Mapping
from datetime import datetime

from pantry.commands import menu_needs, menus, naming
from pantry.commands.facts import Serve
from pantry.commands.given import Given
from pantry.commands.shelf import home, place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import every, one
from pantry.records.tables import BalanceRow, BatchRow, PromisedRow, ServiceRow
from pantry.refusals import NotNow
from pantry.rules.menu import ServiceState


def serve(books: Books, given: Given[Serve]) -> None:
    """What was promised and what was taken out is eaten, but for the exceptions.

    An exception says how much of a batch, or of an item, was really used; what had been taken out
    beyond that goes back to its storage area.

    Raises:
        NotThere: an unknown service, batch or item.
        NotNow: `service_state`.
    """
    row = naming.service(books, given.body.service)
    if row.state != ServiceState.CONFIRMED:
        raise NotNow(
            menus.SERVICE_STATE,
            f"The service {row.id} is {row.state.replace('_', ' ')}.",
            "Only a confirmed service is served.",
            value=row.state,
            field="body.service",
        )
    promised = _promised(books, row.id)
    taken = _taken(books, row.id)
    used = _used(books, given, promised, taken)
    for batch, quantity in sorted(used.items()):
        _eat(books, row, batch, quantity, taken.get(batch, 0), given.at)
    menu_needs.clear(books, row.id)
    menus.moved_on(books, row, state=ServiceState.SERVED.value)


def _promised(books: Books, service: str) -> dict[str, int]:
    found: dict[str, int] = {}
    for row in every(books.connection, PromisedRow, house=books.id, service=service):
        found[row.batch] = found.get(row.batch, 0) + row.quantity
    return found


def _taken(books: Books, service: str) -> dict[str, int]:
    rows = every(books.connection, BalanceRow, house=books.id, account=accounts.kitchen(service))
    return {row.batch: row.quantity for row in rows if row.quantity > 0}


def _used(
    books: Books, given: Given[Serve], promised: Mapping[str, int], taken: Mapping[str, int]
) -> dict[str, int]:
    """What was used of each batch: as planned, overruled by the exceptions."""
    used = {
        batch: promised.get(batch, 0) + taken.get(batch, 0) for batch in promised.keys() | taken
    }
    for exception in given.body.exceptions:
        if exception.batch is not None:
            batch = naming.batch(books, exception.batch, "body.exceptions.batch")
            item = naming.item(books, batch.item)
            used[batch.id] = naming.quantity(
                books, exception.quantity, item, "body.exceptions.quantity", least=0
            )
        else:
            item = naming.item(books, exception.item or "", "body.exceptions.item")
            total = naming.quantity(
                books, exception.quantity, item, "body.exceptions.quantity", least=0
            )
            used |= _spread(books, item.id, total, used)
    return used


def _spread(books: Books, item: str, total: int, used: Mapping[str, int]) -> dict[str, int]:
    """So much of an item over the batches planned, those that die first before the others.

    What was used beyond the plan is taken from the last of them.
    """
    planned = [
        row
        for row in every(books.connection, BatchRow, house=books.id, item=item)
        if row.id in used
    ]
    planned.sort(key=lambda row: (row.usable_until is None, row.usable_until, row.since, row.id))
    spread: dict[str, int] = {}
    for row in planned:
        spread[row.id] = min(total, used[row.id])
        total -= spread[row.id]
    if planned and total:
        spread[planned[-1].id] += total
    return spread


def _eat(
    books: Books, service: ServiceRow, batch_id: str, quantity: int, taken: int, at: datetime
) -> None:
    batch = one(books.connection, BatchRow, house=books.id, id=batch_id)
    kitchen, eaten = accounts.kitchen(service.id), accounts.served(service.id)
    from_kitchen = min(quantity, taken)
    back = taken - from_kitchen
    from_shelf = quantity - from_kitchen
    if from_kitchen:
        take(books, batch, Movement(batch.id, from_kitchen, kitchen, eaten, at))
    if back:
        shelf = accounts.area(home(books, batch))
        take(books, batch, Movement(batch.id, back, kitchen, shelf, at))
    if from_shelf:
        shelf = place_of(books, batch)
        link = "assumed"
        take(books, batch, Movement(batch.id, from_shelf, shelf, eaten, at, link=link))
