"""What comes into the house, whoever brought it: its life, what is wrong with it, holding it."""

from collections.abc import Sequence
from datetime import datetime

from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import every, find
from pantry.records.slugs import slug
from pantry.records.tables import AreaRow, BatchRow, ItemRow, SupplierRow
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, DateKind, DateMark, State


def life_on_arrival(
    books: Books, item: ItemRow, area: AreaRow, mark: DateMark, at: datetime
) -> tuple[State, Life, list[str]]:
    """The life its mark gives; what goes into a freezer with a use-by is frozen from now on."""
    if area.kind != AreaKind.FROZEN:
        return State.SEALED, shelf_life.of_mark(mark, books.zone), []
    if mark.kind is not DateKind.USE_BY:
        return State.FROZEN, shelf_life.of_mark(mark, books.zone, frozen=True), []
    fresh = shelf_life.of_mark(mark, books.zone)
    try:
        life = shelf_life.frozen(fresh, at, item.frozen_life_days, books.zone)
    except UnsafeFood as refusal:
        return State.FROZEN, Life(fresh.usable_until, frozen=True), [str(refusal)]
    return State.FROZEN, life, []


def unfit(books: Books, batch: BatchRow, at: datetime) -> list[str]:
    """What speaks against a batch on its own, each in a sentence."""
    found = []
    if batch.usable_until is not None and batch.usable_until < at:
        found.append("Its use-by has passed.")
    if batch.lot is not None and _is_recalled(books, batch):
        found.append(f"Lot {batch.lot} is recalled.")
    return found


def _is_recalled(books: Books, batch: BatchRow) -> bool:
    same = {"house": books.id, "lot": batch.lot, "item": batch.item}
    return any(row.recalled for row in every(books.connection, BatchRow, **same))


def supplier_named(books: Books, name: str) -> str:
    """The supplier's id; a shop that is on no list is written down by the name it was given."""
    row = find(books.connection, SupplierRow, house=books.id, id=slug(name))
    return row.id if row else name.strip()


def ask_about_hold(
    books: Books,
    item: ItemRow,
    batch: BatchRow,
    area: AreaRow,
    against: Sequence[str],
    frees: Sequence[str] = ("release",),
) -> None:
    """Ask the chef what becomes of a batch that stands on hold; `frees` are the answers that do."""
    ask(
        books,
        "on_hold",
        "chef",
        batch.id,
        recorded=f"{item.name}, batch {batch.label}, stands on hold in {area.name}.",
        against=" ".join(against),
        answers=(*frees, "throw it away", "send it back"),
    )
