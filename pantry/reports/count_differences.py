"""What the counts of the last months found otherwise than the books had it, with why (LG3)."""

from datetime import timedelta

from pantry.records import accounts
from pantry.records.costs import cost_between
from pantry.records.read.counts import differences
from pantry.records.rows import among
from pantry.records.tables import JournalRow, MovementRow, QuestionRow
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View

LOOK_BACK = timedelta(days=92)
"""A season, so that what is counted at its turn is in it."""


def count_differences(view: View) -> list[Row]:
    """A row for each difference that a count of the last three months posted, the newest first.

    What was taken back is left out. What was less is below nothing, in quantity and in money.
    """
    found = differences(view.connection, view.id, view.now - LOOK_BACK)
    ids = [_question(moved) for moved, _ in found]
    asked = among(view.connection, QuestionRow, view.id, "id", ids)
    answers = {row.id: row.answer for row in asked}
    return [_row(view, moved, count, answers.get(_question(moved))) for moved, count in found]


def _question(moved: MovementRow) -> str:
    return f"count_difference|{moved.command}|{moved.batch}"


def _row(view: View, moved: MovementRow, count: JournalRow, answer: str | None) -> Row:
    batch = view.every_batch[moved.batch]
    is_less = moved.target == accounts.COUNT_DIFFERENCE
    place = accounts.place(moved.source if is_less else moved.target)
    sign = -1 if is_less else 1
    return {
        "area": view.areas.get(place, place),
        "item": view.item_name(batch.item),
        "batch": batch.id,
        "label": batch.label,
        "at": instant(moved.at),
        "person": count.person,
        "command": count.id,
        "difference": amount(sign * moved.quantity, view.items[batch.item]),
        "reason": moved.reason or "counted",
        "explained": answer,
        "value": money(sign * cost_between(batch, 0, moved.quantity), view),
    }
