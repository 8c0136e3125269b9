"""What is assumed to have been used where nobody scanned it: as the recipe says, and FEFO (LG2)."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from pantry.commands.making import ToMake, Used, made_of
from pantry.records.books import Books
from pantry.records.read import stock
from pantry.records.rows import among, every, one
from pantry.records.tables import AreaRow, BatchRow, ItemRow, RecipeRow
from pantry.rules.fefo import Need, allocate
from pantry.rules.makings import in_recipes
from pantry.rules.recipes import needs_of_making


def ingredients(books: Books, what: ToMake, within: frozenset[str] = frozenset()) -> list[Used]:
    """What a preparation is made of, of the batches that die first.

    What is short of a preparation that goes into it must have been made first, and is written so;
    what is not there of anything else is not assumed.

    Args:
        books: the books.
        what: what was made.
        within: the items that are being made of it, so that nothing is made of itself.
    """
    like = Need(what.child, "", what.recipe.id, what.item, 0, wanted_by=what.at, until=what.at)
    needs = needs_of_making(books.recipes[what.recipe.id], what.quantity, books.items, like)
    inside = within | {what.item}
    wanted = {need.item: need.quantity for need in needs if need.item not in inside}
    make_what_is_short(books, wanted, what.at, what.child, within=inside)
    return given_of(books, needs, what.at)


def given_of(books: Books, needs: Sequence[Need], at: datetime) -> list[Used]:
    """What these needs are given at an instant, first expired first out."""
    of_items = sorted({need.item for need in needs})
    rows = stock.batch_rows(books.connection, books.id, of_items)
    by_id = {row.id: row for row in rows}
    stands = stock.standing(books.connection, books.id, list(by_id))
    sources = stock.sources(rows, stands)
    return [
        Used(by_id[pick.source], pick.quantity, "assumed")
        for item in of_items
        for pick in allocate(
            [need for need in needs if need.item == item], sources.get(item, []), at
        ).picks
    ]


def make_what_is_short(
    books: Books,
    wanted: Mapping[str, int],
    at: datetime,
    child: str,
    *,
    there: Mapping[str, int] | None = None,
    within: frozenset[str] = frozenset(),
) -> list[BatchRow]:
    """Write the makings that nobody recorded of preparations that were used; answer the batches.

    A preparation of which nothing can be found that went into it is not assumed to have been made.

    Args:
        books: the books.
        wanted: how much of each item was used, in thousandths.
        at: when.
        child: opens the ids of the batches (`child/item`).
        there: how much of each was made already; None: what may be used of it in the house.
        within: see `ingredients`.
    """
    made = []
    for row in among(books.connection, RecipeRow, books.id, "makes", sorted(wanted)):
        item = row.makes or row.id
        had = _there(books, item, wanted[item], at) if there is None else there.get(item, 0)
        if wanted[item] > had:
            quantity = in_recipes(books.recipes[row.id], wanted[item] - had)
            area = row.area or _area(books, item)
            what = ToMake(row, item, quantity, at, f"{child}/{item}", area)
            used = ingredients(books, what, within)
            if used:
                made.append(made_of(books, what, used))
    return made


def _there(books: Books, item: str, quantity: int, at: datetime) -> int:
    need = Need(item, "", "", item, quantity, wanted_by=at, until=at)
    return sum(used.quantity for used in given_of(books, [need], at))


def _area(books: Books, item: str) -> str:
    row = one(books.connection, ItemRow, house=books.id, id=item)
    return row.area or every(books.connection, AreaRow, house=books.id)[0].id
