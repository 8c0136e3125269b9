"""Open, freeze, thaw, decant, vacuum pack: what each makes of a part of a batch (SL3)."""

from datetime import datetime

from pantry.commands import naming
from pantry.commands.child_batch import Child, Part, part_of, split
from pantry.commands.facts import Decant, Freeze, Open, Thaw, VacuumPack
from pantry.commands.given import Given
from pantry.commands.lineage import pasts
from pantry.records.books import Books
from pantry.records.promises import go_along
from pantry.records.questions import ask
from pantry.records.read import stock
from pantry.records.read.lives import life_of
from pantry.records.tables import BatchRow
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.refreezing import refuse_refreezing
from pantry.rules.shelf_life import Life
from pantry.rules.stock import State


def open_pack(books: Books, given: Given[Open]) -> None:
    """What was opened has the earlier of the pack's life and its opened life."""
    part = part_of(books, given)
    life = _opened(books, part.parent, given.at)
    split(books, part, Child(_unless_frozen(part.parent, State.OPENED), life))


def decant(books: Books, given: Given[Decant]) -> None:
    """A jar keeps date, lot and state of what went into it; what was sealed is open now."""
    part = part_of(books, given)
    if part.parent.state == State.SEALED:
        split(books, part, Child(State.OPENED, _opened(books, part.parent, given.at)))
    else:
        split(books, part, Child(State(part.parent.state), life_of(part.parent)))


def vacuum_pack(books: Books, given: Given[VacuumPack]) -> None:
    """Without air it has its own life from packing, never past its parent's."""
    part = part_of(books, given)
    days = books.lives.vacuum_days()
    life = shelf_life.vacuum_packed(life_of(part.parent), given.at, days, books.zone)
    split(books, part, Child(_unless_frozen(part.parent, State.VACUUM_PACKED), life))


def freeze(books: Books, given: Given[Freeze]) -> None:
    """Freeze part of a batch."""
    freeze_part(books, part_of(books, given))


def thaw(books: Books, given: Given[Thaw]) -> None:
    """Take part of a batch out of the freezer; what is promised of it goes with it.

    Else a service would go on holding what is still frozen, and it would be pulled again (AL2).
    """
    part = part_of(books, given)
    thaw_part(books, part)
    go_along(books, part.parent.id, part.child, part.quantity)


def freeze_part(books: Books, part: Part) -> None:
    """The safety clock stops; what safety forbids is recorded too, and put on hold."""
    parent = part.parent
    item = naming.item(books, parent.item)
    try:
        for past in pasts(books, parent):
            refuse_refreezing(past)
        life = shelf_life.frozen(life_of(parent), part.at, item.frozen_life_days, books.zone)
    except UnsafeFood as refusal:
        stopped = Life(parent.usable_until, parent.good_until, frozen=True)
        row = split(books, part, Child(State.FROZEN, stopped, held=True))
        _ask(books, row, refusal)
        return
    split(books, part, Child(State.FROZEN, life, keeps_mark=False))


def thaw_part(books: Books, part: Part) -> None:
    """Out of the freezer the thaw begins, and with it the lesser of what was left and thawed."""
    lives, item = books.lives, stock.item(naming.item(books, part.parent.item))
    life = shelf_life.thawed(
        life_of(part.parent),
        part.at,
        lives.thawed_hours(item),
        books.zone,
        lives.thaw_time(item, part.quantity),
        thawing_counts=lives.policy.thawing_counts,
    )
    split(books, part, Child(State.THAWED, life, keeps_mark=False))


def _opened(books: Books, parent: BatchRow, at: datetime) -> Life:
    days, hours = books.lives.opened(stock.item(naming.item(books, parent.item)))
    return shelf_life.opened(life_of(parent), at, days, books.zone, life_hours=hours)


def _unless_frozen(parent: BatchRow, state: State) -> State:
    """What is opened or packed in the freezer is frozen food still."""
    return State.FROZEN if parent.state == State.FROZEN else state


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
