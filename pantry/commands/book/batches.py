"""The sheet `batches`: what stands in the house on the day of the import."""

from dataclasses import dataclass
from fractions import Fraction

from pantry.commands.book import amounts, cells
from pantry.commands.book.batch_lives import Kept, life_of, state_of
from pantry.commands.book.known import RecipeFacts
from pantry.commands.book.pack_ladder import units_in
from pantry.commands.book.reading import ALREADY_THERE, NAME_TWICE, Line, Reading
from pantry.commands.lives import as_columns
from pantry.records.tables import BatchRow
from pantry.refusals import declare
from pantry.rules.amounts import Packed
from pantry.rules.house_lives import HouseLives
from pantry.rules.measure import to_thousandths
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, BaseUnit, DateKind, DateMark, Item, State

ITEM_NOT_COUNTED = declare("item_not_counted", "Nobody keeps batches of what is not counted.")


_UNKNOWN = Item("", "", BaseUnit.G)
_DECIDE_LIFE = {"item", "quantity", "area", "date_kind", "date", "state", "state_date"}


@dataclass(frozen=True, slots=True)
class Standing:
    """A batch to be put down, without its id, and the storage area it stands in."""

    row: BatchRow
    area: str


def read_batches(reading: Reading) -> list[Standing]:
    """Every row of `batches`."""
    lives = HouseLives(reading.policy, reading.zone)
    makers = {each.makes: each for each in reading.recipes.things.values() if each.makes}
    labels: dict[str, int] = {}
    found = []
    for line in reading.lines("batches"):
        _refuse_taken(line, labels)
        area = line.refer("area", reading.areas)
        item = reading.items.things.get(line.refer("item", reading.items), _UNKNOWN)
        packed = amounts.packed(line, "quantity", reading.unit_system)
        kept = _kept(line, item, _quantity(line, item, packed), area, lives, makers.get(item.id))
        sure = not line.faulty & _DECIDE_LIFE and item.id not in reading.doubtful
        life = life_of(line, kept) if sure else Life()
        found.append(Standing(_row(line, kept, life, packed), area))
    return found


def _refuse_taken(line: Line, labels: dict[str, int]) -> None:
    label = line.text("label").casefold()
    before = labels.setdefault(label, line.number)
    if label and before != line.number:
        line.fault(
            "label",
            NAME_TWICE,
            f"Row {before} carries the label {line.text('label')!r} already.",
            "Give every batch a label of its own.",
        )
    elif label in line.reading.known.labels:
        line.fault(
            "label",
            ALREADY_THERE,
            f"A batch labelled {line.text('label')} stands on the books already.",
            "Leave the row out; what changed is a count, a movement or waste.",
        )


def _quantity(line: Line, item: Item, packed: Packed) -> int:
    if not item.measured:
        line.fault(
            "item",
            ITEM_NOT_COUNTED,
            f"{item.name} is not counted: nobody keeps batches of it.",
            "Leave the row out, or write yes in its column counted.",
        )
        return 0
    return amounts.thousandths(
        line, "quantity", amounts.of_item(line, "quantity", packed.total, item)
    )


def _kept(
    line: Line,
    item: Item,
    quantity: int,
    area: str,
    lives: HouseLives,
    recipe: RecipeFacts | None,
) -> Kept:
    kind = DateKind(line.read("date_kind", cells.one_of(*DateKind), DateKind.NONE.value))
    mark = DateMark(DateKind.NONE)
    if "date_kind" not in line.faulty:
        mark = line.read("date", cells.mark(kind), mark)
    if kind is not DateKind.NONE and not line.text("date"):
        line.missing("date", f"A {kind.replace('_', '-')} has its date.")
    kind_of_area = line.reading.areas.things.get(area)
    return Kept(
        item=item,
        quantity=quantity,
        mark=mark,
        state=state_of(line.read("state", cells.one_of(*State), ""), kind_of_area),
        state_at=line.read("state_date", cells.moment(lives.zone), None),
        recipe=recipe,
        in_freezer=kind_of_area is AreaKind.FROZEN,
        now=line.reading.at,
        lives=lives,
    )


def _row(line: Line, kept: Kept, life: Life, packed: Packed) -> BatchRow:
    supplier = line.optional("supplier", line.reading.suppliers)
    made_by = None if supplier or kept.recipe is None else kept.recipe
    state = State.FROZEN if life.frozen else kept.state
    since = kept.state_at or kept.now
    return BatchRow(
        house=line.reading.house.id,
        id="",
        item=kept.item.id,
        label=line.text("label"),
        lot=line.text("lot") or None,
        supplier=supplier,
        state=state.value,
        state_at=since,
        date_kind=kept.mark.kind.value,
        mark_date=kept.mark.date,
        was_thawed=kept.state is State.THAWED,
        cooked=made_by is not None and made_by.dating is not Dating.ASSEMBLED,
        quantity=kept.quantity,
        pieces=line.read("pieces", _pieces, None),
        cost=amounts.money(line, "cost"),
        sealed_quantity=_sealed_quantity(line.reading, kept, supplier, packed),
        since=since,
        made_by=made_by.id if made_by else None,
        **as_columns(life),
    )


def _pieces(text: str) -> int:
    """How many pieces it is too, in thousandths of an each (MS1)."""
    return 1000 * cells.whole(least=1)(text)


def _sealed_quantity(
    reading: Reading, kept: Kept, supplier: str | None, packed: Packed
) -> int | None:
    """One unopened unit of what is still closed, in thousandths; 0 where opening changes nothing.

    As the quantity says (`6 x 750 ml`), else the smallest unit in a pack of the item, as that
    supplier sells it, of which the batch is a whole number; None: the batch is one container.
    """
    if kept.state not in (State.SEALED, State.FROZEN):
        return 0
    units = units_in(packed)
    if units > 1:
        return to_thousandths(Fraction(kept.quantity, 1000) / units)
    sold = [pack for pack in reading.packs.values() if pack.item == kept.item.id]
    own = [pack for pack in sold if pack.supplier == supplier] or sold
    sizes = {pack.sealed_quantity for pack in own if pack.sealed_quantity}
    return min((size for size in sizes if kept.quantity % size == 0), default=None)
