"""Do the books agree with themselves? Everything kept beside the ledger is rebuilt and compared.

Each disagreement is one plain sentence; no disagreement is an empty list (SY11).
"""

from collections.abc import Iterator

from sqlalchemy import Connection, TextClause, text

from pantry.records import accounts
from pantry.records.journal import Entry, link
from pantry.records.rows import every, one
from pantry.records.tables import HouseRow, JournalRow

_BALANCES = text(
    "SELECT batch, account, SUM(quantity) FROM ("
    " SELECT batch, target AS account, quantity FROM movement WHERE house = :house"
    " UNION ALL SELECT batch, source AS account, -quantity FROM movement WHERE house = :house"
    ") AS both_sides GROUP BY batch, account"
)
_KEPT_BALANCES = text("SELECT batch, account, quantity FROM balance WHERE house = :house")
_PROMISES = text(
    "SELECT need, batch, SUM(quantity) FROM promise WHERE house = :house GROUP BY need, batch"
)
_KEPT_PROMISES = text("SELECT need, batch, quantity FROM promised WHERE house = :house")
_NUMBERS = text("SELECT number FROM change WHERE house = :house ORDER BY number")
_DEVICES = text(
    "SELECT d.name, d.highest, COUNT(j.n) FROM device d LEFT JOIN journal j"
    " ON j.house = d.house AND j.device = d.id WHERE d.house = :house"
    " GROUP BY d.name, d.highest ORDER BY d.name"
)


def disagreements(connection: Connection, house: str) -> list[str]:
    """Everything in the books of a house that contradicts what they were built from."""
    return [
        *_balances(connection, house),
        *_promises(connection, house),
        *_promised_beyond_stock(connection, house),
        *_journal(connection, house),
        *_changes(connection, house),
        *_devices(connection, house),
    ]


def _balances(connection: Connection, house: str) -> Iterator[str]:
    """Balances are the movements' sums, and for every batch they sum to nothing (LG1)."""
    rebuilt = _by_pair(connection, house, _BALANCES)
    kept = _by_pair(connection, house, _KEPT_BALANCES)
    for batch, account in sorted(rebuilt.keys() | kept.keys()):
        should, does = rebuilt.get((batch, account), 0), kept.get((batch, account), 0)
        if should != does:
            yield (
                f"Batch {batch}: the balance of {account} says {does}, its movements say {should}."
            )
    totals: dict[str, int] = {}
    for (batch, _), quantity in kept.items():
        totals[batch] = totals.get(batch, 0) + quantity
    for batch, total in sorted(totals.items()):
        if total:
            yield f"Batch {batch}: its accounts come to {total}, and should come to nothing."


def _promises(connection: Connection, house: str) -> Iterator[str]:
    """What a need holds is the sum of its promises (LG2)."""
    rebuilt = _by_pair(connection, house, _PROMISES)
    kept = _by_pair(connection, house, _KEPT_PROMISES)
    for need, batch in sorted(rebuilt.keys() | kept.keys()):
        should, does = rebuilt.get((need, batch), 0), kept.get((need, batch), 0)
        if should != does:
            yield (f"{need}: it holds {does} of batch {batch}, the promises come to {should}.")


def _promised_beyond_stock(connection: Connection, house: str) -> Iterator[str]:
    """No more of a batch is promised than stands where it may be used."""
    promised: dict[str, int] = {}
    for (_, batch), quantity in _by_pair(connection, house, _KEPT_PROMISES).items():
        promised[batch] = promised.get(batch, 0) + quantity
    stands: dict[str, int] = {}
    for (batch, account), quantity in _by_pair(connection, house, _KEPT_BALANCES).items():
        if accounts.is_usable(account):
            stands[batch] = stands.get(batch, 0) + quantity
    for batch, quantity in sorted(promised.items()):
        if quantity > stands.get(batch, 0):
            yield (
                f"Batch {batch}: {quantity} is promised, and {stands.get(batch, 0)} stands there."
            )


def _journal(connection: Connection, house: str) -> Iterator[str]:
    """Every position is there, and the chain over the commands and answers holds (SY11)."""
    head = one(connection, HouseRow, id=house)
    chain = ""
    expected = 1
    for row in every(connection, JournalRow, house=house):
        if row.position != expected:
            yield f"The journal goes from position {expected - 1} to {row.position}."
        expected = row.position + 1
        chain = link(chain, row.position, _entry(row))
        if chain != row.chain:
            yield f"The journal was altered at or before position {row.position} ({row.kind})."
            chain = row.chain
    if head.position != expected - 1:
        yield f"The journal ends at {expected - 1}, the house's row says {head.position}."
    if head.chain != chain:
        yield "The journal's last link is not the one in the house's row."


def _entry(row: JournalRow) -> Entry:
    return Entry(
        id=row.id,
        kind=row.kind,
        at=row.at,
        person=row.person,
        device=row.device,
        n=row.n,
        envelope=row.envelope,
        outcome=row.outcome,
        answer=row.answer,
    )


def _changes(connection: Connection, house: str) -> Iterator[str]:
    """The numbered changes have no gap (SY6)."""
    numbers = [number for (number,) in connection.execute(_NUMBERS, {"house": house})]
    head = one(connection, HouseRow, id=house).change
    if numbers != list(range(1, head + 1)):
        yield f"The numbered changes have a gap: {len(numbers)} are there up to {head}."


def _devices(connection: Connection, house: str) -> Iterator[str]:
    """Every number that a device's outbox handed in is in the journal."""
    for name, highest, kept in connection.execute(_DEVICES, {"house": house}):
        if highest != kept:
            yield f"{name}: its outbox counts to {highest}, and the journal keeps {kept}."


def _by_pair(connection: Connection, house: str, query: TextClause) -> dict[tuple[str, str], int]:
    rows = connection.execute(query, {"house": house})
    return {(first, second): int(quantity) for first, second, quantity in rows}
