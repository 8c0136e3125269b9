"""Devices hand in what they still hold after a restore; then the house goes on (SY7)."""

from collections.abc import Sequence
from datetime import datetime
from typing import Annotated, Any

from msgspec import Meta, Struct
from sqlalchemy import Connection

from pantry.commands import replay
from pantry.commands.answers import Answer
from pantry.commands.envelope import Envelope, canonical, read_envelope
from pantry.records import gathering
from pantry.records.books import Books
from pantry.records.rows import add, every, find
from pantry.records.tables import AwaitedRow, DeviceRow, GatheredRow
from pantry.refusals import BrokenEnvelope, NotNow, NotThere, UnreadableInput, declare

NOTHING_AWAITED = declare("nothing_awaited", "The house waits for no device.")
NOT_AWAITED = declare("not_awaited", "The house does not wait for that device.")
HELD_BY_ANOTHER = declare("held_by_another", "The command is of another device's outbox.")

Number = Annotated[int, Meta(ge=1, le=2**53)]


class Held(Struct, frozen=True, forbid_unknown_fields=True):
    """A command that a device still holds, as it was saved, and what it was answered.

    Attributes:
        command: the same bytes as ever.
        answer: the house's; None: it was never heard.
        epoch: of the house when it answered.
        answered_at: the house's time in that reply.
    """

    command: dict[str, Any]
    answer: Answer | None = None
    epoch: Annotated[str, Meta(max_length=200)] = ""
    answered_at: Annotated[datetime, Meta(tz=True)] | None = None


class Holding(Struct, frozen=True, forbid_unknown_fields=True):
    """A part of what a device holds, in the order of its numbers, up to the last answered one.

    Attributes:
        first: the lowest number it holds, answered or not; the next it will give if it holds none.
        commands: the next of them, in order.
        complete: nothing more comes.
    """

    first: Number
    commands: list[Held] = []
    complete: bool = True


class Restored(Struct, frozen=True):
    """The house was restored, and this device has to hand in or to wait.

    Attributes:
        hand_in: it is asked for all it holds.
        awaited: how many devices the house waits for; 0: it has gone on without this one.
    """

    hand_in: bool
    awaited: int


def stands(connection: Connection, house: str, device: str | None) -> Restored | None:
    """Where the house stands after a restore, for a device; None: it goes on as usual."""
    waiting = gathering.silent(connection, house)
    row = find(connection, AwaitedRow, house=house, device=device) if device else None
    hand_in = row is not None and row.handed_in_at is None
    return Restored(hand_in, len(waiting)) if waiting or hand_in else None


def hand_in(
    connection: Connection, house: str, device: str, holding: Holding, now: datetime
) -> None:
    """Keep what a device still holds; where it was the last that is awaited, go on.

    A device that was gone on without is replayed by itself, as late as it is.

    Raises:
        UnreadableInput: `held_by_another`; nothing of the list is kept.
        BrokenEnvelope: likewise.
    """
    books = Books(connection, house, now)
    row = find(connection, AwaitedRow, house=house, device=device)
    if row is None or row.handed_in_at is not None:
        return
    for held in holding.commands:
        _gather(books, device, held)
    gathering.heard(connection, house, device, first=holding.first)
    if holding.complete:
        gathering.heard(connection, house, device, handed_in_at=now)
        if row.given_up_at is not None:
            replay.late(books, device)
        elif not gathering.silent(connection, house):
            replay.everything(books)
    books.close()


def go_on(
    connection: Connection, house: str, person: str, now: datetime, device: str | None = None
) -> Sequence[str]:
    """Wait no longer, for one device or all; answers whom the house goes on without, by name.

    Raises:
        NotNow: `nothing_awaited`.
        NotThere: `not_awaited`.
    """
    books = Books(connection, house, now)
    waiting = gathering.silent(connection, house)
    if not waiting:
        raise NotNow(NOTHING_AWAITED, "The house waits for no device.", "Nothing is left to do.")
    given_up = [row for row in waiting if _is_meant(books, row, device)]
    if not given_up:
        raise NotThere(
            NOT_AWAITED,
            f"The house does not wait for {device!r}.",
            "Name one of: " + ", ".join(gathering.names(connection, house, waiting)) + ".",
            value=device or "",
            field="device",
        )
    for row in given_up:
        gathering.heard(connection, house, row.device, given_up_at=now, given_up_by=person)
    if len(given_up) == len(waiting):
        replay.everything(books)
    books.close()
    return gathering.names(connection, house, given_up)


def _is_meant(books: Books, row: AwaitedRow, device: str | None) -> bool:
    if device in (None, row.device):
        return True
    known = find(books.connection, DeviceRow, house=books.id, id=row.device)
    return known is not None and known.name == device


def _gather(books: Books, device: str, held: Held) -> None:
    envelope = _of(device, held)
    for same in ({"id": envelope.id}, {"device": device, "n": envelope.n}):
        if every(books.connection, GatheredRow, house=books.id, **same):
            return
    answer = held.answer
    place = answer.position if answer else None
    at = (held.answered_at or envelope.at).replace(microsecond=0)
    row = GatheredRow(
        house=books.id,
        id=envelope.id,
        device=device,
        n=envelope.n or 0,
        epoch=held.epoch if place else "",
        position=place,
        at=min(at, books.now),
        envelope=envelope.written,
        answer=canonical(answer) if answer else None,
    )
    add(books.connection, row)


def _of(device: str, held: Held) -> Envelope:
    try:
        envelope = read_envelope(held.command)
    except BrokenEnvelope as refusal:
        raise refusal.at("held.commands") from refusal
    if envelope.device != device:
        raise UnreadableInput(
            HELD_BY_ANOTHER,
            f"The command {envelope.id} is of the outbox of {envelope.device}, not of {device}.",
            "Hand in what this device's own outbox holds.",
            value=envelope.id,
            field="held.commands",
        )
    return envelope
