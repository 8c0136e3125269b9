"""The ledger: movements, never changed, and the balances kept beside them (LG1)."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import bindparam, text

from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.rows import add, every, find, table
from pantry.records.tables import BalanceRow, MovementRow

_BALANCE = text(
    "INSERT INTO balance (house, batch, account, quantity, pieces)"
    " VALUES (:house, :batch, :account, :quantity, :pieces)"
    " ON CONFLICT (house, batch, account) DO UPDATE SET"
    " quantity = balance.quantity + excluded.quantity, pieces = balance.pieces + excluded.pieces"
    " RETURNING quantity"
)

_SINCE = text(
    "SELECT COALESCE(SUM(CASE WHEN target = :account THEN quantity ELSE -quantity END), 0)"
    " FROM movement WHERE house = :house AND batch = :batch AND at > :at"
    " AND :account IN (source, target)"
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
    (LG3); the books never refuse a fact for it.
    """
    number = books.note("batch", movement.batch)
    row = MovementRow(
        house=books.id,
        number=number,
        batch=movement.batch,
        quantity=movement.quantity,
        pieces=movement.pieces,
        source=movement.source,
        target=movement.target,
        at=movement.at,
        recorded_at=books.now,
        command=books.command,
        reverses=movement.reverses,
        reason=movement.reason,
        destination=movement.destination,
        link=movement.link,
    )
    add(books.connection, row)
    pieces = movement.pieces or 0
    _add_to_balance(books, movement.batch, movement.target, movement.quantity, pieces)
    return _add_to_balance(books, movement.batch, movement.source, -movement.quantity, -pieces)


def _add_to_balance(books: Books, batch: str, account: str, quantity: int, pieces: int) -> int:
    result = books.connection.execute(
        _BALANCE,
        {
            "house": books.id,
            "batch": batch,
            "account": account,
            "quantity": quantity,
            "pieces": pieces,
        },
    )
    return int(result.scalar_one())


def balances(books: Books, batch: str) -> dict[str, int]:
    """What stands of a batch on each account that is not empty, in thousandths."""
    rows = every(books.connection, BalanceRow, house=books.id, batch=batch)
    return {row.account: row.quantity for row in rows if row.quantity}


def balance_at(books: Books, batch: str, account: str, at: datetime) -> int:
    """What an account held of a batch at an instant, by the instants things happened at (SY8)."""
    of_batch = {"house": books.id, "batch": batch, "account": account}
    now = find(books.connection, BalanceRow, **of_batch)
    since = books.connection.execute(_SINCE, of_batch | {"at": at}).scalar_one()
    return (now.quantity if now else 0) - int(since)


def accounts_of(books: Books, batch: str) -> list[str]:
    """Every account that a batch ever stood on, empty ones included."""
    return [row.account for row in every(books.connection, BalanceRow, house=books.id, batch=batch)]


def standing(books: Books, batch: str) -> dict[str, int]:
    """What stands of a batch in the house, by account, in thousandths."""
    return {
        account: quantity
        for account, quantity in balances(books, batch).items()
        if accounts.kind(account) in accounts.PHYSICAL
    }
