"""The product with one thing written wrongly, for as long as the context lasts."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime
from unittest.mock import patch

from sqlalchemy import Connection

from pantry.commands import base, clocks, devices, door, doubts
from pantry.commands.answers import Outcome, Problem, problem
from pantry.commands.envelope import Envelope
from pantry.records import journal, ledger
from pantry.records.books import Books
from pantry.records.rows import change
from pantry.records.tables import BatchRow, DeviceRow, MovementRow
from pantry.refusals import NotNow, Refusal
from pantry.rules.moments import Moment
from tests.simulation.planted_phones import other_id


@contextmanager
def nothing_is_known_again() -> Iterator[None]:
    """No dedupe: the journal lets an id in twice, and nobody looks for it, or for its number."""

    def admit(books: Books, envelope: Envelope) -> None:
        if envelope.device and envelope.n:
            where = {"house": books.id, "id": envelope.device}
            change(books.connection, DeviceRow, where, highest=envelope.n)

    with (
        patch.object(door, "_first_answer", lambda *_: None),
        patch.object(devices, "admit", admit),
        patch.object(journal, "keep", _keep_another),
    ):
        yield


def _keep_another(books: Books, entry: journal.Entry) -> None:
    """Keep a command that is there already under another id and without a number."""
    if journal.kept(books, entry.id):
        entry = replace(entry, id=other_id(entry.id, books.position), n=None)
    _KEEP(books, entry)


_KEEP = journal.keep


@contextmanager
def base_is_not_looked_at() -> Iterator[None]:
    with patch.object(base, "check", lambda *_: None):
        yield


@contextmanager
def short_stock_refuses() -> Iterator[None]:
    def refuse(_books: Books, batch: BatchRow, *_: object) -> None:
        raise NotNow("stock_short", f"There is not so much of {batch.label}.", "Take less.")

    with patch.object(doubts, "ask_about_overdraw", refuse):
        yield


@contextmanager
def nobody_asks_about_overdraws() -> Iterator[None]:
    with patch.object(doubts, "ask_about_overdraw", lambda *_: None):
        yield


@contextmanager
def gap_is_let_in() -> Iterator[None]:
    def admit(books: Books, envelope: Envelope) -> None:
        try:
            _ADMIT(books, envelope)
        except NotNow as refusal:
            if refusal.code != devices.NUMBER_GAP:
                raise
            where = {"house": books.id, "id": envelope.device}
            change(books.connection, DeviceRow, where, highest=envelope.n)

    with patch.object(devices, "admit", admit):
        yield


_ADMIT = devices.admit


@contextmanager
def revoked_is_turned_away() -> Iterator[None]:
    def admit(books: Books, envelope: Envelope) -> None:
        devices.check_rights(books, envelope)
        _ADMIT(books, envelope)

    with patch.object(devices, "admit", admit):
        yield


@contextmanager
def half_is_kept() -> Iterator[None]:
    """No savepoint around a command: what it had written before it failed stays."""

    def attempt(books: Books, envelope: Envelope) -> tuple[Outcome, Problem | None]:
        try:
            door._do(books, envelope)
        except Refusal as refusal:
            books.write_notes()
            return door._unable(books, envelope, refusal), problem(refusal)
        return "applied", None

    with patch.object(door, "_try", attempt):
        yield


@contextmanager
def numbers_stay_used() -> Iterator[None]:
    """What was noted of a command that failed is forgotten, but its numbers are not given back."""

    def undo(books: Books) -> None:
        after = books.change
        _UNDO(books)
        books.change = after

    with patch.object(Books, "undo_notes", undo):
        yield


_UNDO = Books.undo_notes


@contextmanager
def numbers_are_counted_in_memory() -> Iterator[None]:
    """The process counts the changes itself, and does not hear of a commit that failed."""
    highest: dict[str, int] = {}

    def begin(books: Books, connection: Connection, house: str, now: datetime) -> None:
        _BEGIN(books, connection, house, now)
        if highest.get(books.house.epoch, 0) > books.change:
            books.change = highest[books.house.epoch]

    def close(books: Books) -> None:
        _CLOSE(books)
        highest[books.house.epoch] = books.change

    with patch.object(Books, "__init__", begin), patch.object(Books, "close", close):
        yield


_BEGIN, _CLOSE = Books.__init__, Books.close


@contextmanager
def movement_is_lost() -> Iterator[None]:
    """The balance is moved, and of a second use of a batch nothing is written in the ledger."""

    def put(connection: Connection, model: type, **values: object) -> None:
        if model is not MovementRow or values["target"] != "served:off-menu":
            _PUT(connection, model, **values)

    with patch.object(ledger, "put", put):
        yield


_PUT = ledger.put


@contextmanager
def count_is_added() -> Iterator[None]:
    """What happened before a count, and is handed in after it, is taken off once more."""
    with patch.object(ledger, "_take_up", lambda *_: None):
        yield


@contextmanager
def own_order_is_not_known() -> Iterator[None]:
    """Of one device too only the time is looked at."""
    with patch.object(Moment, "_is_of_the_same_device", lambda *_: False):
        yield


@contextmanager
def taken_back_as_of_now() -> Iterator[None]:
    """What takes a movement back has the movement's time, but its own place in the order."""
    with patch.object(ledger, "_moment", lambda books, movement: books.moment(movement.at)):
        yield


@contextmanager
def only_counts_look_for_doubts() -> Iterator[None]:
    """A movement that is handed in after a count beside it opens no question."""
    with patch.object(clocks, "ask_about_movement", lambda *_: None):
        yield


@contextmanager
def level_is_not_noted() -> Iterator[None]:
    """A change that nobody is told of."""

    def note(books: Books, what: str, key: str) -> int:
        return books.change if what == "item" else _NOTE(books, what, key)

    with patch.object(Books, "note", note):
        yield


_NOTE = Books.note
