"""The ledger: movements, never changed, and the balances kept beside them (LG1)."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import bindparam, text

from pantry.records import accounts
from pantry.records.accounts import COUNT_DIFFERENCE
from pantry.records.books import Books
from pantry.records.rows import every, put, table
from pantry.records.tables import BalanceRow, MovementRow

_BALANCES = text(
    "INSERT INTO balance (house, batch, account, quantity, pieces)"
    " VALUES (:house, :batch, :target, :quantity, :pieces),"
    " (:house, :batch, :source, -:quantity, -:pieces)"
    " ON CONFLICT (house, batch, account) DO UPDATE SET"
    " quantity = balance.quantity + excluded.quantity, pieces = balance.pieces + excluded.pieces"
    " RETURNING account, quantity, counted_at"
).columns(
    account=table(BalanceRow).c.account.type,
    quantity=table(BalanceRow).c.quantity.type,
    counted_at=table(BalanceRow).c.counted_at.type,
)

_COUNTED = text(
    "INSERT INTO balance (house, batch, account, quantity, pieces, counted_at)"
    " VALUES (:house, :batch, :account, 0, 0, :at)"
    " ON CONFLICT (house, batch, account) DO UPDATE SET counted_at = excluded.counted_at"
).bindparams(bindparam("at", type_=table(BalanceRow).c.counted_at.type))

_STOOD_ON = text(
    "SELECT target AS account FROM movement WHERE house = :house AND batch = :batch"
    " UNION SELECT source FROM movement WHERE house = :house AND batch = :batch ORDER BY account"
)

_SINCE = text(
    "SELECT source, target, quantity FROM movement"
    " WHERE house = :house AND batch = :batch AND at > :at"
).bindparams(bindparam("at", type_=table(MovementRow).c.at.type))


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


def post(books: Books, movement: Movement) -> int:
    """Write one movement and both balances; answer what the source account then holds.

    A negative answer for an account that stands in the house is what a question is opened about
    (LG3); the books never refuse a fact for it. What happened before an account was counted, but is
    written only now, had been counted already: the count's difference takes it up (SY8).
    """
    put(
        books.connection,
        MovementRow,
        house=books.id,
        number=books.note("batch", movement.batch),
        recorded_at=books.now,
        command=books.command,
        **{name: getattr(movement, name) for name in Movement.__slots__},
    )
    both = books.connection.execute(
        _BALANCES,
        {
            "house": books.id,
            "batch": movement.batch,
            "source": movement.source,
            "target": movement.target,
            "quantity": movement.quantity,
            "pieces": movement.pieces or 0,
        },
    )
    left = 0
    is_count = COUNT_DIFFERENCE in (movement.source, movement.target)
    for account, held, counted_at in both.all():
        late = counted_at is not None and movement.at < counted_at and not is_count
        if late:
            _take_up(books, movement, account, counted_at)
        if account == movement.source:
            left = held + (movement.quantity if late else 0)
    return left


def _take_up(books: Books, late: Movement, account: str, counted_at: datetime) -> None:
    source, target = account, COUNT_DIFFERENCE
    if account == late.source:
        source, target = target, source
    reason = "counted after it happened"
    back = Movement(late.batch, late.quantity, source, target, counted_at, late.pieces, reason)
    post(books, back)


def counted(books: Books, batch: str, account: str, at: datetime | None) -> None:
    """Write when an account was last counted, be it one on which the batch never stood.

    None where the count is taken back.
    """
    of_batch = {"house": books.id, "batch": batch, "account": account}
    books.connection.execute(_COUNTED, of_batch | {"at": at})


def balances(books: Books, batch: str) -> dict[str, int]:
    """What stands of a batch on each account that is not empty, in thousandths."""
    rows = every(books.connection, BalanceRow, house=books.id, batch=batch)
    return {row.account: row.quantity for row in rows if row.quantity}


def balances_at(books: Books, batch: str, at: datetime) -> dict[str, int]:
    """What each account held of a batch at an instant, by when things happened (SY8)."""
    of_batch = {"house": books.id, "batch": batch}
    held = balances(books, batch)
    for source, target, quantity in books.connection.execute(_SINCE, of_batch | {"at": at}):
        held[source] = held.get(source, 0) + quantity
        held[target] = held.get(target, 0) - quantity
    return held


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
