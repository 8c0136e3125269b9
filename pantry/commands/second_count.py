"""A second count, which comes before what matters follows a first one that was far off (LG3)."""

from pantry.commands.counting import Counting
from pantry.commands.parts import CountedPart
from pantry.records import questions
from pantry.records.read import stock
from pantry.records.read.worth import worth_by_item
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.count_differences import of_high_value
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit

AGAIN = "count_again"
"""The kind of question that asks for a second count."""


def is_awaited(
    counting: Counting, item: ItemRow, batch: BatchRow, found: int, line: CountedPart
) -> bool:
    """Whether the books wait for a second count; if so that is asked, and nothing is posted.

    Only of what is of high risk or high value, and only where the line calls itself a first count.
    Whatever is counted while that is asked is the second count, whoever gives it. What the books
    have is not told with the question: a second count is blind, too.
    """
    books = counting.books
    about = counting.about(batch)
    if line.second is not False or questions.is_open(books, AGAIN, about):
        return False
    if not item.high_risk and not _is_of_high_value(counting, item):
        return False
    unit = BaseUnit(item.base_unit)
    questions.ask(
        books,
        AGAIN,
        "porter",
        about,
        recorded=f"{item.name}, batch {batch.label}: {counting.given.person} counted "
        f"{show(found, unit)} in {counting.area.name}.",
        against="The books have another amount. They follow once it was counted a second time, "
        "best by somebody else.",
        answers=("leave the books as they are",),
    )
    return True


def _is_of_high_value(counting: Counting, item: ItemRow) -> bool:
    books = counting.books
    rows = stock.batch_rows(books.connection, books.id)
    worth = worth_by_item(rows, stock.standing(books.connection, books.id))
    return item.id in of_high_value(books.lives.policy, worth)
