"""What a confirmed service wants of each item, written anew when its menu or covers change."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime, timedelta

from pantry.commands.markets import market
from pantry.records.books import Books
from pantry.records.promises import held_by, settle
from pantry.records.read import menu, stock
from pantry.records.rows import add, every, remove
from pantry.records.tables import NeedRow, ServiceRow
from pantry.rules.fefo import Need
from pantry.rules.menu import Service
from pantry.rules.recipes import direct_needs

_ABOUT_A_DAY = timedelta(days=1)


def write(books: Books, row: ServiceRow) -> None:
    """Replace a service's needs by what its menu and covers want; what was taken out stays so.

    What is promised stays with a need that is still wanted, and is let go from one that is not;
    how much each gets is planned anew afterwards.
    """
    before = _written(books, row.id)
    service = menu.service(books.connection, books.id, row)
    wanted = with_last_order_by(books, _wanted(books, service), row.at + _ABOUT_A_DAY)
    settled = {need.id: need.settled for need in before}
    _replace(books, row.id, [as_row(books, need, settled.get(need.id, 0)) for need in wanted])
    let_go(books, {need.id for need in before} - {need.id for need in wanted})
    books.touched |= {need.item for need in before} | {need.item for need in wanted}


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


def with_last_order_by(books: Books, needs: Iterable[Need], last: datetime) -> list[Need]:
    """The needs, each with the last possible order-by for it."""
    wanted = list(needs)
    offered = market(books, {need.item for need in wanted}, last)
    return [
        replace(need, last_order_by=offered.last_order_by(need.item, need.wanted_by, need.until))
        for need in wanted
    ]


def as_row(books: Books, need: Need, settled: int = 0) -> NeedRow:
    """A need as it is kept; `settled` is what was taken out for it already."""
    return NeedRow(
        house=books.id,
        id=need.id,
        service=need.service,
        dish=need.dish,
        item=need.item,
        via=need.via,
        quantity=need.quantity,
        settled=settled,
        wanted_by=need.wanted_by,
        until=need.until,
        rank=need.rank,
        last_order_by=need.last_order_by,
    )


def _written(books: Books, service: str) -> list[NeedRow]:
    return every(books.connection, NeedRow, house=books.id, service=service, via="")


def _replace(books: Books, service: str, rows: list[NeedRow]) -> None:
    remove(books.connection, NeedRow, house=books.id, service=service, via="")
    add(books.connection, *rows)


def _wanted(books: Books, service: Service) -> list[Need]:
    return direct_needs(
        service,
        menu.recipes(books.connection, books.id),
        stock.items(books.connection, books.id),
        menu.tables(books.connection, books.id),
        books.zone,
    )
