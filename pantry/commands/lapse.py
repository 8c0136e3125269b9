"""Services whose time has passed unserved: one question each, and nobody's stock for ever (LG5)."""

from datetime import datetime, timedelta

from sqlalchemy import bindparam, select

from pantry.records.books import Books
from pantry.records.promises import held_by, settle
from pantry.records.questions import ask
from pantry.records.rows import every, table
from pantry.records.tables import NeedRow, ServiceRow
from pantry.rules.menu import ServiceState

GRACE = timedelta(hours=12)
"""So long after its time a service may still be recorded as served without being asked about.

Common practice, no source: the evening's kitchen records in the morning.
"""

_PASSED = (
    select(table(ServiceRow).c.id)
    .where(table(ServiceRow).c.house == bindparam("house"))
    .where(table(ServiceRow).c.state == ServiceState.CONFIRMED)
    .where(table(ServiceRow).c.at < bindparam("before"))
    .order_by(table(ServiceRow).c.at)
)


def lapsed(at: datetime, now: datetime) -> bool:
    """Whether a confirmed service of that time should have been served by now."""
    return at < now - GRACE


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
