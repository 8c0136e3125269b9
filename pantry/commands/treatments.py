"""Open, freeze, thaw, decant, vacuum pack: what each makes of a part of a batch (SL3)."""

from datetime import datetime

from pantry.commands import naming
from pantry.commands.child_batch import Child, split
from pantry.commands.facts import Decant, Freeze, Open, Thaw, VacuumPack
from pantry.commands.given import Given
from pantry.commands.lives import life_of
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.read import stock
from pantry.records.read.lives import house_lives
from pantry.records.tables import BatchRow, ItemRow
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.refreezing import Treatment, refuse_refreezing
from pantry.rules.shelf_life import Life
from pantry.rules.stock import State


def open_pack(books: Books, given: Given[Open]) -> None:
    """What was opened has the earlier of the pack's life and its opened life."""
    parent = naming.batch(books, given.body.batch)
    item = naming.item(books, parent.item)
    life = _opened(books, parent, item, given.at)
    state = State.FROZEN if parent.state == State.FROZEN else State.OPENED
    split(books, given, parent, Child(state, life))


def _opened(books: Books, parent: BatchRow, item: ItemRow, at: datetime) -> Life:
    lives = house_lives(books.connection, books.house)
    days, hours = lives.opened(stock.item(item))
    return shelf_life.opened(life_of(parent), at, days, books.zone, life_hours=hours)


def decant(books: Books, given: Given[Decant]) -> None:
    """A jar keeps date, lot and state of what went into it; what was sealed is open now."""
    parent = naming.batch(books, given.body.batch)
    item = naming.item(books, parent.item)
    if parent.state != State.SEALED:
        split(books, given, parent, Child(State(parent.state), life_of(parent)))
        return
    life = _opened(books, parent, item, given.at)
    split(books, given, parent, Child(State.OPENED, life))


def freeze(books: Books, given: Given[Freeze]) -> None:
    """Freeze part of a batch; what safety forbids is recorded too, and put on hold."""
    parent = naming.batch(books, given.body.batch)
    item = naming.item(books, parent.item)
    try:
        refuse_refreezing(_history(parent))
        life = shelf_life.frozen(life_of(parent), given.at, item.frozen_life_days, books.zone)
    except UnsafeFood as refusal:
        stopped = Life(parent.usable_until, parent.good_until, frozen=True)
        row = split(books, given, parent, Child(State.FROZEN, stopped, held=True))
        _ask(books, row, refusal)
        return
    split(books, given, parent, Child(State.FROZEN, life, keeps_mark=False))


def thaw(books: Books, given: Given[Thaw]) -> None:
    """Out of the freezer the thaw begins, and with it the lesser of what was left and thawed."""
    parent = naming.batch(books, given.body.batch)
    row = naming.item(books, parent.item)
    quantity = naming.quantity(books, given.body.quantity, row)
    lives, item = house_lives(books.connection, books.house), stock.item(row)
    life = shelf_life.thawed(
        life_of(parent),
        given.at,
        lives.thawed_hours(item),
        books.zone,
        lives.thaw_time(item, quantity),
        thawing_counts=lives.policy.thawing_counts,
    )
    split(books, given, parent, Child(State.THAWED, life, keeps_mark=False))


def vacuum_pack(books: Books, given: Given[VacuumPack]) -> None:
    """Without air it has its own life from packing, never past its parent's."""
    parent = naming.batch(books, given.body.batch)
    days = house_lives(books.connection, books.house).vacuum_days()
    life = shelf_life.vacuum_packed(life_of(parent), given.at, days, books.zone)
    split(books, given, parent, Child(State.VACUUM_PACKED, life))


def _history(batch: BatchRow) -> list[Treatment]:
    """What was done to a batch since it was raw, oldest first, as far as its row says."""
    history = [Treatment.COOKED] if batch.cooked else []
    return [*history, Treatment.THAWED] if batch.was_thawed else history


def _ask(books: Books, row: BatchRow, refusal: UnsafeFood) -> None:
    ask(
        books,
        "unsafe",
        "chef",
        row.id,
        recorded=f"Batch {row.label} was frozen.",
        against=str(refusal),
        answers=("throw it away", "the record is wrong"),
    )
