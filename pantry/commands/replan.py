"""Plan anew what a command has touched: the promises follow the stock and the needs (LG2, AL2).

Only the items touched, and what lies below their preparations, are worked out again; every promise
is a pure function of the batches, the needs, the fixed promises and now, and only net differences
are written.
"""

from collections.abc import Iterable
from datetime import date, timedelta

from pantry.commands import menu_needs
from pantry.records.books import Books
from pantry.records.promises import Held, held_by, settle
from pantry.records.read import menu, stock, supply
from pantry.records.read.lives import house_lives
from pantry.records.rows import add, among, remove
from pantry.records.tables import NeedRow, PromisedRow, RecipeRow
from pantry.rules.fefo import Need, Pick, Source
from pantry.rules.house_time import local_date
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import Recipe

_TOMORROW = timedelta(days=1)


def replan(books: Books) -> None:
    """Bring promises and the needs of preparations up to date with what the books say is touched.

    A confirmed need that can be bought no more keeps what it has (AL2); the chef who wants it
    otherwise pins the batch to another service, by name.
    """
    touched, books.touched = books.touched, set()
    if not touched:
        return
    preparations = _preparations(books, touched)
    scope = _below(touched, preparations)
    before = among(books.connection, NeedRow, books.id, "item", sorted(scope))
    if not before:
        return
    inside = scope & preparations.keys()
    given = [menu.need(row) for row in before if row.via not in inside]
    held = held_by(books, [row.id for row in before])
    projection = _projected(books, given, scope, preparations, held)
    _write_makings(books, before, projection, inside)
    _write_promises(books, held, projection)


def _preparations(books: Books, touched: set[str]) -> dict[str, Recipe]:
    """Every preparation by the item it makes, unless nothing touched is one or may become one."""
    made = among(books.connection, RecipeRow, books.id, "makes", sorted(touched))
    if not made:
        return {}
    recipes = menu.recipes(books.connection, books.id).values()
    return {recipe.makes: recipe for recipe in recipes if recipe.makes}


def _below(touched: Iterable[str], preparations: dict[str, Recipe]) -> set[str]:
    scope: set[str] = set()
    waiting = list(touched)
    while waiting:
        item = waiting.pop()
        if item not in scope:
            scope.add(item)
            if item in preparations:
                waiting.extend(line.item for line in preparations[item].ingredients)
    return scope


def _projected(
    books: Books,
    given: list[Need],
    scope: set[str],
    preparations: dict[str, Recipe],
    held: dict[Held, PromisedRow],
) -> Projection:
    lives = house_lives(books.connection, books.house)
    sources = _sources(books, scope)
    kitchen = Kitchen(
        items=stock.items(books.connection, books.id, sorted(scope)),
        preparations=preparations,
        sources=sources,
        fixed=_fixed(books, held, given),
        handling=lives.handling_of(sources),
        zone=books.zone,
    )
    covered: dict[str, int] = {}
    for (need, _), row in held.items():
        covered[need] = covered.get(need, 0) + row.quantity
    return project(given, kitchen, books.now, covered=covered)


def _sources(books: Books, scope: set[str]) -> dict[str, list[Source]]:
    """Batches on the shelf, what was taken out for a preparation, open orders, harvests."""
    rows = stock.batch_rows(books.connection, books.id, sorted(scope))
    stands = stock.standing(books.connection, books.id, [row.id for row in rows])
    found = stock.sources(rows, stands)
    today = local_date(books.now, books.zone)
    coming = supply.on_order(books.connection, books.id, books.zone, sorted(scope))
    grown = supply.harvests(books.connection, books.id, books.zone, today)
    for source in [*coming, *(part for part in grown if part.item in scope)]:
        found.setdefault(source.item, []).append(source)
    return found


def _fixed(books: Books, held: dict[Held, PromisedRow], needs: list[Need]) -> dict[str, list[Pick]]:
    """The picks that stay: pinned by the chef, and those of today and tomorrow (AL2)."""
    last = local_date(books.now, books.zone) + _TOMORROW
    item_of = {need.id: need.item for need in needs}
    fixed: dict[str, list[Pick]] = {}
    for (need, batch), row in sorted(held.items()):
        is_near = date.fromisoformat(row.service[:10]) <= last
        if need in item_of and (row.pinned or is_near):
            fixed.setdefault(item_of[need], []).append(Pick(need, batch, row.quantity))
    return fixed


def _write_makings(
    books: Books, before: list[NeedRow], projection: Projection, inside: Iterable[str]
) -> None:
    """Replace what the makings of the preparations worked out here want."""
    parts = set(inside)
    old = {row.id: row for row in before if row.via in parts}
    new = {
        need.id: need for needs in projection.needs.values() for need in needs if need.via in parts
    }
    for identity in old:
        remove(books.connection, NeedRow, house=books.id, id=identity)
    last = max((need.until for need in new.values()), default=books.now) + _TOMORROW
    ordered = menu_needs.with_last_order_by(books, new.values(), last)
    add(books.connection, *(menu_needs.as_row(books, need) for need in ordered))


def _write_promises(books: Books, held: dict[Held, PromisedRow], projection: Projection) -> None:
    service_of = {need.id: need.service for needs in projection.needs.values() for need in needs}
    batches = _batch_ids(books, projection)
    wanted: dict[Held, int] = {}
    for allocation in projection.allocations.values():
        for pick in allocation.picks:
            if pick.source in batches:
                key = (pick.need, pick.source)
                wanted[key] = wanted.get(key, 0) + pick.quantity
    settle(books, held, wanted, service_of)


def _batch_ids(books: Books, projection: Projection) -> set[str]:
    rows = stock.batch_rows(books.connection, books.id, sorted(projection.needs))
    return {row.id for row in rows}
