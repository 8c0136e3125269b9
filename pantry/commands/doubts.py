"""What is asked when something was taken that, by the books or the rules, could not be (LG3, SL2).

The fact is recorded all the same: it happened.
"""

from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.questions import ask
from pantry.records.rows import one
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.house_time import write_instant
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit


def ask_about_overdraw(books: Books, batch: BatchRow, source: str, left: int) -> None:
    """A shelf cannot hold less than nothing; `left` is what the books now have there."""
    item = one(books.connection, ItemRow, house=books.id, id=batch.item)
    lacking = show(-left, BaseUnit(item.base_unit))
    ask(
        books,
        "overdrawn",
        "chef",
        f"{batch.id}|{source}",
        recorded=f"{item.name}, batch {batch.label}: {lacking} more was taken from "
        f"{accounts.place(source)} than the books had there.",
        against="A shelf cannot hold less than nothing.",
        answers=("count it", "another batch was used", "the amount was wrong"),
    )


def ask_about_use(books: Books, batch: BatchRow, movement: Movement) -> None:
    """Nobody uses what is on hold or recalled, or what is past its usable until (SL2)."""
    against = []
    if accounts.kind(movement.source) == "hold":
        against.append("It was on hold.")
    if batch.recalled:
        against.append("It is recalled.")
    if batch.usable_until is not None and batch.usable_until < movement.at:
        against.append(f"It could be used until {write_instant(batch.usable_until)}.")
    if against:
        ask(
            books,
            "unsafe_use",
            "chef",
            batch.id,
            recorded=f"Batch {batch.label} was taken out or served.",
            against=" ".join(against),
            answers=("it was not served", "it was served", "the record is wrong"),
        )
