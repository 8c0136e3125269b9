"""Part of a batch treated otherwise becomes a child batch with a life of its own (SL3)."""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import TypeVar

from pantry.commands import naming
from pantry.commands.facts import Decant, Freeze, Open, Thaw, VacuumPack
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns
from pantry.commands.shelf import ANYWHERE, parts_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.costs import share_of_cost
from pantry.records.ledger import Movement
from pantry.records.rows import add, every, one
from pantry.records.tables import AreaRow, BatchParentRow, BatchRow, ItemRow
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, DateKind, State

Treating = TypeVar("Treating", Decant, Freeze, Open, Thaw, VacuumPack)


@dataclass(frozen=True, slots=True)
class Part:
    """So much of a batch that is treated at an instant, and where it is put if anybody says.

    Attributes:
        parent: the batch it is part of.
        source: where it stood, or `ANYWHERE`.
        target: the account it is put on; None: beside its parent, or where its state belongs.
    """

    parent: BatchRow
    quantity: int
    at: datetime
    child: str
    label: str | None = None
    pieces: int | None = None
    source: str = ANYWHERE
    target: str | None = None


@dataclass(frozen=True, slots=True)
class Child:
    """What a part of a batch becomes; `keeps_mark` where the pack's date still stands on it."""

    state: State
    life: Life
    keeps_mark: bool = True
    held: bool = False


def part_of(books: Books, given: Given[Treating]) -> Part:
    """The part of a batch that a treatment names.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
    """
    body = given.body
    parent = naming.batch(books, body.batch)
    return Part(
        parent=parent,
        quantity=naming.quantity(books, body.quantity, naming.item(books, parent.item)),
        at=given.at,
        child=body.child,
        label=body.label,
        pieces=naming.pieces(body.quantity),
        target=accounts.area(naming.area(books, body.area).id) if body.area else None,
    )


def split(books: Books, part: Part, child: Child) -> BatchRow:
    """Take the part from its parent and set it up as a batch of its own.

    Raises:
        NotNow: `batch_taken`, `label_taken`.
    """
    parent, into = part.parent, accounts.MADE_INTO
    wanted = Movement(parent.id, part.quantity, part.source, into, part.at, part.pieces)
    taken = parts_of(books, parent, wanted)
    part = replace(part, pieces=sum(each.pieces or 0 for each in taken) or None)
    row = _row(books, part, child)
    add(books.connection, row)
    for each in taken:
        take(books, parent, each)
    link = BatchParentRow(
        house=books.id, batch=row.id, parent=parent.id, quantity=part.quantity, link="scanned"
    )
    add(books.connection, link)
    target = _target(books, part, child, taken[0].source)
    take(books, row, Movement(row.id, part.quantity, into, target, part.at, part.pieces))
    return row


def _row(books: Books, part: Part, child: Child) -> BatchRow:
    changed: dict[str, object] = {
        "id": part.child,
        "label": label_for(books, part.child, part.label),
        "state": child.state.value,
        "state_at": part.at,
        "quantity": part.quantity,
        "pieces": part.pieces,
        "cost": share_of_cost(books, part.parent, part.quantity),
        "sealed_quantity": 0,
        "was_thawed": part.parent.was_thawed or child.state is State.THAWED,
        **as_columns(child.life),
    }
    if not child.keeps_mark:
        changed |= {"date_kind": DateKind.NONE.value, "mark_date": None}
    return part.parent.model_copy(update=changed)


def _target(books: Books, part: Part, child: Child, source: str) -> str:
    """Where the child stands: where it was put, else beside its parent, else where it belongs."""
    if part.target is None and accounts.kind(source) == "kitchen":
        return source
    account = part.target or accounts.area(_place(books, part, child, accounts.place(source)))
    on_hold = child.held or accounts.kind(source) == "hold"
    if on_hold and accounts.kind(account) == "area":
        return accounts.hold(accounts.place(account))
    return account


def _place(books: Books, part: Part, child: Child, beside: str) -> str:
    """Beside its parent; what is frozen now in a freezer, what is thawed now out of one."""
    if child.state not in (State.FROZEN, State.THAWED):
        return beside
    rows = every(books.connection, AreaRow, house=books.id)
    kinds = {row.id: AreaKind(row.kind) for row in rows}
    fits = {AreaKind.FROZEN} if child.state is State.FROZEN else {AreaKind.CHILLED}
    if kinds[beside] in fits:
        return beside
    own = one(books.connection, ItemRow, house=books.id, id=part.parent.item).area
    if own is not None and kinds[own] in fits:
        return own
    return next((area for area, kind in kinds.items() if kind in fits), beside)
