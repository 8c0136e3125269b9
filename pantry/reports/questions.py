"""Open questions, each with its owner; those that time alone has raised included (LG5)."""

import json
from collections.abc import Iterable

from pantry.records import pictures
from pantry.records.rows import every
from pantry.records.tables import QuestionRow, ReceiptRow
from pantry.reports.came_short import CameShort
from pantry.reports.ran_out import RanOut
from pantry.reports.report import Row, instant
from pantry.reports.view import View


def questions(view: View) -> list[Row]:
    """A row for each question that nobody has settled, the oldest first."""
    rows = every(view.connection, QuestionRow, house=view.id)
    asked = {row.id for row in rows}
    still_open = [row for row in rows if row.settled_at is None]
    short = Short(view, still_open)
    found = [_row(view, row, short) for row in still_open]
    found.sort(key=lambda row: (row["opened_at"], row["question"]))
    return found + [
        _unserved(view, service)
        for service in sorted(view.lapsed)
        if f"unserved|{service}" not in asked
    ]


class Short:
    """What the open questions are short of, and for whom, worked out once for all of them."""

    def __init__(self, view: View, still_open: Iterable[QuestionRow]) -> None:
        """Of these questions."""
        out = frozenset(row.about for row in still_open if row.kind == "run_out")
        self._came_short, self._ran_out = CameShort(view), RanOut(view, out)

    def lines(self, row: QuestionRow) -> list[Row]:
        """What a question is short of; nothing where it is about something else."""
        if row.kind == "came_short":
            return self._came_short.lines(row.about)
        return self._ran_out.lines(row.about) if row.kind == "run_out" else []


def _row(view: View, row: QuestionRow, short: Short) -> Row:
    return {
        "question": row.id,
        "kind": row.kind,
        "owner": row.owner,
        "about": row.about,
        "recorded": row.recorded,
        "against": row.against,
        "answers": json.loads(row.answers),
        "opened_at": instant(row.opened_at),
        "version": row.version,
        "short": short.lines(row),
        "photos": pictures.named_by(view.connection, view.id, _commands(view, row)),
    }


def _commands(view: View, row: QuestionRow) -> list[str]:
    """The command that raised a question; of an order, all with which something of it came."""
    if row.kind != "came_short":
        return [row.opened_by]
    came = every(view.connection, ReceiptRow, house=view.id, purchase_order=row.about)
    return [row.opened_by, *(each.command for each in came)]


def _unserved(view: View, service: str) -> Row:
    """The question that the next command will open."""
    return {
        "question": f"unserved|{service}",
        "kind": "unserved",
        "owner": "chef",
        "about": service,
        "recorded": f"{service} was confirmed and its time has passed.",
        "against": "Nobody has recorded that it was served.",
        "answers": ["it was served as planned", "it did not take place"],
        "opened_at": instant(view.now),
        "version": 0,
        "short": [],
        "photos": [],
    }
