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
from pantry.commands.order_lines import Ordered
from pantry.commands.temperatures import at_the_door, read_celsius
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement, post
from pantry.records.questions import ask
from pantry.records.rows import add, every
from pantry.records.tables import AreaRow, BatchRow, ItemRow, PackRow, ReceiptRow
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, DateKind, DateMark, State


@dataclass(frozen=True, slots=True)
class _Line:
    """What is known of the line that came."""

    item: ItemRow
    area: AreaRow
    quantity: int
    ordered: Ordered | None
    pack: PackRow | None
    mark: DateMark
    temperature: int | None


def receive(books: Books, given: Given[Receive]) -> None:
    """Write down what came, and put it where the verdict and the rules say.

    Raises:
        NotThere: an unknown item, area, supplier or order.
        UnreadableInput: the quantity, date mark or temperature cannot be read.
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
    post(books, Movement(batch.id, line.quantity, accounts.SUPPLIER, account, given.at))
    if held:
        _ask(books, given, line, batch, against)


def _read(books: Books, given: Given[Receive]) -> _Line:
    body = given.body
    item = naming.item(books, body.item)
    ordered = order_lines.answered(books, body, item.id)
    return _Line(
        item=item,
        area=naming.area(books, body.area),
        quantity=naming.quantity(books, body.quantity, item),
        ordered=ordered,
        pack=_pack(books, body, item, ordered),
        mark=mark_of(books, body.date_mark, given.at),
        temperature=read_celsius(body.temperature_c),
    )


def _pack(books: Books, body: Receive, item: ItemRow, ordered: Ordered | None) -> PackRow | None:
    """The pack named, else the one ordered, else the smallest the item is sold in."""
    sold = every(books.connection, PackRow, house=books.id, item=item.id)
    if body.pack is not None:
        named = [row for row in sold if body.pack in (row.id, row.name)]
        if named:
            return named[0]
    if ordered and ordered.pack:
        return ordered.pack
    return min(sold, key=lambda row: (row.sealed_quantity, row.id), default=None)


def _batch(books: Books, given: Given[Receive], line: _Line) -> tuple[BatchRow, list[str]]:
    body = given.body
    state, life, against = _life(books, given, line)
    supplier = naming.supplier(books, body.supplier).id if body.supplier else None
    if supplier is None and line.ordered:
        supplier = line.ordered.order.supplier
    row = BatchRow(
        house=books.id,
        id=body.batch,
        item=line.item.id,
        label=label_for(books, body.batch, body.label),
        lot=body.lot,
        supplier=supplier,
        state=state.value,
        state_at=given.at,
        date_kind=line.mark.kind.value,
        mark_date=line.mark.date,
        quantity=line.quantity,
        cost=_cost(body, line),
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


def _cost(body: Receive, line: _Line) -> int:
    """What was paid: as given, else the pack's price for what came, in minor units, half-even."""
    if body.cost is not None:
        return body.cost.minor
    if line.pack is None or not line.pack.quantity:
        return 0
    whole, rest = divmod(line.quantity * line.pack.price, line.pack.quantity)
    half = line.pack.quantity
    return whole + (2 * rest > half or (2 * rest == half and whole % 2 == 1))


def _doubts(books: Books, given: Given[Receive], line: _Line, batch: BatchRow) -> list[str]:
    """Why the line must wait for a person, whatever the porter's verdict."""
    doubts = at_the_door(books, line.item, line.area, line.temperature)
    if batch.usable_until is not None and batch.usable_until < given.at:
        doubts.append("Its use-by has passed.")
    if line.ordered is None and given.role == "porter":
        doubts.append("Nobody ordered it.")
    return doubts


def _note_receipt(books: Books, given: Given[Receive], line: _Line) -> None:
    body = given.body
    row = ReceiptRow(
        house=books.id,
        command=given.id,
        batch=body.batch,
        item=line.item.id,
        quantity=line.quantity,
        supplier=naming.supplier(books, body.supplier).id if body.supplier else None,
        purchase_order=line.ordered.order.id if line.ordered else None,
        pack=line.pack.id if line.pack else None,
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
    reasons = against or [given.body.reason or "The porter asked for a decision."]
    ask(
        books,
        "on_hold",
        "chef",
        batch.id,
        recorded=f"{line.item.name}, batch {batch.label}, stands on hold in {line.area.name}.",
        against=" ".join(reasons),
        answers=("release", "throw it away", "send it back"),
    )
