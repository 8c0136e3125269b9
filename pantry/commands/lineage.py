"""What was done to a batch and to all that it was made of, since each was raw (SL3)."""

from collections.abc import Iterable, Mapping
from graphlib import TopologicalSorter

from pantry.records.books import Books
from pantry.records.rows import among
from pantry.records.tables import BatchParentRow, BatchRow
from pantry.rules.refreezing import Past, Treatment, after
from pantry.rules.stock import State


def pasts(books: Books, batch: BatchRow) -> frozenset[Past]:
    """The pasts of a batch, one for each way in which it came of something raw.

    A batch without a parent has what its own row says; there are never more than a few different
    ones, however old the stock pot is.
    """
    parents = _parents(books, batch.id)
    rows = {row.id: row for row in among(books.connection, BatchRow, books.id, "id", list(parents))}
    found: dict[str, frozenset[Past]] = {}
    for name in TopologicalSorter(parents).static_order():
        row = rows[name]
        steps = [(found[parent], _steps(rows[parent], row)) for parent in parents[name]]
        found[name] = frozenset(
            _then(past, done) for of_parent, done in steps for past in of_parent
        ) or frozenset({_own(row)})
    return found[batch.id]


def _parents(books: Books, batch: str) -> Mapping[str, list[str]]:
    """The parents of a batch and of everything it came of, a generation at a time."""
    found: dict[str, list[str]] = {}
    generation = [batch]
    while generation:
        found |= {name: [] for name in generation}
        for link in among(books.connection, BatchParentRow, books.id, "batch", generation):
            found[link.batch].append(link.parent)
        older = {parent for name in generation for parent in found[name]}
        generation = sorted(older - found.keys())
    return found


def _own(row: BatchRow) -> Past:
    """What a row says of itself, where nothing is known of what it came of."""
    cooked = [Treatment.COOKED] if row.cooked else []
    return after([*cooked, Treatment.THAWED] if row.was_thawed else cooked)


def _steps(parent: BatchRow, row: BatchRow) -> list[Treatment]:
    """What was done to a parent to become this; what leaves the freezer for a pan thaws (SL3)."""
    left_the_freezer = parent.state == State.FROZEN and row.state != State.FROZEN
    steps = [Treatment.THAWED] if left_the_freezer else []
    is_made = row.state == State.MADE and (row.made_by, row.since) != (parent.made_by, parent.since)
    return [*steps, Treatment.COOKED] if is_made and row.cooked else steps


def _then(past: Past, steps: Iterable[Treatment]) -> Past:
    for step in steps:
        past = past.then(step)
    return past
