"""Serve a service: as planned, and only the exceptions are said (LG2)."""

from collections.abc import Iterable, Mapping
from datetime import datetime

from pantry.commands import assumed, menu_needs, menus, naming
from pantry.commands.food_put_in import put_into_service
from pantry.commands.given import Given
from pantry.commands.made_and_served import Serve
from pantry.commands.portions import note_served, wanted_otherwise
from pantry.commands.served_otherwise import used_in_all
from pantry.commands.shelf import ANYWHERE, draw, home, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import close
from pantry.records.read import menu
from pantry.records.read.kitchen_part import held_by
from pantry.records.rows import among, every, one
from pantry.records.tables import BalanceRow, BatchRow, NeedRow, ServiceRow
from pantry.refusals import NotNow
from pantry.rules.menu import ServiceState
from pantry.rules.services import lapsed


def serve(books: Books, given: Given[Serve]) -> None:
    """What was promised and what was taken out is eaten, but for the exceptions.

    Of a dish of which other portions were served, what it wanted was used in that measure. A
    preparation that was planned for it and never recorded was made; a service that has lapsed,
    and so holds nothing any more, had what died first. An exception says how much of a batch, or of
    an item, was really used; what had been taken out beyond that goes back to its storage area. It
    was eaten at its time, however late that is recorded.

    Raises:
        NotThere: an unknown service, batch or item, `dish_not_on_menu`.
        NotNow: `service_state`.
    """
    row = _confirmed(books, given)
    at = min(given.at, row.at)
    note_served(books, row, given.body.dishes)
    otherwise = wanted_otherwise(books, row) if given.body.dishes else {}
    more = {item: now - was for item, (was, now) in otherwise.items()}
    planned = _planned(books, row, given.id, at, more)
    taken = _taken(books, row.id)
    used = used_in_all(books, given.body.exceptions, planned, taken, at, otherwise)
    for batch, quantity in sorted(used.items()):
        _eat(books, row.id, batch, quantity, taken.get(batch, 0), at)
    put_into_service(books, row, _items(books, used), eaten=True)
    menu_needs.clear(books, row.id)
    menus.moved_on(books, row, state=ServiceState.SERVED.value)
    close(books, "unserved", row.id, "it was served", given.person)


def _items(books: Books, used: Mapping[str, int]) -> list[str]:
    batches = [batch for batch, quantity in sorted(used.items()) if quantity]
    return [row.item for row in among(books.connection, BatchRow, books.id, "id", batches)]


def _confirmed(books: Books, given: Given[Serve]) -> ServiceRow:
    row = naming.service(books, given.body.service)
    if row.state != ServiceState.CONFIRMED:
        raise NotNow(
            menus.SERVICE_STATE,
            f"The service {row.id} is {row.state.replace('_', ' ')}.",
            "Only a confirmed service is served.",
            value=row.state,
            field="body.service",
        )
    return row


def _planned(
    books: Books, row: ServiceRow, command: str, at: datetime, more: Mapping[str, int]
) -> dict[str, int]:
    """What of each batch on the shelf it was to have, what had to be made for it included.

    `more` is by how much the portions that were served change what was wanted of an item.
    """
    needs = every(books.connection, NeedRow, house=books.id, service=row.id, via="")
    if lapsed(row.at, books.now):
        wanted = _by_item(needs, more)
        assumed.make_what_is_short(books, wanted, at, command)
        given = assumed.given_of(books, [menu.need(need) for need in needs], at)
        return _by_batch((each.batch.id, each.quantity) for each in given)
    held = held_by(books, [need.id for need in needs])
    item_of = {need.id: need.item for need in needs}
    there: dict[str, int] = {}
    for (need, _), promise in held.items():
        there[item_of[need]] = there.get(item_of[need], 0) + promise.quantity
    wanted = _by_item(needs, more)
    planned = _by_batch((batch, promise.quantity) for (_, batch), promise in held.items())
    for made in assumed.make_what_is_short(books, wanted, at, command, there=there):
        short = wanted[made.item] - there.get(made.item, 0)
        planned[made.id] = min(short, made.quantity)
    return planned


def _by_item(needs: Iterable[NeedRow], more: Mapping[str, int]) -> dict[str, int]:
    wanted: dict[str, int] = {}
    for need in needs:
        wanted[need.item] = wanted.get(need.item, 0) + max(0, need.quantity - need.settled)
    return {item: max(0, quantity + more.get(item, 0)) for item, quantity in wanted.items()}


def _by_batch(quantities: Iterable[tuple[str, int]]) -> dict[str, int]:
    found: dict[str, int] = {}
    for batch, quantity in quantities:
        found[batch] = found.get(batch, 0) + quantity
    return found


def _taken(books: Books, service: str) -> dict[str, int]:
    rows = every(books.connection, BalanceRow, house=books.id, account=accounts.kitchen(service))
    return {row.batch: row.quantity for row in rows if row.quantity > 0}


def _eat(
    books: Books, service: str, batch_id: str, quantity: int, taken: int, at: datetime
) -> None:
    """So much of a batch, first of what was taken out; what was taken out beyond it goes back."""
    batch = one(books.connection, BatchRow, house=books.id, id=batch_id)
    kitchen, eaten = accounts.kitchen(service), accounts.served(service)
    out = min(quantity, taken)
    take(books, batch, Movement(batch.id, out, kitchen, eaten, at))
    if taken > out:
        shelf = accounts.area(home(books, batch))
        take(books, batch, Movement(batch.id, taken - out, kitchen, shelf, at))
    if quantity > out:
        rest = Movement(batch.id, quantity - out, ANYWHERE, eaten, at, link="assumed")
        draw(books, batch, rest)
