"""Rows of the open questions, and of what has changed."""

from pantry.reports.shapes.written import Instant, Number, Owner, Shape


class QuestionRow(Shape, frozen=True):
    """A question nobody has settled; version 0: time alone raised it."""

    question: str
    kind: str
    owner: Owner
    about: str
    recorded: str
    against: str
    answers: list[str]
    opened_at: Instant
    version: Number


class ChangeRow(Shape, frozen=True):
    """A numbered change of the house's one sequence (SY6)."""

    number: Number
    position: Number
    what: str
    key: str
