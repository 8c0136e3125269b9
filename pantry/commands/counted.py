"""One batch counted in one storage area, against what the books had there then (LG3, SY8)."""

from collections.abc import Mapping
from dataclasses import dataclass

from pantry.commands import clocks, second_count, taken_out_already
from pantry.commands.counting import Counting
from pantry.commands.labels import label_for
from pantry.commands.parts import CountedPart
from pantry.commands.shelf import take
from pantry.records import accounts
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import add
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.count_differences import tolerance, within_tolerance
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit, DateKind, State


@dataclass(frozen=True, slots=True)
class Found:
    """What was found of a batch, in thousandths; `pieces` where they were counted too (MS1)."""

    quantity: int
    pieces: int | None = None


def compare(
    counting: Counting,
    item: ItemRow,
    batch: BatchRow,
    found: Found,
    line: CountedPart,
    whole: tuple[int, int] | None = None,
) -> None:
    """Make the books say what was found, and ask where that is too far from what they said.

    A first count that is too far off does not decide about what matters: it is counted again. How
    far off it is goes by `whole`, what stood and was found of the item, where it was counted
    whatever the batch: nobody said that all of it is missing from one.
    """
    if counting.is_overtaken(batch.id):
        return
    stands = counting.standing(batch.id)
    stood = sum(stands.values())
    difference = found.quantity - stood
    doubt = clocks.doubt_about(counting, batch.id) if difference else None
    if doubt and doubt.explains(difference):
        difference = 0
    elif doubt:
        clocks.ask_where_neither_fits(counting, batch)
        return
    is_missing = difference < 0 and line.taken_out is None
    if is_missing and taken_out_already.asked(counting, item, batch, -difference):
        return
    percent = tolerance(counting.books.lives.policy, item.group, high_risk=item.high_risk)
    is_near = within_tolerance(*(whole or (stood, found.quantity)), percent)
    is_far_off = difference != 0 and not is_near
    if difference < 0 and line.taken_out:
        taken_out_already.write(counting, batch, -difference)
    elif is_far_off and second_count.is_awaited(counting, item, batch, found.quantity, line):
        return
    elif difference or found.pieces is not None:
        more = _more_pieces(counting, batch, found)
        _post(counting, batch, difference, stands, more, line.reason)
        if is_far_off and not line.reason:
            _ask_why(counting, item, batch, stood, found.quantity)
    counting.mark(batch)


def _more_pieces(counting: Counting, batch: BatchRow, found: Found) -> int:
    """How many more pieces were found than stood there; where nothing stands there is no piece."""
    pieces = found.pieces if found.quantity else 0
    return 0 if pieces is None else pieces - counting.pieces_stood(batch.id)


def set_up(counting: Counting, item: ItemRow, found: Found) -> None:
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
        quantity=found.quantity,
        pieces=found.pieces,
        sealed_quantity=0,
        since=given.at,
    )
    add(books.connection, row)
    place = accounts.hold(counting.area.id)
    reason = given.body.reason or "counted"
    source = accounts.COUNT_DIFFERENCE
    came = Movement(row.id, found.quantity, source, place, given.at, found.pieces, reason)
    take(books, row, came)
    counting.mark(row)
    ask(
        books,
        "found",
        "chef",
        row.id,
        recorded=f"{show(found.quantity, BaseUnit(item.base_unit))} of {item.name} was counted in "
        f"{counting.area.name}; it stands on hold there as batch {row.label}.",
        against="The books know no batch of it there.",
        answers=("release", "throw it away", "it is another batch"),
    )


def _post(
    counting: Counting,
    batch: BatchRow,
    difference: int,
    stands: Mapping[str, int],
    pieces: int,
    said: str | None,
) -> None:
    """The difference, from or to what stands there; what is on hold is missed last.

    Its pieces go with it. Where the weight agrees and they do not, a thousandth of it goes out
    with them and comes back: pieces alone are nothing that can be moved.
    """
    books, given = counting.books, counting.given
    reason = said or given.body.reason or "counted"
    lost = accounts.COUNT_DIFFERENCE
    fullest = max(stands, key=lambda each: stands[each], default=counting.accounts[0])
    out: dict[str, int] = {}
    if difference == 0 and pieces:
        out, difference = {fullest: 1}, 1
    missing = -difference
    for account in counting.accounts if missing > 0 else ():
        out[account] = min(missing, max(0, stands.get(account, 0)))
        missing -= out[account]
    for account, part in out.items():
        gone = Movement(batch.id, part, account, lost, given.at, -pieces or None, reason)
        take(books, batch, gone)
        pieces = 0 if part else pieces
    if difference > 0:
        come = Movement(batch.id, difference, lost, fullest, given.at, pieces or None, reason)
        take(books, batch, come)


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
