"""A cold place that failed: what stood in it waits for the chef, batch by batch (SL5)."""

from datetime import datetime

from pantry.commands.shelf import take
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask, close
from pantry.records.read.failed_places import waiting
from pantry.records.rows import add, among, every, one
from pantry.records.tables import AreaRow, BalanceRow, BatchRow, HeldWarmRow, TemperatureRow
from pantry.rules.cold_places import Limits, Warmth, failed, stretch
from pantry.rules.safety import Reading
from pantry.rules.stock import AreaKind

PLACE_FAILED = "place_failed"
"""The kind of question that a failed place opens, once for all that stood in it."""


def look(books: Books, area: AreaRow, limits: Limits, reading: TemperatureRow) -> None:
    """Put what stands in a place on hold if it has failed with this reading, and ask the chef."""
    if reading.warmth != Warmth.TOO_WARM.value:
        return
    rows = every(books.connection, TemperatureRow, house=books.id, area=area.id)
    readings = [Reading(row.at, row.tenths) for row in rows]
    around = stretch(limits, readings, Reading(reading.at, reading.tenths))
    why = failed(books.lives.policy, AreaKind(area.kind), limits, around)
    if why is None:
        return
    held = [batch for batch in _standing(books, area) if _hold(books, area, batch, reading.at, why)]
    for batch in held:
        warm = HeldWarmRow(
            house=books.id,
            command=reading.command,
            batch=batch.id,
            area=area.id,
            since=around[0].at,
        )
        add(books.connection, warm)
    if held:
        _ask(books, area, why)


def _standing(books: Books, area: AreaRow) -> list[BatchRow]:
    """What stands in a place and may be used, the emergency meal included."""
    there = [
        row.batch
        for account in (accounts.area(area.id), accounts.emergency(area.id))
        for row in every(books.connection, BalanceRow, house=books.id, account=account)
        if row.quantity > 0
    ]
    return among(books.connection, BatchRow, books.id, "id", there)


def _hold(books: Books, area: AreaRow, batch: BatchRow, at: datetime, why: str) -> bool:
    stands = ledger.standing(books, batch.id)
    sources = (accounts.area(area.id), accounts.emergency(area.id))
    moved = [source for source in sources if stands.get(source, 0) > 0]
    for source in moved:
        held = accounts.hold(area.id)
        take(books, batch, Movement(batch.id, stands[source], source, held, at, reason=why))
    return bool(moved)


def _ask(books: Books, area: AreaRow, why: str) -> None:
    waiting = len(undecided(books, area.id))
    what = "1 batch that stood there is" if waiting == 1 else f"{waiting} batches there are"
    ask(
        books,
        PLACE_FAILED,
        "chef",
        area.id,
        recorded=f"{area.name} has failed. {why}",
        against=f"{what} on hold until you decide on each.",
        answers=("each of them is decided",),
    )


def undecided(books: Books, area: str) -> set[str]:
    """The batches that a failed place put on hold, and of which something still is."""
    return {batch for batch, place in waiting(books.connection, books.id) if place == area}


def close_if_decided(books: Books, batch: str, person: str) -> None:
    """Settle the question about a failed place once nothing it put on hold waits any more."""
    rows = every(books.connection, HeldWarmRow, house=books.id, batch=batch)
    for area in sorted({row.area for row in rows}):
        if not undecided(books, area):
            name = one(books.connection, AreaRow, house=books.id, id=area).name
            close(books, PLACE_FAILED, area, f"all that stood in {name} is decided", person)
