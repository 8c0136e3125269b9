"""What making something leaves beside it (bones, whites, peel): batches of their own (SL4)."""

import json
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime

from pantry.commands import naming
from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns
from pantry.commands.making import Used
from pantry.commands.parts import ByProductPart
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.read.larder import larder
from pantry.records.read.lives import life_of
from pantry.records.rows import add, change, every
from pantry.records.tables import AreaRow, BatchParentRow, BatchRow, ItemRow
from pantry.refusals import UnreadableInput, UnsafeFood, declare
from pantry.rules import shelf_life
from pantry.rules.allergens import Larder, declared_of, of_recipe
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, Declared, State

NOT_USED_HERE = declare("not_used_here", "What is said to have left something did not go in.")


def keep(
    books: Books,
    made: BatchRow,
    parts: Iterable[ByProductPart],
    used: Sequence[Used],
    at: datetime,
) -> None:
    """Set up a batch of each by-product.

    It costs nothing: what was made carries the cost of what went in. It lives no longer than what
    it came of, and no longer than the policy lets what the kitchen prepares; what that contains,
    its item may contain from then on (AL3).

    Raises:
        NotThere: an unknown item, area or batch.
        UnreadableInput: `not_used_here`, a quantity cannot be read.
        NotNow: `batch_taken`, `label_taken`.
    """
    for number, part in enumerate(parts):
        _keep(books, made, part, used, at, f"body.by_products[{number}]")


def _keep(
    books: Books,
    made: BatchRow,
    part: ByProductPart,
    used: Sequence[Used],
    at: datetime,
    field: str,
) -> None:
    item = naming.item(books, part.item, f"{field}.item")
    quantity = naming.quantity(books, part.quantity, item, f"{field}.quantity")
    area = _area(books, item, part.area, f"{field}.area")
    of = _of(books, part, used, f"{field}.of")
    life, against = _life(books, of, at)
    row = BatchRow(
        house=books.id,
        id=part.child,
        item=item.id,
        label=label_for(books, part.child, part.label),
        state=State.MADE.value,
        state_at=at,
        date_kind=DateKind.NONE.value,
        was_thawed=any(each.batch.was_thawed for each in of),
        cooked=bool(of) and all(each.batch.cooked for each in of),
        quantity=quantity,
        cost=0,
        sealed_quantity=0,
        since=at,
        made_by=made.made_by,
        **as_columns(life),
    )
    add(books.connection, row)
    add(books.connection, *_links(row, of))
    _pass_on_allergens(books, item, of)
    account = accounts.hold(area) if against else accounts.area(area)
    take(books, row, Movement(row.id, quantity, accounts.MADE_INTO, account, at))
    if against:
        _ask(books, row, against)


def _links(row: BatchRow, of: Sequence[Used]) -> Iterator[BatchParentRow]:
    """What a by-product came of, in its lineage."""
    for each in of:
        yield BatchParentRow(
            house=row.house, batch=row.id, parent=each.batch.id, quantity=0, link=each.link
        )


def _area(books: Books, item: ItemRow, named: str | None, field: str) -> str:
    """Where it is put: as somebody says, where its item belongs, or the first area."""
    if named is not None:
        return naming.area(books, named, field).id
    return item.area or every(books.connection, AreaRow, house=books.id)[0].id


def _of(books: Books, part: ByProductPart, used: Sequence[Used], field: str) -> list[Used]:
    """What it came of: the batch that was named, or all that went in."""
    if part.of is None:
        return list({each.batch.id: each for each in used}.values())
    batch = naming.batch(books, part.of, field)
    found = [each for each in used if each.batch.id == batch.id][:1]
    if not found:
        raise UnreadableInput(
            NOT_USED_HERE,
            f"Batch {batch.label} did not go into what was made.",
            "Name a batch that was used, or none.",
            value=part.of,
            field=field,
        )
    return found


def _life(books: Books, of: Sequence[Used], at: datetime) -> tuple[Life, str]:
    days, hours = books.lives.prepared(None)
    parts = [life_of(each.batch) for each in of]
    held = next((each.batch.label for each in of if each.batch.recalled), None)
    try:
        life = shelf_life.made(at, days, Dating.ASSEMBLED, parts, books.zone, life_hours=hours)
    except UnsafeFood as refusal:
        return Life(usable_until=at), str(refusal)
    return life, f"Batch {held} is recalled." if held else ""


def _pass_on_allergens(books: Books, item: ItemRow, of: Iterable[Used]) -> None:
    """What it came of contains, it may contain, unless its item says that it does."""
    known_of = larder(books.connection, books.id, books.items, books.recipes.values())
    through = [_declared(each.batch.item, known_of) for each in of]
    from_them = {name for each in through for name in (*each.contains, *each.may_contain)}
    known = {name: set(json.loads(getattr(item, name))) for name in ("contains", "may_contain")}
    new = from_them - known["contains"] - known["may_contain"]
    if not new:
        return
    free_of = set(json.loads(item.free_of)) - new
    change(
        books.connection,
        ItemRow,
        {"house": books.id, "id": item.id},
        may_contain=json.dumps(sorted(known["may_contain"] | new)),
        free_of=json.dumps(sorted(free_of)),
    )
    books.settings_changed()
    books.note("item", item.id)


def _declared(item: str, larder: Larder) -> Declared:
    made_by = larder.preparations.get(item)
    return of_recipe(made_by, larder) if made_by else declared_of(item, larder)


def _ask(books: Books, row: BatchRow, against: str) -> None:
    ask(
        books,
        "unsafe",
        "chef",
        row.id,
        recorded=f"Batch {row.label} was kept from what was made.",
        against=against,
        answers=("throw it away", "the record is wrong"),
    )
