"""The promises: what each need of a confirmed service holds of which batch (LG2).

Only net differences are written, each with a number of the house's one sequence; what a need holds
now is kept beside them in the same transaction.
"""

from collections.abc import Mapping

from pantry.records.books import Books
from pantry.records.read.kitchen_part import Held
from pantry.records.rows import add, among, change, every, put_all, remove_all
from pantry.records.tables import NeedRow, PromisedRow, PromiseRow


def settle(
    books: Books,
    held: Mapping[Held, PromisedRow],
    wanted: Mapping[Held, int],
    service_of: Mapping[str, str],
) -> None:
    """Make what is held what is wanted; a need that serves another service now goes with it."""
    gone: list[dict[str, object]] = []
    fresh: list[dict[str, object]] = []
    for key in sorted(held.keys() | wanted.keys()):
        before = held[key].quantity if key in held else 0
        after = wanted.get(key, 0)
        was = held[key].service if key in held else service_of[key[0]]
        service = service_of.get(key[0], was)
        if before != after or was != service:
            books.promise(was, *key, -before)
            books.promise(service, *key, after)
            where: dict[str, object] = {"house": books.id, "need": key[0], "batch": key[1]}
            if not after:
                gone.append(where)
            elif before:
                change(books.connection, PromisedRow, where, quantity=after, service=service)
            else:
                fresh.append(where | {"service": service, "quantity": after, "pinned": False})
    remove_all(books.connection, PromisedRow, gone)
    put_all(books.connection, PromisedRow, fresh)


def go_along(books: Books, batch: str, into: str, quantity: int) -> None:
    """What is held of a batch goes along with so much of it into another, the first wanted first.

    A pin of the chef's goes along, too.
    """
    rows = every(books.connection, PromisedRow, house=books.id, batch=batch)
    needs = among(books.connection, NeedRow, books.id, "id", [row.need for row in rows])
    wanted_by = {need.id: need.wanted_by for need in needs}
    held: dict[Held, PromisedRow] = {}
    wanted: dict[Held, int] = {}
    for row in sorted(rows, key=lambda row: (wanted_by[row.need], row.need)):
        part = min(quantity, row.quantity)
        quantity -= part
        if part:
            held[row.need, batch] = row
            wanted |= {(row.need, batch): row.quantity - part, (row.need, into): part}
    settle(books, held, wanted, {row.need: row.service for row in held.values()})
    for row in held.values():
        if row.pinned:
            where = {"house": books.id, "need": row.need, "batch": into}
            change(books.connection, PromisedRow, where, pinned=True)


def write_differences(books: Books) -> None:
    """Write what a command changed of each promise in all, and nothing else."""
    rows = [
        PromiseRow(
            house=books.id,
            number=books.note("service", service),
            service=service,
            need=need,
            batch=batch,
            quantity=quantity,
            command=books.command,
        )
        for (service, need, batch), quantity in sorted(books.promises.items())
        if quantity
    ]
    books.promises.clear()
    add(books.connection, *rows)
