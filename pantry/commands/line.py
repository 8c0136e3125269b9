"""A line of a delivery as it came: what its command names, found and read."""

from dataclasses import dataclass

from pantry.commands import naming, order_lines
from pantry.commands.arrivals import supplier_named
from pantry.commands.facts import Receive
from pantry.commands.given import Given
from pantry.commands.lives import mark_of
from pantry.commands.order_lines import Ordered
from pantry.commands.prices import pack_of
from pantry.commands.temperatures import at_the_door, read_celsius
from pantry.records.books import Books
from pantry.records.tables import AreaRow, ItemRow, PackRow
from pantry.rules.safety import Judgement
from pantry.rules.stock import DateMark


@dataclass(frozen=True, slots=True)
class Instead:
    """What was ordered where another thing came; `ordered` is None where no open line asks for it.

    `replaces` is whether that line is awaited no more.
    """

    item: ItemRow
    ordered: Ordered | None
    replaces: bool


@dataclass(frozen=True, slots=True)
class Line:
    """What is known of the line that came."""

    item: ItemRow
    area: AreaRow
    quantity: int
    pieces: int | None
    supplier: str | None
    ordered: Ordered | None
    instead: Instead | None
    pack: PackRow | None
    mark: DateMark
    temperature: int | None
    warmth: Judgement | None

    @property
    def answers(self) -> Ordered | None:
        """The line of an order that it answers, with what was ordered or with something else."""
        return self.instead.ordered if self.instead else self.ordered


def read_line(books: Books, given: Given[Receive]) -> Line:
    """Find what a line names.

    Raises:
        NotThere: an unknown item or area.
        UnreadableInput: the quantity, date mark, temperature or cost cannot be read.
    """
    body = given.body
    item, area = naming.item(books, body.item), naming.area(books, body.area)
    instead = _instead(books, given)
    ordered = None if instead else order_lines.answered(books, body, item.id, body.pack, given.at)
    supplier = None if body.supplier is None else supplier_named(books, body.supplier)
    answers = instead.ordered if instead else ordered
    if supplier is None and answers:
        supplier = answers.order.supplier
    mark = mark_of(books, body.date_mark, given.at)
    written = body.temperature_c
    temperature = None if written is None else read_celsius(written)
    return Line(
        item=item,
        area=area,
        quantity=naming.quantity(books, body.quantity, item),
        pieces=naming.pieces(body.quantity),
        supplier=supplier,
        ordered=ordered,
        instead=instead,
        pack=pack_of(books, body, supplier, item, ordered),
        mark=mark,
        temperature=temperature,
        warmth=at_the_door(books, item, area, mark.kind, temperature),
    )


def _instead(books: Books, given: Given[Receive]) -> Instead | None:
    part = given.body.instead
    if part is None:
        return None
    item = naming.item(books, part.item, "body.instead.item")
    ordered = order_lines.answered(books, given.body, item.id, part.pack, given.at)
    return Instead(item, ordered, part.replaces and ordered is not None)
