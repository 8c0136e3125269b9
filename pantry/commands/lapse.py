"""Services whose time has passed unserved: one question each, and nobody's stock for ever (LG5)."""

from sqlalchemy import bindparam, exists, literal, select

from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import every, table
from pantry.records.tables import NeedRow, QuestionRow, ServiceRow
from pantry.rules.menu import ServiceState
from pantry.rules.services import GRACE

_UNSERVED = "unserved"

_service, _question = table(ServiceRow).c, table(QuestionRow).c
_ASKED = exists().where(
    _question.house == _service.house, _question.id == literal(f"{_UNSERVED}|") + _service.id
)
_PASSED = (
    select(_service.id)
    .where(_service.house == bindparam("house"))
    .where(_service.at < bindparam("before"))
    .where(_service.state == ServiceState.CONFIRMED.value)
    .where(~_ASKED)
    .order_by(_service.at, _service.id)
)


def sweep(books: Books) -> None:
    """Ask once about every confirmed service that has lapsed; its stock is free from then on.

    What it held is let go when its items are planned anew.
    """
    passed = books.connection.execute(_PASSED, {"house": books.id, "before": books.now - GRACE})
    for service in passed.scalars().all():
        needs = every(books.connection, NeedRow, house=books.id, service=service)
        books.touched |= {need.item for need in needs}
        ask(
            books,
            _UNSERVED,
            "chef",
            service,
            recorded=f"{service} was confirmed and its time has passed.",
            against="Nobody has recorded that it was served.",
            answers=("it was served as planned", "it did not take place"),
        )
