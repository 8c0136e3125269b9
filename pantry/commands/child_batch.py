"""Part of a batch treated otherwise becomes a child batch with a life of its own (SL3)."""

from dataclasses import dataclass
from typing import Any

from pantry.commands import naming
from pantry.commands.facts import Decant, Freeze, Open, Thaw, VacuumPack
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns
from pantry.commands.shelf import place_of, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.costs import share_of_cost
from pantry.records.ledger import Movement, post
from pantry.records.rows import add
from pantry.records.tables import BatchParentRow, BatchRow
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, State

Treating = Decant | Freeze | Open | Thaw | VacuumPack


@dataclass(frozen=True, slots=True)
class Child:
    """What a part of a batch becomes; `keeps_mark` where the pack's date still stands on it."""

    state: State
    life: Life
    keeps_mark: bool = True
    sealed_quantity: int | None = 0
    held: bool = False


def split(books: Books, given: Given[Any], parent: BatchRow, child: Child) -> BatchRow:
    """Take the quantity from the parent and set the child up beside it, or in the area named."""
    body: Treating = given.body
    item = naming.item(books, parent.item)
    quantity = naming.quantity(books, body.quantity, item)
    source = place_of(books, parent)
    row = _row(books, given, parent, child, quantity)
    take(books, parent, Movement(parent.id, quantity, source, accounts.MADE_INTO, given.at))
    add(books.connection, row)
    link = BatchParentRow(
        house=books.id, batch=row.id, parent=parent.id, quantity=quantity, link="scanned"
    )
    add(books.connection, link)
    target = _target(books, body.area, source, held=child.held)
    post(books, Movement(row.id, quantity, accounts.MADE_INTO, target, given.at))
    return row


def _target(books: Books, area: str | None, source: str, *, held: bool) -> str:
    place = naming.area(books, area).id if area else accounts.place(source)
    on_hold = held or accounts.kind(source) == "hold"
    return accounts.hold(place) if on_hold else accounts.area(place)


def _row(
    books: Books, given: Given[Any], parent: BatchRow, child: Child, quantity: int
) -> BatchRow:
    body: Treating = given.body
    changed: dict[str, object] = {
        "id": body.child,
        "label": label_for(books, body.child, body.label),
        "state": child.state.value,
        "state_at": given.at,
        "quantity": quantity,
        "pieces": None,
        "cost": share_of_cost(books, parent, quantity),
        "sealed_quantity": child.sealed_quantity,
        "was_thawed": parent.was_thawed or child.state is State.THAWED,
        **as_columns(child.life),
    }
    if not child.keeps_mark:
        changed |= {"date_kind": DateKind.NONE.value, "mark_date": None}
    return parent.model_copy(update=changed)
