"""Take in a line of a delivery: accept it, hold it, or refuse it at the door.

What is refused never enters stock. What comes without an order, too warm or against the policy is
on hold until a person decides: the porter never has to.
"""

from dataclasses import dataclass

from pantry.commands import naming, order_lines
from pantry.commands.facts import Receive
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns, mark_of
from pantry.commands.off_menu import set_level_of
from pantry.commands.order_lines import Ordered
from pantry.commands.prices import cost_of, pack_of
from pantry.commands.shelf import take
from pantry.commands.temperatures import at_the_door, read_celsius
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import add, every, find
from pantry.records.slugs import slug
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    ItemRow,
    PackRow,
    ReceiptRow,
    SupplierRow,
)
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.house_time import last_day, local_date
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, DateKind, DateMark, State


@dataclass(frozen=True, slots=True)
class _Line:
    """What is known of the line that came."""

    item: ItemRow
    area: AreaRow
    quantity: int
    pieces: int | None
    supplier: str | None
    ordered: Ordered | None
    pack: PackRow | None
    mark: DateMark
    temperature: int | None


def receive(books: Books, given: Given[Receive]) -> None:
    """Write down what came, and put it where the verdict and the rules say.

    Raises:
        NotThere: an unknown item or area.
        UnreadableInput: the quantity, date mark, temperature or cost cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    line = _read(books, given)
    _note_receipt(books, given, line)
    books.touched.add(line.item.id)
    if given.body.verdict == "refuse":
        return
    if line.ordered:
        order_lines.came(books, line.ordered, line.quantity)
    batch, against = _batch(books, given, line)
    against += _doubts(books, given, line, batch)
    add(books.connection, batch)
    held = bool(against) or given.body.verdict == "hold"
    account = accounts.hold(line.area.id) if held else accounts.area(line.area.id)
    came = Movement(batch.id, line.quantity, accounts.SUPPLIER, account, given.at, line.pieces)
    take(books, batch, came)
    if not line.item.measured:
        set_level_of(books, line.item.id, "plenty")
    if held:
        _ask(books, given, line, batch, against)


def _read(books: Books, given: Given[Receive]) -> _Line:
    body = given.body
    item = naming.item(books, body.item)
    ordered = order_lines.answered(books, body, item.id, given.at)
    supplier = _supplier(books, body.supplier)
    if supplier is None and ordered:
        supplier = ordered.order.supplier
    return _Line(
        item=item,
        area=naming.area(books, body.area),
        quantity=naming.quantity(books, body.quantity, item),
        pieces=naming.pieces(body.quantity),
        supplier=supplier,
        ordered=ordered,
        pack=pack_of(books, body, supplier, item, ordered),
        mark=mark_of(books, body.date_mark, given.at),
        temperature=read_celsius(body.temperature_c),
    )


def _supplier(books: Books, name: str | None) -> str | None:
    """The supplier's id; a shop that is on no list is written down by the name it was given."""
    if name is None:
        return None
    row = find(books.connection, SupplierRow, house=books.id, id=slug(name))
    return row.id if row else name


def _batch(books: Books, given: Given[Receive], line: _Line) -> tuple[BatchRow, list[str]]:
    body = given.body
    state, life, against = _life(books, given, line)
    row = BatchRow(
        house=books.id,
        id=body.batch,
        item=line.item.id,
        label=label_for(books, body.batch, body.label),
        lot=body.lot,
        supplier=line.supplier,
        state=state.value,
        state_at=given.at,
        date_kind=line.mark.kind.value,
        mark_date=line.mark.date,
        quantity=line.quantity,
        pieces=line.pieces,
        cost=cost_of(books, body, line.quantity, line.pack),
        sealed_quantity=line.pack.sealed_quantity if line.pack else None,
        since=given.at,
        **as_columns(life),
    )
    return row, against


def _life(books: Books, given: Given[Receive], line: _Line) -> tuple[State, Life, list[str]]:
    """The life its mark gives; what goes into a freezer with a use-by is frozen from now on."""
    if line.area.kind != AreaKind.FROZEN:
        return State.SEALED, shelf_life.of_mark(line.mark, books.zone), []
    if line.mark.kind is not DateKind.USE_BY:
        return State.FROZEN, shelf_life.of_mark(line.mark, books.zone, frozen=True), []
    fresh = shelf_life.of_mark(line.mark, books.zone)
    try:
        life = shelf_life.frozen(fresh, given.at, line.item.frozen_life_days, books.zone)
    except UnsafeFood as refusal:
        return State.FROZEN, Life(fresh.usable_until, frozen=True), [str(refusal)]
    return State.FROZEN, life, []


def _doubts(books: Books, given: Given[Receive], line: _Line, batch: BatchRow) -> list[str]:
    """Why the line must wait for a person, whatever the verdict at the door."""
    doubts = at_the_door(books, line.item, line.area, line.temperature)
    if batch.usable_until is not None and batch.usable_until < given.at:
        doubts.append("Its use-by has passed.")
    if batch.lot is not None and _is_recalled(books, batch):
        doubts.append(f"Lot {batch.lot} is recalled.")
    if given.role == "porter":
        doubts += _beyond_a_porter(books, given, line)
    return doubts


def _beyond_a_porter(books: Books, given: Given[Receive], line: _Line) -> list[str]:
    """What a chef may accept on sight, and a porter may not: common practice, no source."""
    if line.ordered is None:
        return ["Nobody ordered it."]
    life = line.ordered.pack and line.ordered.pack.life_on_arrival_days
    if not life or line.mark.date is None:
        return []
    expected = last_day(local_date(given.at, books.zone), life)
    if line.mark.date >= expected:
        return []
    return [f"It is dated {line.mark.date}, and was to keep until {expected}."]


def _is_recalled(books: Books, batch: BatchRow) -> bool:
    same = {"house": books.id, "lot": batch.lot, "item": batch.item}
    return any(row.recalled for row in every(books.connection, BatchRow, **same))


def _note_receipt(books: Books, given: Given[Receive], line: _Line) -> None:
    body, ordered = given.body, line.ordered
    packed = line.pack.id if line.pack else None
    row = ReceiptRow(
        house=books.id,
        command=given.id,
        batch=body.batch,
        item=line.item.id,
        quantity=line.quantity,
        supplier=line.supplier,
        purchase_order=ordered.order.id if ordered else None,
        pack=ordered.line.pack if ordered else packed,
        packs=body.packs,
        temperature_tenths=line.temperature,
        verdict=body.verdict,
        reason=body.reason,
        at=given.at,
    )
    add(books.connection, row)


def _ask(
    books: Books, given: Given[Receive], line: _Line, batch: BatchRow, against: list[str]
) -> None:
    reasons = against or [given.body.reason or "Whoever received it asked for a decision."]
    ask(
        books,
        "on_hold",
        "chef",
        batch.id,
        recorded=f"{line.item.name}, batch {batch.label}, stands on hold in {line.area.name}.",
        against=" ".join(reasons),
        answers=("release", "throw it away", "send it back"),
    )
