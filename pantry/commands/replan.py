"""Plan anew what a command has touched: the promises follow the stock and the needs (LG2, AL2).

Only the items touched, and what lies below their preparations, are worked out again; every promise
is a pure function of the batches, the needs, the fixed promises and now, and only net differences
are written.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from pantry.commands import making_needs, menu_needs
from pantry.commands.deadlines import Deadlines
from pantry.records.books import Books
from pantry.records.promises import Held, held_by, settle
from pantry.records.questions import ask
from pantry.records.read import menu, stock, supply
from pantry.records.rows import among
from pantry.records.tables import NeedRow, PromisedRow, RecipeRow
from pantry.refusals import Refusal
from pantry.rules.fefo import Need, Pick, Source
from pantry.rules.fixed_picks import what_holds
from pantry.rules.house_time import local_date
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import Recipe
from pantry.rules.services import lapsed

_TOMORROW = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class _Part:
    """The part of the kitchen that is worked out again.

    Attributes:
        items: their ids.
        preparations: by the item each makes; empty where none is touched.
        rows: every need of the part's items, as it was kept.
        held: what these needs hold.
        sources: what there is of each item, and what is to come.
    """

    items: Sequence[str]
    preparations: Mapping[str, Recipe]
    rows: Sequence[NeedRow]
    held: Mapping[Held, PromisedRow]
    sources: Mapping[str, Sequence[Source]]

    def is_made_here(self, row: NeedRow) -> bool:
        """Whether a making of this part wants it, so that it is worked out anew."""
        return row.via in self.preparations


def replan(books: Books) -> None:
    """Bring promises and the needs of preparations up to date with what the books say is touched.

    A confirmed need that can be bought no more keeps what it has (AL2); the chef who wants it
    otherwise pins the batch to another service, by name. What a service holds whose time has come
    is kept until it is served, and let go once it has lapsed (LG5).

    Raises:
        UnreadableInput, NotThere, MissingFact: as `pantry.rules.kitchen.project`.
    """
    touched, books.touched = books.touched, set()
    part = _part(books, touched) if touched else None
    if part is None:
        return
    needs = _open_needs(books, part)
    kept = _still_served(books, part, needs)
    projection = _projected(books, part, needs, kept)
    made_here = [row for row in part.rows if part.is_made_here(row)]
    making_needs.write(books, made_here, projection, part.preparations)
    service_of = {need.id: need.service for need in needs}
    for each in projection.needs.values():
        service_of |= {need.id: need.service for need in each}
    settle(books, part.held, _of_batches(part, projection, kept), service_of)


def follow(books: Books) -> None:
    """Plan anew after what happened; a fact stands even where nobody can plan with it.

    Then what it touched is promised to nobody until the chef has mended what is missing.
    """
    touched = sorted(books.touched)
    try:
        replan(books)
    except Refusal as refusal:
        rows = among(books.connection, NeedRow, books.id, "item", touched)
        menu_needs.let_go(books, [row.id for row in rows])
        ask(
            books,
            "cannot_plan",
            "chef",
            refusal.value or refusal.code,
            recorded="Promises of " + ", ".join(touched) + " were let go.",
            against=str(refusal),
            answers=("it is mended", "nobody needs it"),
        )


def given_of(books: Books, item: str, source: str) -> list[Need]:
    """What confirmed services are to be given of something still to come, in the order of time.

    Nothing where nobody can plan with the item: that is asked about when its plan follows.
    """
    part = _part(books, {item})
    if part is None:
        return []
    needs = _open_needs(books, part)
    try:
        projection = _projected(books, part, needs, _still_served(books, part, needs))
    except Refusal:
        return []
    of = {need.id: need for of_item in projection.needs.values() for need in of_item}
    picks = (pick for each in projection.allocations.values() for pick in each.picks)
    given = {pick.need: of[pick.need] for pick in picks if pick.source == source}
    return sorted(given.values(), key=lambda need: (need.wanted_by, need.id))


def _open_needs(books: Books, part: _Part) -> list[Need]:
    """The needs that are not worked out anew, of services that have not lapsed."""
    return [
        menu.need(row)
        for row in part.rows
        if not part.is_made_here(row) and not lapsed(row.until, books.now)
    ]


def _part(books: Books, touched: set[str]) -> _Part | None:
    """What is to be worked out; None where nobody needs any of it."""
    preparations = _preparations(books, touched)
    scope = sorted(_below(touched, preparations))
    rows = among(books.connection, NeedRow, books.id, "item", scope)
    if not rows:
        return None
    held = held_by(books, [row.id for row in rows])
    inside = {item: recipe for item, recipe in preparations.items() if item in scope}
    return _Part(scope, inside, rows, held, _sources(books, scope))


def _preparations(books: Books, touched: set[str]) -> dict[str, Recipe]:
    """Every preparation by the item it makes, unless nothing touched is one or may become one."""
    made = among(books.connection, RecipeRow, books.id, "makes", sorted(touched))
    if not made:
        return {}
    return {recipe.makes: recipe for recipe in books.recipes.values() if recipe.makes}


def _below(touched: Iterable[str], preparations: Mapping[str, Recipe]) -> set[str]:
    scope: set[str] = set()
    waiting = list(touched)
    while waiting:
        item = waiting.pop()
        if item not in scope:
            scope.add(item)
            if item in preparations:
                waiting.extend(line.item for line in preparations[item].ingredients)
    return scope


def _sources(books: Books, items: Sequence[str]) -> dict[str, list[Source]]:
    """Batches on the shelf, what was taken out for a preparation, open orders, harvests."""
    rows = stock.batch_rows(books.connection, books.id, items)
    stands = stock.standing(books.connection, books.id, [row.id for row in rows])
    found = stock.sources(rows, stands)
    today = local_date(books.now, books.zone)
    coming = supply.on_order(books.connection, books.id, books.zone, books.now, items)
    grown = supply.harvests(books.connection, books.id, books.zone, today)
    for source in [*coming, *(part for part in grown if part.item in items)]:
        found.setdefault(source.item, []).append(source)
    return found


def _still_served(books: Books, part: _Part, needs: Iterable[Need]) -> list[Pick]:
    """What is held for services whose time has come: it stays as it is until they are served."""
    serving = [need for need in needs if need.until < books.now]
    if not serving:
        return []
    ids = {need.id for need in serving}
    held = [Pick(*key, row.quantity) for key, row in part.held.items() if key[0] in ids]
    batches = [source for sources in part.sources.values() for source in sources]
    return what_holds(held, serving, batches, books.now, piece=0)


def _projected(
    books: Books, part: _Part, needs: Iterable[Need], kept: Iterable[Pick]
) -> Projection:
    kitchen = Kitchen(
        items=stock.items(books.connection, books.id, part.items),
        preparations=part.preparations,
        sources=_without(part.sources, kept),
        fixed=_fixed(books, part),
        handling=books.lives.handling_of(part.sources),
        zone=books.zone,
        made_until=books.lives.made_until,
    )
    covered: dict[str, int] = {}
    for (need, _), row in part.held.items():
        covered[need] = covered.get(need, 0) + row.quantity
    return project(
        [need for need in needs if need.until >= books.now],
        kitchen,
        books.now,
        last_order_by=Deadlines(books, part.rows).last_order_by,
        covered=covered,
    )


def _without(
    sources: Mapping[str, Sequence[Source]], kept: Iterable[Pick]
) -> dict[str, list[Source]]:
    """The sources less what is kept for services that are being served."""
    gone: dict[str, int] = {}
    for pick in kept:
        gone[pick.source] = gone.get(pick.source, 0) + pick.quantity
    return {
        item: [replace(each, quantity=each.quantity - gone.get(each.id, 0)) for each in found]
        for item, found in sources.items()
    }


def _fixed(books: Books, part: _Part) -> dict[str, list[Pick]]:
    """The picks that stay: pinned by the chef, and those wanted today and tomorrow (AL2)."""
    last = local_date(books.now, books.zone) + _TOMORROW
    need_of = {row.id: row for row in part.rows}
    found: dict[str, list[Pick]] = {}
    for (need, batch), row in sorted(part.held.items()):
        of = need_of[need]
        if row.pinned or local_date(of.wanted_by, books.zone) <= last:
            found.setdefault(of.item, []).append(Pick(need, batch, row.quantity))
    return found


def _of_batches(part: _Part, projection: Projection, kept: Iterable[Pick]) -> dict[Held, int]:
    """What each need is to hold of each batch: what is still to come is promised to nobody."""
    batches = {
        source.id for found in part.sources.values() for source in found if source.kind == "batch"
    }
    given = (pick for each in projection.allocations.values() for pick in each.picks)
    wanted: dict[Held, int] = {}
    for pick in (*kept, *given):
        if pick.source in batches:
            key = (pick.need, pick.source)
            wanted[key] = wanted.get(key, 0) + pick.quantity
    return wanted
