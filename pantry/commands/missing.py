"""What was lost with the server's disk, as far as it can be known; the manager is asked (SY7)."""

from collections.abc import Sequence

from pantry.records.books import Books
from pantry.records.places import between, how_many, in_words
from pantry.records.questions import ask
from pantry.records.rows import add, change, every, one
from pantry.records.tables import AwaitedRow, DeviceRow, GatheredRow, MissingRow

_ANSWERS = ("recorded again", "it is known what they were", "nothing is missing")


def note_numbers(books: Books, device: str, rows: Sequence[GatheredRow]) -> None:
    """Note the numbers of a device that neither the backup nor the device has, and go on.

    Args:
        books: the books.
        device: its id.
        rows: all that was gathered of it.
    """
    row = one(books.connection, DeviceRow, house=books.id, id=device)
    heard = one(books.connection, AwaitedRow, house=books.id, device=device)
    held = [each.n for each in rows]
    runs = between(row.highest, held, heard.first)
    for first, last in runs:
        missing = MissingRow(
            house=books.id, device=device, first=first, last=last, noted_at=books.now
        )
        add(books.connection, missing)
    highest = max(row.highest, (heard.first or 1) - 1, *held, 0)
    change(books.connection, DeviceRow, {"house": books.id, "id": device}, highest=highest)
    if not runs:
        return
    numbers = in_words(runs)
    ask(
        books,
        "numbers_missing",
        "manager",
        f"{device}|{numbers}",
        recorded=f"{row.name} had handed in its records {numbers} before the house was restored.",
        against="Neither the backup nor the device has them any more.",
        answers=_ANSWERS,
    )


def ask_about_places(books: Books, rows: Sequence[GatheredRow]) -> None:
    """Ask once about the places of the lost journal that no device holds.

    Places behind the last that a device holds are not known at all.
    """
    awaited = next(iter(every(books.connection, AwaitedRow, house=books.id)))
    places = [
        row.position for row in rows if row.position is not None and row.epoch == awaited.lost_epoch
    ]
    runs = between(awaited.position, places)
    if not runs:
        return
    ask(
        books,
        "places_missing",
        "manager",
        f"{awaited.lost_epoch}|{awaited.position}",
        recorded=f"After its last backup the house had written down {how_many(runs)} more, "
        f"at {in_words(runs)} in its journal.",
        against="No device that has handed in holds them: they were given at a desk or by the "
        "command line, or by a device that never heard their answer and now gives them again.",
        answers=_ANSWERS,
    )
