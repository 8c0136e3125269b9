"""Plan anew what a command has touched: the promises follow the stock and the needs (LG2, AL2).

Only the items touched, and what lies below their preparations, are worked out again; every promise
is a pure function of the batches, the needs, the fixed promises and now, and only net differences
are written.
"""

from pantry.commands import making_needs, menu_needs
from pantry.records.books import Books
from pantry.records.promises import settle
from pantry.records.questions import ask
from pantry.records.read.kitchen_part import Held, Part, Planned, part_of, planned
from pantry.records.rows import among
from pantry.records.tables import NeedRow
from pantry.refusals import Refusal
from pantry.rules.fefo import Need


def replan(books: Books) -> None:
    """Bring promises and the needs of preparations up to date with what the books say is touched.

    A confirmed need that can be bought no more keeps what it has (AL2); the chef who wants it
    otherwise pins the batch to another service, by name. What a service holds whose time has come
    is kept until it is served, and let go once it has lapsed (LG5).

    Raises:
        UnreadableInput, NotThere, MissingFact: as `pantry.rules.kitchen.project`.
    """
    touched, books.touched = books.touched, set()
    part = part_of(books, touched) if touched else None
    if part is None or not part.rows:
        return
    found = planned(books, part)
    made_here = [row for row in part.rows if part.is_made_here(row)]
    making_needs.write(books, made_here, found.projection, part.preparations)
    service_of = {need.id: need.service for need in found.needs}
    for each in found.projection.needs.values():
        service_of |= {need.id: need.service for need in each}
    settle(books, part.held, _of_batches(part, found), service_of)


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
    part = part_of(books, {item})
    if not part.rows:
        return []
    try:
        projection = planned(books, part).projection
    except Refusal:
        return []
    of = {need.id: need for of_item in projection.needs.values() for need in of_item}
    picks = (pick for each in projection.allocations.values() for pick in each.picks)
    given = {pick.need: of[pick.need] for pick in picks if pick.source == source}
    return sorted(given.values(), key=lambda need: (need.wanted_by, need.id))


def _of_batches(part: Part, found: Planned) -> dict[Held, int]:
    """What each need is to hold of each batch: what is still to come is promised to nobody."""
    batches = {source.id for source in part.batches()}
    given = (pick for each in found.projection.allocations.values() for pick in each.picks)
    wanted: dict[Held, int] = {}
    for pick in (*found.kept, *given):
        if pick.source in batches:
            key = (pick.need, pick.source)
            wanted[key] = wanted.get(key, 0) + pick.quantity
    return wanted
