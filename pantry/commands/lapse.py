"""Services whose time has passed unserved: one question each, and nobody's stock for ever (LG5)."""

from sqlalchemy import bindparam, select

from pantry.records.books import Books
from pantry.records.promises import held_by, settle
from pantry.records.questions import ask
from pantry.records.rows import every, table
from pantry.records.tables import NeedRow, ServiceRow
from pantry.rules.menu import ServiceState
from pantry.rules.services import GRACE

_PASSED = (
    select(table(ServiceRow).c.id)
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.state == ServiceState.CONFIRMED)
    .where(table(ServiceRow).c.at < bindparam("before"))
    .order_by(table(ServiceRow).c.at)
)


def sweep(books: Books) -> None:
    """Ask about every confirmed service that has lapsed, and let go of what it was promised."""
    passed = books.connection.execute(_PASSED, {"house": books.id, "before": books.now - GRACE})
    for (service,) in passed.all():
        _let_go(books, service)


def _let_go(books: Books, service: str) -> None:
    needs = every(books.connection, NeedRow, house=books.id, service=service)
    held = held_by(books, [need.id for need in needs])
    if held:
        settle(books, held, {}, {})
    ask(
        books,
        "unserved",
        "chef",
        service,
        recorded=f"{service} was confirmed and its time has passed.",
        against="Nobody has recorded that it was served.",
        answers=("it was served as planned", "it did not take place"),
    )
