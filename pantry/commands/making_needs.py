"""What the makings of preparations want, kept as needs beside those of the dishes (RQ1)."""

from collections.abc import Container, Iterable

from pantry.commands import menu_needs
from pantry.records.books import Books
from pantry.records.rows import add, remove_all
from pantry.records.tables import NeedRow
from pantry.rules.kitchen import Projection


def write(
    books: Books, before: Iterable[NeedRow], projection: Projection, preparations: Container[str]
) -> None:
    """Make the needs that are kept of these preparations' makings what was found, where different.

    Args:
        books: the books.
        before: what their makings wanted, as it is kept.
        projection: what was found now.
        preparations: the items whose makings were worked out.
    """
    old = {row.id: row for row in before}
    new = {
        need.id: menu_needs.as_row(books, need)
        for needs in projection.needs.values()
        for need in needs
        if need.via in preparations
    }
    same = {name for name in old.keys() & new.keys() if _same(old[name], new[name])}
    gone = [{"house": books.id, "id": name} for name in old if name not in same]
    remove_all(books.connection, NeedRow, gone)
    add(books.connection, *(row for name, row in new.items() if name not in same))


def _same(one: NeedRow, other: NeedRow) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in NeedRow.model_fields)
