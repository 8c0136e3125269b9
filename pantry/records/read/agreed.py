"""What was agreed to, and asked, of dishes that somebody cannot eat (AL3)."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from sqlalchemy import Connection

from pantry.records.rows import every, grouped
from pantry.records.tables import OverrideRow, QuestionRow


class Agreed(NamedTuple):
    """By service: what was agreed to by name, and what was ever asked, the oldest first."""

    overrides: Mapping[str, Sequence[OverrideRow]]
    asked: Mapping[str, Sequence[QuestionRow]]


def agreed(connection: Connection, house: str) -> Agreed:
    """All of it of a house."""
    questions = every(connection, QuestionRow, house=house, kind="allergen")
    by_time = sorted(questions, key=lambda row: (row.opened_at, row.id))
    return Agreed(
        grouped(every(connection, OverrideRow, house=house), lambda row: row.service),
        grouped(by_time, lambda row: row.about.partition("|")[0]),
    )
