"""One batch counted in one storage area, against what the books had there then (LG3, SY8)."""

from collections.abc import Mapping

from pantry.commands import clocks, taken_out_already
from pantry.commands.counting import Counting
from pantry.commands.labels import label_for
from pantry.commands.parts import CountedPart
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import add
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.count_differences import within_tolerance
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit, DateKind, State


def compare(
    counting: Counting, item: ItemRow, batch: BatchRow, found: int, line: CountedPart
) -> None:
    """Make the books say what was found, and ask where that is too far from what they said."""
    if counting.is_overtaken(batch.id):
        return
    stands = counting.standing(batch.id)
    stood = sum(stands.values())
    difference = found - stood
    doubt = clocks.doubt_about(counting, batch.id) if difference else None
    if doubt and doubt.explains(difference):
        difference = 0
    elif doubt:
        clocks.ask_where_neither_fits(counting, batch)
        return
    is_missing = difference < 0 and line.taken_out is None
    if is_missing and taken_out_already.asked(counting, item, batch, -difference):
        return
    if difference < 0 and line.taken_out:
        taken_out_already.write(counting, batch, -difference)
    elif difference:
        _post(counting, batch, difference, stands)
        if not within_tolerance(stood, found, high_risk=item.high_risk):
            _ask_why(counting, item, batch, stood, found)
    counting.mark(batch)


def set_up(counting: Counting, item: ItemRow, quantity: int) -> None:
    """What was found of an item without any batch there: a batch of its own, on hold.

    Nobody knows how long it keeps; the chef decides before anybody uses it.
    """
    books, given = counting.books, counting.given
    identity = f"{given.id}/{item.id}"
    row = BatchRow(
        house=books.id,
        id=identity,
        item=item.id,
        label=label_for(books, identity, None),
        state=State.SEALED.value,
        state_at=given.at,
        date_kind=DateKind.NONE.value,
        quantity=quantity,
        sealed_quantity=0,
        since=given.at,
    )
    add(books.connection, row)
    place = accounts.hold(counting.area.id)
    reason = given.body.reason or "counted"
    source = accounts.COUNT_DIFFERENCE
    take(books, row, Movement(row.id, quantity, source, place, given.at, reason=reason))
    counting.mark(row)
    ask(
        books,
        "found",
        "chef",
        row.id,
        recorded=f"{show(quantity, BaseUnit(item.base_unit))} of {item.name} was counted in "
        f"{counting.area.name}; it stands on hold there as batch {row.label}.",
        against="The books know no batch of it there.",
        answers=("release", "throw it away", "it is another batch"),
    )


def _post(counting: Counting, batch: BatchRow, difference: int, stands: Mapping[str, int]) -> None:
    """The difference, from or to what stands there; what is on hold is missed last."""
    books, given = counting.books, counting.given
    reason = given.body.reason or "counted"
    if difference > 0:
        account = max(stands, key=lambda each: stands[each], default=counting.accounts[0])
        source = accounts.COUNT_DIFFERENCE
        take(books, batch, Movement(batch.id, difference, source, account, given.at, reason=reason))
        return
    missing = -difference
    for account in counting.accounts:
        part = min(missing, max(0, stands.get(account, 0)))
        target = accounts.COUNT_DIFFERENCE
        take(books, batch, Movement(batch.id, part, account, target, given.at, reason=reason))
        missing -= part


def _ask_why(counting: Counting, item: ItemRow, batch: BatchRow, stood: int, found: int) -> None:
    unit = BaseUnit(item.base_unit)
    ask(
        counting.books,
        "count_difference",
        "chef",
        f"{counting.given.id}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}: {show(found, unit)} was counted in "
        f"{counting.area.name}.",
        against=f"The books had {show(stood, unit)} there.",
        answers=("use was not recorded", "the count was wrong", "it is not explained"),
    )
