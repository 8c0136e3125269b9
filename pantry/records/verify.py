"""Do the books agree with themselves? Everything kept beside the ledger is rebuilt and compared.

Each disagreement is one plain sentence; no disagreement is an empty list (SY11). The sums are made
by the database, and only what differs is fetched: years of movements are read, not held.
"""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, RowMapping, TextClause, text
from sqlalchemy.exc import DatabaseError

from pantry.records import accounts
from pantry.records.guard import unguarded
from pantry.records.journal import Entry, link
from pantry.records.rows import one, stream
from pantry.records.tables import HouseRow, JournalRow

_BALANCES = text(
    "SELECT batch, account, SUM(should), SUM(does), SUM(pieces_should), SUM(pieces_do) FROM ("
    " SELECT batch, target AS account, quantity AS should, 0 AS does,"
    " COALESCE(pieces, 0) AS pieces_should, 0 AS pieces_do FROM movement WHERE house = :house"
    " UNION ALL SELECT batch, source, -quantity, 0, -COALESCE(pieces, 0), 0 FROM movement"
    " WHERE house = :house"
    " UNION ALL SELECT batch, account, 0, quantity, 0, pieces FROM balance WHERE house = :house"
    ") AS sides GROUP BY batch, account"
    " HAVING SUM(should) <> SUM(does) OR SUM(pieces_should) <> SUM(pieces_do)"
    " ORDER BY batch, account"
)
_NOT_NOTHING = text(
    "SELECT batch, SUM(quantity) FROM balance WHERE house = :house"
    " GROUP BY batch HAVING SUM(quantity) <> 0 ORDER BY batch"
)
_PROMISES = text(
    "SELECT need, batch, SUM(should), SUM(does) FROM ("
    " SELECT need, batch, quantity AS should, 0 AS does FROM promise WHERE house = :house"
    " UNION ALL SELECT need, batch, 0, quantity FROM promised WHERE house = :house"
    ") AS sides GROUP BY need, batch HAVING SUM(should) <> SUM(does) ORDER BY need, batch"
)
_PROMISED = text(
    "SELECT batch, SUM(quantity) FROM promised WHERE house = :house GROUP BY batch ORDER BY batch"
)
_STANDS = text(
    "SELECT batch, account, quantity FROM balance WHERE house = :house"
    " AND batch IN (SELECT batch FROM promised WHERE house = :house)"
)
_PROMISED_TO_NOBODY = text(
    "SELECT p.need, p.batch FROM promised p WHERE p.house = :house AND NOT EXISTS"
    " (SELECT 1 FROM need n WHERE n.house = p.house AND n.id = p.need) ORDER BY p.need, p.batch"
)
_UNKNOWN_BATCHES = text(
    "SELECT DISTINCT m.batch FROM movement m WHERE m.house = :house AND NOT EXISTS"
    " (SELECT 1 FROM batch b WHERE b.house = m.house AND b.id = m.batch) ORDER BY m.batch"
)
_CHANGES = text("SELECT COUNT(*), MIN(number), MAX(number) FROM change WHERE house = :house")
_UNNUMBERED = (
    "SELECT r.number FROM {table} r LEFT JOIN change c ON c.house = r.house AND c.number = r.number"
    " WHERE r.house = :house AND (c.key IS NULL OR c.what <> '{what}' OR c.key <> r.{what})"
    " ORDER BY r.number"
)
_UNNUMBERED_MOVEMENTS = text(_UNNUMBERED.format(table="movement", what="batch"))
_UNNUMBERED_PROMISES = text(_UNNUMBERED.format(table="promise", what="service"))
_DEVICES = text(
    "SELECT name, highest, kept, missing FROM (SELECT d.id, d.name, d.highest,"
    " (SELECT COUNT(*) FROM journal j WHERE j.house = d.house AND j.device = d.id) AS kept,"
    " (SELECT COALESCE(SUM(m.last - m.first + 1), 0) FROM missing m"
    " WHERE m.house = d.house AND m.device = d.id) AS missing"
    " FROM device d WHERE d.house = :house) AS outbox"
    " WHERE highest <> kept + missing ORDER BY name, id"
)


def disagreements(connection: Connection, house: str) -> list[str]:
    """Everything in the books of a house that contradicts what they were built from."""
    found: list[str] = []
    try:
        for check in _CHECKS:
            found.extend(check(connection, house))
    except DatabaseError as error:
        found.append(f"The books cannot be read to the end: {error.orig}.")
    return found


def _database(connection: Connection, _house: str) -> Iterator[str]:
    """The file is whole, and its ledger, promises and journal are guarded."""
    if connection.dialect.name == "sqlite":
        for found in connection.execute(text("PRAGMA integrity_check")).scalars():
            if found != "ok":
                yield f"The database file is damaged: {found}."
    for guard in unguarded(connection):
        table, _, verb = guard.partition("_no_")
        yield f"The rows of {table} are not guarded against {verb}."


def _ledger(connection: Connection, house: str) -> Iterator[str]:
    """Balances are the movements' sums, and for every batch they sum to nothing (LG1)."""
    for batch, account, should, does, pieces_should, pieces_do in _found(
        connection, _BALANCES, house
    ):
        if should != does:
            yield (
                f"Batch {batch}: the balance of {account} says {does}, its movements say {should}."
            )
        if pieces_should != pieces_do:
            yield (
                f"Batch {batch}: the balance of {account} says {pieces_do} pieces, "
                f"its movements say {pieces_should}."
            )
    for batch, total in _found(connection, _NOT_NOTHING, house):
        yield f"Batch {batch}: its accounts come to {total}, and should come to nothing."
    for (batch,) in _found(connection, _UNKNOWN_BATCHES, house):
        yield f"Batch {batch}: it was moved, and nothing says what it is."


def _promises(connection: Connection, house: str) -> Iterator[str]:
    """What a need holds is the sum of its promises, and the need is there (LG2)."""
    for need, batch, should, does in _found(connection, _PROMISES, house):
        yield f"{need}: it holds {does} of batch {batch}, the promises come to {should}."
    for need, batch in _found(connection, _PROMISED_TO_NOBODY, house):
        yield f"{need}: it holds of batch {batch}, and is not wanted by any service."


def _promised_beyond_stock(connection: Connection, house: str) -> Iterator[str]:
    """No more of a batch is promised than stands where it may be used."""
    stands: dict[str, int] = {}
    for batch, account, quantity in _found(connection, _STANDS, house):
        if accounts.is_usable(account):
            stands[batch] = stands.get(batch, 0) + quantity
    for batch, quantity in _found(connection, _PROMISED, house):
        if quantity > stands.get(batch, 0):
            yield (
                f"Batch {batch}: {quantity} is promised, and {stands.get(batch, 0)} stands there."
            )


def _journal(connection: Connection, house: str) -> Iterator[str]:
    """Every position is there, and the chain over the commands and answers holds (SY11)."""
    head = one(connection, HouseRow, id=house)
    chain = ""
    expected = 1
    for row in stream(connection, JournalRow, house=house):
        position = row["position"]
        if position != expected:
            yield f"The journal goes from position {expected - 1} to {position}."
        expected = position + 1
        chain = link(chain, position, _entry(row), row["recorded_at"])
        if chain != row["chain"]:
            yield f"The journal was altered at or before position {position} ({row['kind']})."
            chain = row["chain"]
    if head.position != expected - 1:
        yield f"The journal ends at {expected - 1}, the house's row says {head.position}."
    if head.chain != chain:
        yield "The journal's last link is not the one in the house's row."


def _entry(row: RowMapping) -> Entry:
    return Entry(**{name: row[name] for name in Entry.__slots__})


def _changes(connection: Connection, house: str) -> Iterator[str]:
    """The numbered changes have no gap, and the ledger's and promises' are among them (SY6)."""
    head = one(connection, HouseRow, id=house).change
    ((count, first, last),) = _found(connection, _CHANGES, house)
    if (count, first or 1, last or 0) != (head, 1, head):
        yield f"The numbered changes have a gap: {count} are there up to {head}."
    for (number,) in _found(connection, _UNNUMBERED_MOVEMENTS, house):
        yield f"Movement {number} is not the change of that number."
    for (number,) in _found(connection, _UNNUMBERED_PROMISES, house):
        yield f"Promise {number} is not the change of that number."


def _devices(connection: Connection, house: str) -> Iterator[str]:
    """Every number that a device's outbox handed in is in the journal, or known to be missing."""
    for name, highest, kept, missing in _found(connection, _DEVICES, house):
        told = f", and {missing} are known to be missing" if missing else ""
        yield f"{name}: its outbox counts to {highest}, and the journal keeps {kept}{told}."


def _found(connection: Connection, query: TextClause, house: str) -> Iterator[tuple[Any, ...]]:
    for row in connection.execute(query, {"house": house}):
        yield tuple(row)


_CHECKS = (
    _database,
    _ledger,
    _promises,
    _promised_beyond_stock,
    _journal,
    _changes,
    _devices,
)
