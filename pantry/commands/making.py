"""What goes into a preparation, and the batch that comes of it (SL4)."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from pantry.commands.labels import label_for
from pantry.commands.lives import as_columns
from pantry.commands.shelf import ANYWHERE, draw, take
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.costs import cost_between, share_of_cost
from pantry.records.ledger import Movement, balances
from pantry.records.questions import ask
from pantry.records.read.lives import life_of
from pantry.records.rows import add
from pantry.records.tables import BatchParentRow, BatchRow, RecipeRow
from pantry.refusals import UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind, State


@dataclass(frozen=True, slots=True)
class ToMake:
    """So much of a preparation, made at an instant, put into a storage area as a new batch.

    Attributes:
        first: of left-overs, when they were first cooked: their life counts from then (SL4).
        source: the account its parts come from; empty: what was taken out for it, then the shelf.
    """

    recipe: RecipeRow
    item: str
    quantity: int
    at: datetime
    child: str
    area: str
    label: str | None = None
    pieces: int | None = None
    first: datetime | None = None
    source: str = ""


@dataclass(frozen=True, slots=True)
class Used:
    """So much of one batch went in, scanned or assumed by FEFO."""

    batch: BatchRow
    quantity: int
    link: str


def made_of(books: Books, what: ToMake, used: Iterable[Used]) -> BatchRow:
    """Draw what went in and set up what came of it; what safety forbids goes on hold.

    Raises:
        NotNow: `batch_taken`, `label_taken`.
        MissingFact: `life_unknown`.
    """
    parts = _by_batch(used)
    life, against = _life(books, what, parts)
    cost = sum(_cost(books, what, each) for each in parts)
    row = _row(books, what, parts, cost, life)
    add(books.connection, row)
    against += _drawn(books, what, parts)
    account = accounts.hold(what.area) if against else accounts.area(what.area)
    take(
        books,
        row,
        Movement(row.id, what.quantity, accounts.MADE_INTO, account, what.at, pieces=what.pieces),
    )
    if against:
        _ask(books, row, against)
    return row


def _by_batch(used: Iterable[Used]) -> list[Used]:
    merged: dict[str, Used] = {}
    for each in used:
        known = merged.get(each.batch.id)
        quantity = each.quantity + (known.quantity if known else 0)
        merged[each.batch.id] = Used(each.batch, quantity, each.link)
    return list(merged.values())


def _cost(books: Books, what: ToMake, used: Used) -> int:
    """What goes along of a part's cost: of what has left the house already, its even share."""
    if what.source:
        return cost_between(used.batch, 0, used.quantity)
    return share_of_cost(books, used.batch, used.quantity)


def _life(books: Books, what: ToMake, used: Sequence[Used]) -> tuple[Life, list[str]]:
    dating = Dating(what.recipe.dating)
    lives = books.lives
    if what.first is None:
        (days, hours), cooked = lives.prepared(what.recipe.life_days), []
    else:
        lines = books.recipes[what.recipe.id].ingredients
        (days, hours) = lives.left_over(books.items[line.item] for line in lines)
        cooked = [each for each in used if each.batch.cooked]
    try:
        made = shelf_life.made(
            what.first or what.at,
            days,
            dating,
            (life_of(each.batch) for each in used if each not in cooked),
            books.zone,
            life_hours=hours,
            left_overs=[life_of(each.batch) for each in cooked],
        )
    except UnsafeFood as refusal:
        return Life(usable_until=what.at), [str(refusal)]
    return made, []


def _row(books: Books, what: ToMake, used: Sequence[Used], cost: int, life: Life) -> BatchRow:
    cooked = what.recipe.dating != Dating.ASSEMBLED
    thawed = any(each.batch.was_thawed or each.batch.state == State.FROZEN for each in used)
    return BatchRow(
        house=books.id,
        id=what.child,
        item=what.item,
        label=label_for(books, what.child, what.label),
        state=State.MADE.value,
        state_at=what.at,
        date_kind=DateKind.NONE.value,
        was_thawed=thawed and not cooked,
        cooked=cooked,
        quantity=what.quantity,
        pieces=what.pieces,
        cost=cost,
        sealed_quantity=0,
        since=what.at,
        made_by=what.recipe.id,
        **as_columns(life),
    )


def _drawn(books: Books, what: ToMake, used: Iterable[Used]) -> list[str]:
    """Take each ingredient from where it comes from, see `ToMake`.

    Returns:
        What speaks against using what was made of it.
    """
    against = []
    for each in used:
        batch = each.batch
        source = what.source or accounts.kitchen(what.item)
        out = min(each.quantity, max(0, balances(books, batch.id).get(source, 0)))
        target, link = accounts.MADE_INTO, each.link
        take(books, batch, Movement(batch.id, out, source, target, what.at, link=link))
        if each.quantity > out:
            rest = Movement(batch.id, each.quantity - out, ANYWHERE, target, what.at, link=link)
            if accounts.kind(draw(books, batch, rest)) == "hold":
                against.append(f"Batch {batch.label} was on hold.")
        if batch.recalled:
            against.append(f"Batch {batch.label} is recalled.")
        parent = BatchParentRow(
            house=books.id, batch=what.child, parent=batch.id, quantity=each.quantity, link=link
        )
        add(books.connection, parent)
    return against


def _ask(books: Books, row: BatchRow, against: Sequence[str]) -> None:
    ask(
        books,
        "unsafe",
        "chef",
        row.id,
        recorded=f"Batch {row.label} was made.",
        against=" ".join(against),
        answers=("throw it away", "the record is wrong"),
    )
