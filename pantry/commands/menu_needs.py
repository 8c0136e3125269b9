"""What a confirmed service wants of each item, written anew when its menu or covers change."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from pantry.records.books import Books
from pantry.records.promises import settle
from pantry.records.read import menu, stock
from pantry.records.read.kitchen_part import held_by
from pantry.records.read.markets import market
from pantry.records.rows import add, change, every, remove
from pantry.records.tables import NeedRow, ServiceRow
from pantry.rules.fefo import Need
from pantry.rules.menu import DiningTable, Recipe
from pantry.rules.recipes import direct_needs
from pantry.rules.services import settled
from pantry.rules.stock import Item

_ABOUT_A_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class _Menu:
    """What every service is cooked from and served at, read once for all that are written."""

    recipes: Mapping[str, Recipe]
    items: Mapping[str, Item]
    tables: Mapping[str, DiningTable]


def write(books: Books, *rows: ServiceRow) -> None:
    """Replace each service's needs by what its menu and covers want; what was taken out stays so.

    What is promised stays with a need that is still wanted, and is let go from one that is not;
    how much each gets is planned anew afterwards.
    """
    known = _Menu(
        recipes=books.recipes,
        items=books.items,
        tables=menu.tables(books.connection, books.id),
    )
    for row in rows:
        _write(books, row, known)


def _write(books: Books, row: ServiceRow, known: _Menu) -> None:
    before = _written(books, row.id)
    service = menu.service(books.connection, books.id, row)
    needs = direct_needs(service, known.recipes, known.items, known.tables, books.zone)
    wanted = with_last_order_by(books, needs, row.at + _ABOUT_A_DAY)
    remove(books.connection, NeedRow, house=books.id, service=row.id, via="")
    add(books.connection, *(as_row(books, need) for need in wanted))
    let_go(books, {need.id for need in before} - {need.id for need in wanted})
    books.touched |= {need.item for need in before} | {need.item for need in wanted}
    books.taken |= {(row.id, item) for item in stock.taken_out(books.connection, books.id, row.id)}


def clear(books: Books, service: str) -> None:
    """A service wants nothing any more: its needs go, and what it held is free."""
    before = every(books.connection, NeedRow, house=books.id, service=service)
    let_go(books, {need.id for need in before})
    remove(books.connection, NeedRow, house=books.id, service=service)
    books.touched |= {need.item for need in before}


def let_go(books: Books, needs: Iterable[str]) -> None:
    """Free what these needs hold."""
    held = held_by(books, sorted(needs))
    if held:
        settle(books, held, {}, {})


def count_taken(books: Books) -> None:
    """Count what was taken out for a service against its needs, the first wanted first.

    It follows from the ledger alone, so that putting back, wasting or correcting counts too.
    """
    changed, books.taken = books.taken, set()
    for service in sorted({service for service, _ in changed}):
        needs = _written(books, service)
        taken = settled(needs, stock.taken_out(books.connection, books.id, service))
        for need in needs:
            if (service, need.item) in changed:
                _settle(books, need, taken[need.id])


def with_last_order_by(books: Books, needs: Iterable[Need], last: datetime) -> list[Need]:
    """The needs, each with the last possible order-by for it."""
    wanted = list(needs)
    offered = market(books, {need.item for need in wanted}, last)
    return [
        replace(need, last_order_by=offered.last_order_by(need.item, need.wanted_by, need.until))
        for need in wanted
    ]


def as_row(books: Books, need: Need) -> NeedRow:
    """A need as it is kept."""
    return NeedRow(
        house=books.id,
        id=need.id,
        service=need.service,
        dish=need.dish,
        item=need.item,
        via=need.via,
        quantity=need.quantity,
        wanted_by=need.wanted_by,
        until=need.until,
        rank=need.rank,
        last_order_by=need.last_order_by,
    )


def _settle(books: Books, need: NeedRow, taken: int) -> None:
    if taken != need.settled:
        where = {"house": books.id, "id": need.id}
        change(books.connection, NeedRow, where, settled=taken)
        books.touched.add(need.item)


def _written(books: Books, service: str) -> list[NeedRow]:
    return every(books.connection, NeedRow, house=books.id, service=service, via="")
