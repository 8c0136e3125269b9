"""The promises: what each need of a confirmed service holds of which batch (LG2).

Only net differences are written, each with a number of the house's one sequence; what a need holds
now is kept beside them in the same transaction.
"""

from collections.abc import Mapping

from sqlalchemy import text

from pantry.records.books import Books
from pantry.records.rows import among, change, put, remove
from pantry.records.tables import PromisedRow, PromiseRow

Held = tuple[str, str]
"""A need's id and a batch's id."""


def held_by(books: Books, needs: list[str]) -> dict[Held, PromisedRow]:
    """What these needs hold now."""
    rows = among(books.connection, PromisedRow, books.id, "need", needs)
    return {(row.need, row.batch): row for row in rows}


def promised_of(books: Books, batch: str) -> int:
    """What is promised of a batch, to whomever, in thousandths."""
    total = text("SELECT SUM(quantity) FROM promised WHERE house = :house AND batch = :batch")
    found = books.connection.execute(total, {"house": books.id, "batch": batch}).scalar()
    return int(found or 0)


def settle(
    books: Books,
    held: Mapping[Held, PromisedRow],
    wanted: Mapping[Held, int],
    service_of: Mapping[str, str],
) -> None:
    """Make what is held what is wanted, writing each difference and nothing else."""
    for key in sorted(held.keys() | wanted.keys()):
        before = held[key].quantity if key in held else 0
        after = wanted.get(key, 0)
        if before != after:
            service = held[key].service if key in held else service_of[key[0]]
            _write(books, key, service, before, after)


def _write(books: Books, key: Held, service: str, before: int, after: int) -> None:
    need, batch = key
    put(
        books.connection,
        PromiseRow,
        house=books.id,
        number=books.note("service", service),
        service=service,
        need=need,
        batch=batch,
        quantity=after - before,
        command=books.command,
    )
    where = {"house": books.id, "need": need, "batch": batch}
    if not after:
        remove(books.connection, PromisedRow, **where)
    elif before:
        change(books.connection, PromisedRow, where, quantity=after)
    else:
        fresh = {"service": service, "quantity": after, "pinned": False}
        put(books.connection, PromisedRow, **where, **fresh)
