"""Every command with its answer, every numbered change, every question."""

from datetime import datetime

from sqlalchemy import BigInteger, CheckConstraint, Index
from sqlmodel import Field, SQLModel


class JournalRow(SQLModel, table=True):
    """One command at its own position, refused ones included, chained by hash (SY6, SY11).

    `envelope` is the command as it came, canonical JSON; `answer` is what was answered, and what
    the same id gets again.
    """

    __tablename__ = "journal"
    __table_args__ = (
        CheckConstraint("outcome IN ('applied', 'refused', 'conflict', 'kept')", name="outcome"),
        Index("uq_journal_command", "house", "id", unique=True),
        Index("uq_journal_device_n", "house", "device", "n", unique=True),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    position: int = Field(primary_key=True, sa_type=BigInteger)
    id: str
    kind: str
    at: datetime
    recorded_at: datetime
    person: str
    device: str | None = None
    n: int | None = Field(default=None, sa_type=BigInteger)
    envelope: str
    outcome: str
    answer: str
    chain: str


class ChangeRow(SQLModel, table=True):
    """Something is different now: the next number of the house's one sequence (SY6)."""

    __tablename__ = "change"
    __table_args__ = (Index("ix_change_position", "house", "position"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    number: int = Field(primary_key=True, sa_type=BigInteger)
    position: int = Field(sa_type=BigInteger)
    what: str
    key: str


class QuestionRow(SQLModel, table=True):
    """What the records contradict and a person must settle, with at most three answers."""

    __tablename__ = "question"
    __table_args__ = (CheckConstraint("owner IN ('porter', 'chef', 'manager')", name="owner"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    kind: str
    owner: str
    about: str
    recorded: str
    against: str
    answers: str
    opened_at: datetime
    opened_by: str
    settled_at: datetime | None = None
    settled_by: str | None = None
    answer: str | None = None
    version: int = 1
    last_command: str = ""
