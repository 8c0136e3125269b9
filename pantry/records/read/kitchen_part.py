"""The part of the kitchen that hangs together with some items, read to be planned again (LG2, AL2).

What lies below their preparations belongs to it. Nothing else of the house is read, however large
it is.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import partial

from pantry.records.read import menu, stock, supply
from pantry.records.read.deadlines import Deadlines
from pantry.records.read.opened import Opened
from pantry.records.rows import among, look_among
from pantry.records.tables import NeedRow, PromisedRow, RecipeRow
from pantry.rules.fefo import Need, Pick, Source
from pantry.rules.fixed_picks import what_holds
from pantry.rules.house_time import end_of_day, local_date
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import Recipe
from pantry.rules.services import lapsed
from pantry.rules.stock import Item

_TOMORROW = timedelta(days=1)

Held = tuple[str, str]
"""A need's id and a batch's id."""


@dataclass(frozen=True, slots=True)
class Part:
    """The part of the kitchen that is worked out again.

    Attributes:
        items: by id.
        preparations: by the item each makes; empty where none is touched.
        rows: every need of the part's items, as it is kept, to be looked at only.
        held: what these needs hold, to be looked at only.
        sources: what there is of each item, and what is to come.
        deadlines: by when each need must be ordered for.
    """

    items: Mapping[str, Item]
    preparations: Mapping[str, Recipe]
    rows: Sequence[NeedRow]
    held: Mapping[Held, PromisedRow]
    sources: Mapping[str, Sequence[Source]]
    deadlines: Deadlines

    def is_made_here(self, row: NeedRow) -> bool:
        """Whether a making of this part wants it, so that it is worked out anew."""
        return row.via in self.preparations

    def batches(self) -> Iterator[Source]:
        """Every batch there is of the part's items."""
        return (
            source
            for of_item in self.sources.values()
            for source in of_item
            if source.kind == "batch"
        )


def part_of(house: Opened, touched: Iterable[str]) -> Part:
    """The part of the kitchen that hangs together with these items."""
    scope, preparations = _below(house, touched)
    rows = look_among(house.connection, NeedRow, house.id, "item", scope)
    return Part(
        items=stock.items(house.connection, house.id, scope),
        preparations=preparations,
        rows=rows,
        held=held_by(house, [row.id for row in rows]),
        sources=_sources(house, scope),
        deadlines=Deadlines(rows),
    )


def held_by(house: Opened, needs: Sequence[str]) -> dict[Held, PromisedRow]:
    """What these needs hold now, to be looked at only."""
    rows = look_among(house.connection, PromisedRow, house.id, "need", needs)
    return {(row.need, row.batch): row for row in rows}


def _below(house: Opened, touched: Iterable[str]) -> tuple[list[str], dict[str, Recipe]]:
    """The items with all that lies below them, and the recipes of the preparations among them."""
    scope: set[str] = set()
    preparations: dict[str, Recipe] = {}
    waiting = set(touched)
    while waiting:
        scope |= waiting
        made = among(house.connection, RecipeRow, house.id, "makes", sorted(waiting))
        recipes = menu.recipes(house.connection, house.id, [row.id for row in made])
        preparations |= {recipe.makes: recipe for recipe in recipes.values() if recipe.makes}
        waiting = {line.item for recipe in recipes.values() for line in recipe.ingredients} - scope
    return sorted(scope), preparations


def _sources(house: Opened, items: Sequence[str]) -> dict[str, list[Source]]:
    """Batches on the shelf, what was taken out for a preparation, open orders, harvests."""
    rows = stock.batch_rows(house.connection, house.id, items)
    stands = stock.standing(house.connection, house.id, [row.id for row in rows])
    found = stock.sources(rows, stands)
    of = set(items)
    today = local_date(house.now, house.zone)
    coming = supply.on_order(house.connection, house.id, house.zone, house.now, items)
    grown = supply.harvests(house.connection, house.id, house.zone, today)
    for source in [*coming, *(part for part in grown if part.item in of)]:
        found.setdefault(source.item, []).append(source)
    return found


@dataclass(frozen=True, slots=True)
class Planned:
    """A part of the kitchen planned again.

    Attributes:
        needs: those that were not worked out anew, of services that have not lapsed.
        kept: what is held for services whose time has come: it stays until they are served (LG5).
        projection: what everything else is given.
    """

    needs: Sequence[Need]
    kept: Sequence[Pick]
    projection: Projection


def planned(house: Opened, part: Part, needs: Sequence[Need] | None = None) -> Planned:
    """Plan a part again, with its needs as they are kept or with these instead.

    Raises:
        UnreadableInput, NotThere, MissingFact: as `pantry.rules.kitchen.project`.
    """
    wanted = open_needs(house, part) if needs is None else needs
    kept = _still_served(house, part, wanted)
    return Planned(wanted, kept, _projected(house, part, wanted, kept))


def open_needs(house: Opened, part: Part) -> list[Need]:
    """The needs that are not worked out anew, of services that have not lapsed."""
    return [
        menu.need(row)
        for row in part.rows
        if not part.is_made_here(row) and not lapsed(row.until, house.now)
    ]


def _still_served(house: Opened, part: Part, needs: Iterable[Need]) -> list[Pick]:
    """What is held for services whose time has come: it stays as it is until they are served."""
    serving = [need for need in needs if need.until < house.now]
    if not serving:
        return []
    ids = {need.id for need in serving}
    held = [Pick(*key, row.quantity) for key, row in part.held.items() if key[0] in ids]
    return what_holds(held, serving, part.batches(), house.now, piece=0)


def _projected(
    house: Opened, part: Part, needs: Iterable[Need], kept: Iterable[Pick]
) -> Projection:
    kitchen = Kitchen(
        items=part.items,
        preparations=part.preparations,
        sources=_without(part.sources, kept),
        fixed=_fixed(house, part),
        handling=house.lives.handling_of(part.sources),
        zone=house.zone,
        made_until=house.lives.made_until,
    )
    covered: dict[str, int] = {}
    for (need, _), row in part.held.items():
        covered[need] = covered.get(need, 0) + row.quantity
    return project(
        [need for need in needs if need.until >= house.now],
        kitchen,
        house.now,
        last_order_by=partial(part.deadlines.last_order_by, house),
        covered=covered,
    )


def _without(
    sources: Mapping[str, Sequence[Source]], kept: Iterable[Pick]
) -> Mapping[str, Sequence[Source]]:
    """The sources less what is kept for services that are being served."""
    gone: dict[str, int] = {}
    for pick in kept:
        gone[pick.source] = gone.get(pick.source, 0) + pick.quantity
    if not gone:
        return sources
    return {
        item: [replace(each, quantity=each.quantity - gone.get(each.id, 0)) for each in found]
        for item, found in sources.items()
    }


def _fixed(house: Opened, part: Part) -> dict[str, list[Pick]]:
    """The picks that stay: pinned by the chef, and those wanted today and tomorrow (AL2)."""
    last = end_of_day(local_date(house.now, house.zone) + _TOMORROW, house.zone)
    need_of = {row.id: row for row in part.rows}
    found: dict[str, list[Pick]] = {}
    for (need, batch), row in sorted(part.held.items()):
        of = need_of[need]
        if row.pinned or of.wanted_by <= last:
            found.setdefault(of.item, []).append(Pick(need, batch, row.quantity))
    return found
