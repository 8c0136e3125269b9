"""Hold, release, recall, set aside: what keeps stock from use, and what frees it again."""

from collections.abc import Callable
from datetime import datetime

from pantry.commands import failed_places, naming
from pantry.commands.decisions import Hold, Recall, Release, SetAside
from pantry.commands.given import Given
from pantry.commands.shelf import home, take
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import close
from pantry.records.rows import among, change, every
from pantry.records.tables import BatchParentRow, BatchRow, ReceiptRow
from pantry.refusals import NotNow, NotThere, UnsafeFood, declare
from pantry.rules.house_time import write_instant
from pantry.rules.safety import Verdict
from pantry.rules.temperature import write_temperature

NOTHING_THERE = declare("nothing_there", "Nothing of the batch stands there.")
RECALLED = declare("recalled", "The batch is recalled and is not released.")
PAST_USE = declare("past_use", "The batch may not be used any more.")
TOO_WARM = declare("too_warm", "The batch came in past the last limit for its temperature.")
LOT_UNKNOWN = declare("lot_unknown", "No batch of that lot is known.")


def hold(books: Books, given: Given[Hold]) -> None:
    """All that stands of a batch, wherever it does, waits for a person.

    Raises:
        NotThere: `batch_unknown`.
        NotNow: `nothing_there`.
    """
    batch = naming.batch(books, given.body.batch)
    if not put_on_hold(books, given.at, batch, given.body.reason):
        raise _nothing(batch, "anywhere that is not on hold already")


def release(books: Books, given: Given[Release]) -> None:
    """What is on hold of a batch may be used after all, as long as it is in date.

    Raises:
        NotThere: `batch_unknown`.
        NotNow: `nothing_there`, `recalled`.
        UnsafeFood: `past_use`, `too_warm`: nobody releases what came past the policy's last limit.
    """
    batch = naming.batch(books, given.body.batch)
    if batch.recalled:
        raise NotNow(
            RECALLED,
            f"Batch {batch.label} is recalled.",
            "Send it back or throw it away.",
            value=batch.label,
            field="body.batch",
        )
    if batch.usable_until is not None and batch.usable_until < books.now:
        raise UnsafeFood(
            PAST_USE,
            f"Batch {batch.label} could be used until {write_instant(batch.usable_until)}.",
            "Throw it away.",
            value=batch.label,
            field="body.batch",
        )
    _refuse_too_warm(books, batch)
    if not _put(books, given.at, batch, {"hold"}, accounts.area, given.body.reason):
        raise _nothing(batch, "on hold")
    for kind in ("on_hold", "found", "unsafe"):
        close(books, kind, batch.id, "it was released", given.person)
    failed_places.close_if_decided(books, batch.id, given.person)


def _refuse_too_warm(books: Books, batch: BatchRow) -> None:
    past = {"house": books.id, "batch": batch.id, "warmth": Verdict.REFUSE.value}
    for receipt in every(books.connection, ReceiptRow, **past):
        raise UnsafeFood(
            TOO_WARM,
            f"Batch {batch.label} came at {write_temperature(receipt.temperature_tenths or 0)}.",
            "Send it back or throw it away.",
            value=batch.label,
            field="body.batch",
        )


def recall(books: Books, given: Given[Recall]) -> None:
    """Every batch of the lot goes on hold, whatever it was promised to, and is not used again.

    So does all that was made of it, however many makings later.

    Raises:
        NotThere: `lot_unknown`, `item_unknown`.
    """
    body = given.body
    batches = every(books.connection, BatchRow, house=books.id, lot=body.lot)
    if body.item is not None:
        item = naming.item(books, body.item).id
        batches = [batch for batch in batches if batch.item == item]
    if not batches:
        raise NotThere(
            LOT_UNKNOWN,
            f"No batch of lot {body.lot!r} is known.",
            "Read the lot off the notice again; look also for decanted goods without a lot.",
            value=body.lot,
            field="body.lot",
        )
    for batch in _with_all_made_of(books, batches):
        change(books.connection, BatchRow, {"house": books.id, "id": batch.id}, recalled=True)
        books.note("batch", batch.id)
        books.touched.add(batch.item)
        put_on_hold(books, given.at, batch, f"recalled: {body.reason}")


def set_aside(books: Books, given: Given[SetAside]) -> None:
    """So much of a batch is kept for the day everything fails, or is free again.

    Raises:
        NotThere: an unknown batch or area.
        UnreadableInput: the quantity cannot be read.
        NotNow: `nothing_there`: so much does not stand there.
    """
    body = given.body
    batch = naming.batch(books, body.batch)
    quantity = naming.quantity(books, body.quantity, naming.item(books, batch.item))
    place = naming.area(books, body.area).id
    source, target = accounts.area(place), accounts.emergency(place)
    if not body.kept:
        source, target = target, source
    if ledger.standing(books, batch.id).get(source, 0) < quantity:
        raise _nothing(batch, f"so much in {body.area}")
    take(books, batch, Movement(batch.id, quantity, source, target, given.at))


def put_on_hold(books: Books, at: datetime, batch: BatchRow, reason: str) -> bool:
    """Put on hold what stands of a batch, what was taken out included; whether there was any."""
    kinds = {"area", "kitchen", accounts.EMERGENCY}
    return _put(books, at, batch, kinds, accounts.hold, reason)


def _put(
    books: Books,
    at: datetime,
    batch: BatchRow,
    kinds: set[str],
    onto: Callable[[str], str],
    reason: str,
) -> bool:
    """Move what stands of a batch on accounts of some kinds onto others, place by place."""
    stands = {
        account: quantity
        for account, quantity in ledger.standing(books, batch.id).items()
        if accounts.kind(account) in kinds and quantity > 0
    }
    for account, quantity in stands.items():
        is_out = accounts.kind(account) == "kitchen"
        place = home(books, batch) if is_out else accounts.place(account)
        movement = Movement(batch.id, quantity, account, onto(place), at, reason=reason)
        take(books, batch, movement)
    return bool(stands)


def _with_all_made_of(books: Books, batches: list[BatchRow]) -> list[BatchRow]:
    """These batches, and every batch that was made, opened, thawed or decanted from one of them."""
    found = {batch.id: batch for batch in batches}
    waiting = sorted(found)
    while waiting:
        links = among(books.connection, BatchParentRow, books.id, "parent", waiting)
        waiting = sorted({link.batch for link in links} - found.keys())
        rows = among(books.connection, BatchRow, books.id, "id", waiting)
        found |= {row.id: row for row in rows}
    return list(found.values())


def _nothing(batch: BatchRow, where: str) -> NotNow:
    return NotNow(
        NOTHING_THERE,
        f"Nothing of batch {batch.label} stands {where}.",
        "Look where it stands now.",
        value=batch.label,
        field="body.batch",
    )
