"""The one way in: a list of commands, and an answer to each, once (SY1-SY3, SY6).

Every command of a list has its own savepoint and its own position in the journal, with its answer.
The same id again gets the first answer; the same id with another body is refused. A fact that
cannot be applied is kept as it came, and a person is asked; a decision is refused or, where what it
was taken on has moved, a conflict.
"""

import logging
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Any

import msgspec
from sqlalchemy import Connection
from sqlalchemy.exc import InterfaceError, OperationalError

from pantry.commands import devices, lapse, menu_needs, replan, rights, standing_orders, unapplied
from pantry.commands.answers import Answer, Outcome, Problem, problem
from pantry.commands.envelope import Envelope, canonical, read_body, read_envelope
from pantry.commands.given import Given
from pantry.commands.verbs import VERBS
from pantry.records import gathering, journal
from pantry.records.books import Books
from pantry.records.promises import write_differences
from pantry.records.tables import AwaitedRow
from pantry.refusals import (
    BrokenEnvelope,
    Moved,
    NotAllowed,
    NotNow,
    NotThere,
    Refusal,
    declare,
)

HOUSE_GATHERING = declare(
    "house_gathering", "The house was restored and waits for what devices still hold."
)
ID_REUSED = declare("id_reused", "The id belongs to another command already.")
PROGRAM_FAILED = declare("program_failed", "The program has a fault and could not do the command.")

_log = logging.getLogger(__name__)


class ProgramFailed(Refusal):
    """A fault of the program: the command is kept, and the commands behind it still get through."""

    status = 500


def apply(
    connection: Connection,
    house: str,
    commands: Sequence[object],
    now: datetime,
    *,
    told: Callable[[Answer], None] | None = None,
) -> list[Answer]:
    """Give a list of commands to a house, in order; `told` hears each answer as it is made.

    It runs inside the writer's transaction: no answer may leave the process before the commit.
    After a restore nothing new is taken before what devices hold has been replayed (SY7).
    """
    books = Books(connection, house, now)
    if waiting := gathering.silent(connection, house):
        return _not_yet(connection, house, waiting, commands, told)
    catch_up(books)
    answers: list[Answer] = []
    for raw in commands:
        answer, go_on = _answer(books, raw)
        answers.append(answer)
        if told:
            told(answer)
        if not go_on:
            break
    books.close()
    return answers


def catch_up(books: Books) -> None:
    """Do what time alone has brought since the last command."""
    lapse.sweep(books)
    standing_orders.sweep(books)
    replan.follow(books)
    _write_beside(books)


def _not_yet(
    connection: Connection,
    house: str,
    waiting: list[AwaitedRow],
    commands: Sequence[object],
    told: Callable[[Answer], None] | None,
) -> list[Answer]:
    called = ", ".join(gathering.names(connection, house, waiting))
    refusal = NotNow(
        HOUSE_GATHERING,
        f"The house was restored and waits for what these still hold: {called}.",
        "Give it again once they have handed in, or a manager has gone on without them.",
        value=called,
    )
    answers = [Answer(_id_of(raw), "refused", None, problem(refusal)) for raw in commands]
    if told:
        for answer in answers:
            told(answer)
    return answers


def _answer(books: Books, raw: object) -> tuple[Answer, bool]:
    try:
        envelope = read_envelope(raw)
    except BrokenEnvelope as refusal:
        return Answer(_id_of(raw), "refused", None, problem(refusal)), True
    try:
        before = _first_answer(books, envelope)
        if before is not None:
            return before, True
        devices.admit(books, envelope)
    except Refusal as refusal:
        return Answer(envelope.id, "refused", None, problem(refusal)), not _is_gap(refusal)
    return keep(books, envelope), True


def _is_gap(refusal: Refusal) -> bool:
    return refusal.code in devices.STOPS


def _id_of(raw: object) -> str | None:
    found = raw.get("id") if isinstance(raw, dict) else None
    return found if isinstance(found, str) else None


def _first_answer(books: Books, envelope: Envelope) -> Answer | None:
    row = journal.kept(books, envelope.id)
    if row is None:
        return None
    if row.envelope != envelope.written:
        raise Refusal(
            ID_REUSED,
            f"The id {envelope.id} belongs to another command, at position {row.position}.",
            "Give a new command an id of its own.",
            value=envelope.id,
            field="id",
        )
    return msgspec.json.decode(row.answer, type=Answer)


def keep(books: Books, envelope: Envelope, before: Answer | None = None) -> Answer:
    """Do a command, and keep it with its answer at the next position.

    Args:
        books: the books.
        envelope: the command.
        before: what it was answered in a journal that was lost: it is applied whatever it was
            taken on, or stays without effect for what it was refused then (SY7).
    """
    books.position += 1
    books.command, books.device, books.bound = envelope.id, envelope.device, envelope.bound
    outcome, said = _outcome(books, envelope, before)
    answer = Answer(envelope.id, outcome, books.position, said)
    books.write_notes()
    journal.keep(
        books,
        journal.Entry(
            id=envelope.id,
            kind=envelope.kind,
            at=envelope.at,
            person=envelope.person,
            device=envelope.device,
            n=envelope.n,
            envelope=envelope.written,
            outcome=outcome,
            answer=canonical(answer),
        ),
    )
    return answer


def _outcome(
    books: Books, envelope: Envelope, before: Answer | None
) -> tuple[Outcome, Problem | None]:
    if before is None or before.problem is None:
        return _try(books, envelope, again=before is not None)
    said = before.problem
    if before.outcome == "kept":
        kinds: dict[int, type[Refusal]] = {403: NotAllowed, 404: NotThere}
        kind = kinds.get(said.status, Refusal)
        refusal = kind(said.code, said.detail, said.todo, said.value, said.field)
        unapplied.ask_about(books, envelope, refusal)
    return before.outcome, said


def _try(books: Books, envelope: Envelope, *, again: bool) -> tuple[Outcome, Problem | None]:
    savepoint = books.connection.begin_nested()
    try:
        _do(books, envelope, again=again)
    except Exception as error:  # noqa: BLE001 - a poisoned command must not stop those behind it
        savepoint.rollback()
        books.undo_notes()
        books.settings_changed()
        refusal = _refusal(error, envelope)
        return _unable(books, envelope, refusal), problem(refusal)
    savepoint.commit()
    return "applied", None


def _refusal(error: Exception, envelope: Envelope) -> Refusal:
    """What the command is refused for; a database that cannot be written to is nobody's command."""
    if isinstance(error, Refusal):
        return error
    if isinstance(error, OperationalError | InterfaceError):
        raise error
    _log.exception("the command %s %s failed", envelope.kind, envelope.id, exc_info=error)
    return ProgramFailed(
        PROGRAM_FAILED,
        f"The program could not do the command {envelope.kind}: {type(error).__name__}.",
        "It is kept as it came. Tell whoever looks after the program, with the command's id.",
        value=envelope.id,
    )


def _do(books: Books, envelope: Envelope, *, again: bool) -> None:
    devices.check_rights(books, envelope, again=again)
    role = rights.check(books, envelope.kind, envelope.person)
    body = read_body(envelope)
    given: Given[Any] = Given(
        id=envelope.id,
        at=envelope.at,
        person=envelope.person,
        role=role,
        device=envelope.device,
        base=envelope.base,
        body=body,
        again=again,
    )
    VERBS[envelope.kind](books, given)
    menu_needs.count_taken(books)
    if envelope.is_fact:
        replan.follow(books)
    else:
        replan.replan(books)
    _write_beside(books)


def _write_beside(books: Books) -> None:
    """What is noted of a command once it is known in all."""
    write_differences(books)
    books.write_notes()


def _unable(books: Books, envelope: Envelope, refusal: Refusal) -> Outcome:
    if isinstance(refusal, Moved):
        return "conflict"
    if not envelope.is_fact:
        return "refused"
    unapplied.ask_about(books, envelope, refusal)
    return "kept"
