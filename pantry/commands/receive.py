"""Take in a line of a delivery: accept it, hold it, or refuse it at the door.

What is refused never enters stock. What comes without an order, too warm or against the policy is
on hold until a person decides: the porter never has to.
"""

from pantry.commands import came_short, order_lines
from pantry.commands.arrivals import ask_about_hold, life_on_arrival
from pantry.commands.facts import Receive
from pantry.commands.given import Given
from pantry.commands.labels import label_for
from pantry.commands.levels import set_level_of
from pantry.commands.line import Line, read_line
from pantry.commands.line_doubts import doubts
from pantry.commands.lives import as_columns
from pantry.commands.prices import cost_of
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import add
from pantry.records.tables import BatchRow, ReceiptRow
from pantry.rules.safety import Verdict


def receive(books: Books, given: Given[Receive]) -> None:
    """Write down what came, and put it where the verdict and the rules say.

    Raises:
        NotThere: an unknown item or area.
        UnreadableInput: the quantity, date mark, temperature or cost cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    line = read_line(books, given)
    _note_receipt(books, given, line)
    books.touched.add(line.item.id)
    if given.body.verdict == "refuse":
        if line.answers:
            came_short.tell_the_chef(books, line.answers.order)
        return
    batch, against = _batch(books, given, line)
    against += doubts(books, given, line, batch)
    _count_of_its_order(books, given, line)
    add(books.connection, batch)
    held = bool(against) or given.body.verdict == "hold"
    account = accounts.hold(line.area.id) if held else accounts.area(line.area.id)
    came = Movement(batch.id, line.quantity, accounts.SUPPLIER, account, given.at, line.pieces)
    take(books, batch, came)
    if not line.item.measured:
        set_level_of(books, line.item.id, "plenty", given.at)
    if held:
        _ask(books, given, line, batch, against)


def _count_of_its_order(books: Books, given: Given[Receive], line: Line) -> None:
    """What came is awaited no more; what is to be replaced by it is neither."""
    if line.ordered:
        order_lines.came(books, line.ordered, line.quantity)
        came_short.hush_if_whole(books, line.ordered.order.id, given.person)
    if line.instead and line.instead.ordered:
        books.touched.add(line.instead.item.id)
        if line.instead.replaces:
            order_lines.replaced(books, line.instead.ordered, given.at)
            came_short.tell_the_chef(books, line.instead.ordered.order)


def _batch(books: Books, given: Given[Receive], line: Line) -> tuple[BatchRow, list[str]]:
    body = given.body
    state, life, against = life_on_arrival(books, line.item, line.area, line.mark, given.at)
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


def _note_receipt(books: Books, given: Given[Receive], line: Line) -> None:
    body, ordered, instead = given.body, line.ordered, line.instead
    packed = line.pack.id if line.pack else None
    row = ReceiptRow(
        house=books.id,
        command=given.id,
        batch=body.batch,
        item=line.item.id,
        quantity=line.quantity,
        supplier=line.supplier,
        purchase_order=line.answers.order.id if line.answers else None,
        pack=ordered.line.pack if ordered else packed,
        packs=body.packs,
        temperature_tenths=line.temperature,
        warmth=line.warmth.verdict.value if line.warmth else None,
        instead=instead.ordered.line.pack if instead and instead.ordered else None,
        replaces=instead.replaces if instead and body.verdict != "refuse" else False,
        verdict=body.verdict,
        reason=body.reason,
        at=given.at,
    )
    add(books.connection, row)


def _ask(
    books: Books, given: Given[Receive], line: Line, batch: BatchRow, against: list[str]
) -> None:
    # what came past the last limit is released by nobody
    is_past = line.warmth is not None and line.warmth.verdict is Verdict.REFUSE
    frees = () if is_past else ("release",)
    reasons = against or [given.body.reason or "Whoever received it asked for a decision."]
    ask_about_hold(books, line.item, batch, line.area, reasons, frees)
