"""What a command is answered (SY2), its problem in the shape of RFC 9457."""

from dataclasses import asdict
from datetime import datetime
from typing import Any, Literal

from msgspec import Struct, json

from pantry.refusals import Fault, FaultyBook, Moved, Refusal, Stands

Outcome = Literal["applied", "kept", "refused", "conflict"]


class FaultPart(Struct, frozen=True):
    """One fault of a house book, as `Fault` has it."""

    file: str
    row: int
    column: str
    value: str
    code: str
    problem: str
    todo: str


class StandsPart(Struct, frozen=True):
    """What stands now where a decision was taken on something else, as `Stands` has it.

    `body` is that of the command, None where a whole house book was taken in.
    """

    version: int
    command: str
    kind: str
    person: str
    at: datetime
    body: dict[str, Any] | None


class Problem(Struct, frozen=True, omit_defaults=True):
    """A refusal on the wire: `application/problem+json` with our stable code beside it.

    `faults` are those of a house book, which is refused for all of them at once; `stands` is what
    a conflict is with.
    """

    type: str
    title: str
    status: int
    detail: str
    code: str
    todo: str
    value: str = ""
    field: str = ""
    faults: tuple[FaultPart, ...] = ()
    stands: StandsPart | None = None


class Answer(Struct, frozen=True, omit_defaults=True):
    """What became of one command.

    `applied`; `kept` (a fact that is in the journal without effect, with a question); `refused`;
    `conflict`. `position` is its place in the journal, None where nothing of it was kept.
    """

    id: str | None
    outcome: Outcome
    position: int | None
    problem: Problem | None = None


def problem(refusal: Refusal) -> Problem:
    """A refusal as a problem."""
    return Problem(
        type=f"urn:chooseby:refusal:{refusal.code}",
        title=refusal.code.replace("_", " "),
        status=refusal.status,
        detail=refusal.problem,
        code=refusal.code,
        todo=refusal.todo,
        value=refusal.value,
        field=refusal.field,
        faults=tuple(FaultPart(**asdict(fault)) for fault in _faults(refusal)),
        stands=_stands(refusal),
    )


def _faults(refusal: Refusal) -> tuple[Fault, ...]:
    return refusal.faults if isinstance(refusal, FaultyBook) else ()


def _stands(refusal: Refusal) -> StandsPart | None:
    stands: Stands | None = refusal.stands if isinstance(refusal, Moved) else None
    if stands is None:
        return None
    body = json.decode(stands.body) if stands.body else None
    return StandsPart(**asdict(stands) | {"body": body})
