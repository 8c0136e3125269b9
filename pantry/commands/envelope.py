"""The envelope of a command: `{id, kind, at, person, device?, n?, base?, clock?, body}` (SY1)."""

import uuid
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Annotated, Any

import msgspec

from pantry.commands.decision import Base
from pantry.commands.decisions import DECISIONS
from pantry.commands.facts import FACTS
from pantry.refusals import BrokenEnvelope, Refusal, UnreadableInput, declare
from pantry.rules.house_time import read_instant

ENVELOPE_BROKEN = declare("envelope_broken", "The command is no command: its envelope is broken.")
KIND_UNKNOWN = declare("kind_unknown", "There is no command of that kind.")
BODY_UNREADABLE = declare("body_unreadable", "A field of the command cannot be read.")

_YEARS_MS = 10**12
_NUL = "\\u0000"
"""The one character that no database keeps in a text."""


@dataclass(frozen=True, slots=True)
class Envelope:
    """A readable envelope; the body is read later, and may still be unreadable.

    Attributes:
        at: when it happened, in UTC: by the device's clock, put right by the offset it measured.
        bound: how far `at` may still be off, as the device measured it (SY8).
        written: the whole command as canonical JSON: the same bytes for the same command.
    """

    id: str
    kind: str
    at: datetime
    bound: timedelta
    person: str
    device: str | None
    n: int | None
    base: Base
    body: dict[str, Any]
    written: str

    @property
    def is_fact(self) -> bool:
        """Whether it says what happened, rather than what was decided."""
        return self.kind in FACTS


class _Clock(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What to add to the device's clock for the server's, and how far that may be off, in ms."""

    offset_ms: Annotated[int, msgspec.Meta(ge=-_YEARS_MS, le=_YEARS_MS)]
    bound_ms: Annotated[int, msgspec.Meta(ge=0, le=_YEARS_MS)]


class _Wire(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    id: str
    kind: str
    at: str
    person: str = ""
    device: str | None = None
    n: Annotated[int, msgspec.Meta(ge=1, le=2**53)] | None = None
    base: int | str | None = None
    clock: _Clock | None = None
    body: dict[str, Any] = {}


def canonical(value: object) -> str:
    """JSON with sorted keys and no spaces, so that the same value is the same text."""
    return msgspec.json.encode(value, order="sorted").decode()


def read_envelope(raw: object) -> Envelope:
    """Read the envelope of one command.

    Raises:
        BrokenEnvelope: it is none, and nothing of it can be kept.
    """
    wire, command, at, written = _parts(raw)
    if wire.kind not in FACTS and wire.kind not in DECISIONS:
        raise BrokenEnvelope(
            KIND_UNKNOWN,
            f"There is no command of the kind {wire.kind!r}.",
            "Use one of: " + ", ".join(sorted(FACTS | DECISIONS)) + ".",
            value=wire.kind,
            field="kind",
        )
    if (wire.device is None) != (wire.n is None):
        raise _broken("`device` and `n` come together or not at all", raw)
    base = wire.base if wire.base is not None else wire.body.get("base")
    return Envelope(
        id=command,
        kind=wire.kind,
        at=at,
        bound=timedelta(milliseconds=wire.clock.bound_ms if wire.clock else 0),
        person=wire.person,
        device=wire.device,
        n=wire.n,
        base=base,
        body=wire.body,
        written=written,
    )


def _parts(raw: object) -> tuple[_Wire, str, datetime, str]:
    """The fields of an envelope, its id and instant read, and the whole as canonical JSON."""
    try:
        wire = msgspec.convert(raw, _Wire)
        at = read_instant(wire.at)
        if wire.clock:
            at += timedelta(seconds=(wire.clock.offset_ms + 500) // 1000)
        written = canonical(raw)
    except msgspec.ValidationError as error:
        raise _broken(str(error), raw) from error
    except Refusal as refusal:
        raise _broken(refusal.problem, raw) from refusal
    except (ValueError, OverflowError, RecursionError) as error:
        raise _broken("it is no JSON that can be kept", raw) from error
    if _NUL in written:
        raise _broken("a text in it holds the character NUL", raw)
    try:
        return wire, str(uuid.UUID(wire.id)), at, written
    except ValueError as error:
        raise _broken("`id` must be a UUID", raw) from error


def _broken(why: str, raw: object) -> BrokenEnvelope:
    return BrokenEnvelope(
        ENVELOPE_BROKEN,
        f"This is no command: {why}.",
        "Send {id, kind, at, person, body}; id a UUID, at RFC 3339 with an offset.",
        value=repr(raw)[:200],
    )


def read_body(envelope: Envelope) -> Any:  # noqa: ANN401 - the type its kind names
    """Read the body as the frozen type that its kind names.

    Raises:
        UnreadableInput: `body_unreadable`, naming the field.
    """
    shape = FACTS.get(envelope.kind) or DECISIONS[envelope.kind]
    try:
        return msgspec.convert(envelope.body, shape)
    except msgspec.ValidationError as error:
        message, _, place = str(error).partition(" - at `$")
        raise UnreadableInput(
            BODY_UNREADABLE,
            f"The command {envelope.kind} cannot be read: {message}.",
            "Correct that field and send it as a new command.",
            value=canonical(envelope.body)[:200],
            field="body" + place.rstrip("`"),
        ) from error
