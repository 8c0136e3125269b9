"""The ledger: movements, never changed, and the balances kept beside them (LG1)."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import bindparam, text

from pantry.records import accounts
from pantry.records.accounts import COUNT_DIFFERENCE
from pantry.records.books import Books
from pantry.records.rows import change, every, one, put, table
from pantry.records.tables import BalanceRow, MovementRow
from pantry.rules.moments import Moment

_BALANCES = text(
    "INSERT INTO balance (house, batch, account, quantity, pieces)"
    " VALUES (:house, :batch, :target, :quantity, :pieces),"
    " (:house, :batch, :source, -:quantity, -:pieces)"
    " ON CONFLICT (house, batch, account) DO UPDATE SET"
    " quantity = balance.quantity + excluded.quantity, pieces = balance.pieces + excluded.pieces"
    " RETURNING account, quantity, counted_at, counted_bound_ms, counted_device, counted_position"
).columns(
    account=table(BalanceRow).c.account.type,
    quantity=table(BalanceRow).c.quantity.type,
    counted_at=table(BalanceRow).c.counted_at.type,
    counted_bound_ms=table(BalanceRow).c.counted_bound_ms.type,
    counted_device=table(BalanceRow).c.counted_device.type,
    counted_position=table(BalanceRow).c.counted_position.type,
)

_COUNTED = text(
    "INSERT INTO balance (house, batch, account, quantity, pieces, counted_at, counted_bound_ms,"
    " counted_device, counted_position)"
    " VALUES (:house, :batch, :account, 0, 0, :at, :bound_ms, :device, :position)"
    " ON CONFLICT (house, batch, account) DO UPDATE SET counted_at = excluded.counted_at,"
    " counted_bound_ms = excluded.counted_bound_ms, counted_device = excluded.counted_device,"
    " counted_position = excluded.counted_position"
).bindparams(bindparam("at", type_=table(BalanceRow).c.counted_at.type))

_STOOD_ON = text(
    "SELECT target AS account FROM movement WHERE house = :house AND batch = :batch"
    " UNION SELECT source FROM movement WHERE house = :house AND batch = :batch ORDER BY account"
)

_SINCE = text(
    "SELECT source, target, quantity, pieces FROM movement"
    " WHERE house = :house AND batch = :batch AND at > :at"
    " AND (device IS NULL OR device <> :device)"
    " AND :difference NOT IN (source, target)"
).bindparams(bindparam("at", type_=table(MovementRow).c.at.type))


_MILLISECOND = timedelta(milliseconds=1)


@dataclass(frozen=True, slots=True)
class Movement:
    """A physical quantity of one batch from one account to another, in thousandths."""

    batch: str
    quantity: int
    source: str
    target: str
    at: datetime
    pieces: int | None = None
    reason: str | None = None
    destination: str | None = None
    reverses: int | None = None
    link: str = "scanned"


@dataclass(frozen=True, slots=True)
class Posted:
    """What a movement came to.

    Attributes:
        left: what its source account then holds, in thousandths.
        beside: accounts whose last count may have been before it or after (SY8).
    """

    left: int
    beside: tuple[str, ...]


def post(books: Books, movement: Movement) -> Posted:
    """Write one movement and both balances; answer what the source account then holds.

    A negative answer for an account that stands in the house is what a question is opened about
    (LG3); the books never refuse a fact for it. What happened before an account was counted, but is
    written only now, had been counted already: the count's difference takes it up (SY8).
    """
    moment = _moment(books, movement)
    _write(books, movement, moment)
    left = 0
    beside: list[str] = []
    is_count = COUNT_DIFFERENCE in (movement.source, movement.target)
    for row in books.connection.execute(_BALANCES, _sides(books, movement)).all():
        held = row.quantity
        if row.counted_at is not None and not is_count:
            last = last_counted(row)
            if moment.is_before(last):
                _take_up(books, movement, row.account, last.at)
                held += movement.quantity if row.account == movement.source else 0
            if moment.may_be_either_side_of(last):
                beside.append(row.account)
        if row.account == movement.source:
            left = held
    return Posted(left, tuple(beside))


def _moment(books: Books, movement: Movement) -> Moment:
    """When it happened; what takes another movement back is on the same side of every count."""
    if movement.reverses is None:
        return books.moment(movement.at)
    return moment_of(one(books.connection, MovementRow, house=books.id, number=movement.reverses))


def _write(books: Books, movement: Movement, moment: Moment) -> None:
    put(
        books.connection,
        MovementRow,
        house=books.id,
        number=books.note("batch", movement.batch),
        recorded_at=books.now,
        command=books.command,
        bound_ms=moment.bound // _MILLISECOND,
        position=moment.position,
        device=moment.device,
        **{name: getattr(movement, name) for name in Movement.__slots__},
    )


def _sides(books: Books, movement: Movement) -> dict[str, object]:
    return {
        "house": books.id,
        "batch": movement.batch,
        "source": movement.source,
        "target": movement.target,
        "quantity": movement.quantity,
        "pieces": movement.pieces or 0,
    }


def _take_up(books: Books, late: Movement, account: str, counted_at: datetime) -> None:
    source, target = account, COUNT_DIFFERENCE
    if account == late.source:
        source, target = target, source
    reason = "counted after it happened"
    back = Movement(late.batch, late.quantity, source, target, counted_at, late.pieces, reason)
    post(books, back)


def moment_of(row: MovementRow) -> Moment:
    """When what a movement writes down happened."""
    return Moment(row.at, row.bound_ms * _MILLISECOND, row.device, row.position)


def last_counted(row: Any) -> Moment:  # noqa: ANN401 - a BalanceRow, or what a statement says of one
    """When an account was last counted that was."""
    bound = row.counted_bound_ms * _MILLISECOND
    return Moment(row.counted_at, bound, row.counted_device, row.counted_position)


def counted(books: Books, batch: str, account: str, moment: Moment) -> None:
    """Write when an account was last counted, be it one on which the batch never stood."""
    said = {"at": moment.at, "bound_ms": moment.bound // _MILLISECOND}
    said |= {"device": moment.device, "position": moment.position}
    of_batch = {"house": books.id, "batch": batch, "account": account}
    books.connection.execute(_COUNTED, of_batch | said)


def forget_count(books: Books, batch: str, account: str) -> None:
    """Write that an account was never counted, where its count is taken back."""
    of_batch = {"house": books.id, "batch": batch, "account": account}
    change(books.connection, BalanceRow, of_batch, counted_at=None)


def balances(books: Books, batch: str) -> dict[str, int]:
    """What stands of a batch on each account that is not empty, in thousandths."""
    rows = every(books.connection, BalanceRow, house=books.id, batch=batch)
    return {row.account: row.quantity for row in rows if row.quantity}


def balances_at(books: Books, batch: str, counted: Moment) -> dict[str, int]:
    """What each account held of a batch when it was counted, by when things happened (SY8)."""
    held = balances(books, batch)
    for row in _since(books, batch, counted):
        _move_back(held, row, row.quantity)
    return held


def pieces_at(books: Books, batch: str, counted: Moment) -> dict[str, int]:
    """The same of its pieces, where it is counted while weighed (MS1)."""
    rows = every(books.connection, BalanceRow, house=books.id, batch=batch)
    held = {row.account: row.pieces for row in rows}
    for row in _since(books, batch, counted):
        _move_back(held, row, row.pieces or 0)
    return held


def _since(books: Books, batch: str, counted: Moment) -> Sequence[Any]:
    """The movements of a batch that came after a count.

    What the device that counts has handed in came before. So did every count, or it would have
    overtaken this one.
    """
    after = {"at": counted.at, "device": counted.device or "", "difference": COUNT_DIFFERENCE}
    return books.connection.execute(_SINCE, {"house": books.id, "batch": batch} | after).all()


def _move_back(held: dict[str, int], row: Any, much: int) -> None:  # noqa: ANN401 - of `_since`
    held[row.source] = held.get(row.source, 0) + much
    held[row.target] = held.get(row.target, 0) - much


def accounts_of(books: Books, batch: str) -> list[str]:
    """Every account that a batch ever stood on, empty ones included."""
    found = books.connection.execute(_STOOD_ON, {"house": books.id, "batch": batch})
    return list(found.scalars())


def standing(books: Books, batch: str) -> dict[str, int]:
    """What stands of a batch in the house, by account, in thousandths."""
    return {
        account: quantity
        for account, quantity in balances(books, batch).items()
        if accounts.kind(account) in accounts.PHYSICAL
    }
