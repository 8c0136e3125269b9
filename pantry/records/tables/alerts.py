"""Alerts that were raised, who sees to them, and the letters that tell of them."""

from datetime import datetime

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel

from pantry.records.tables.access import PASSING


class AlertRow(SQLModel, table=True):
    """One turn of an alert: from when something had to be done for a deadline until it was.

    Attributes:
        id: of the delivery, or `nobody/ITEM`.
        stage: as far as it has risen.
        changed_at: when it last rose or closed.
        sequence: how often it has.
        why: it is closed; None: it is open.
    """

    __tablename__ = "alert"
    __table_args__ = (
        CheckConstraint("stage IN ('open', 'last_call', 'missed')", name="stage"),
        CheckConstraint("why IN ('ordered', 'not_needed', 'passed')", name="why"),
        Index("ix_alert_why", "house", "why"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    turn: int = Field(primary_key=True)
    supplier: str | None = None
    delivery_at: datetime | None = None
    order_by: datetime | None = None
    stage: str
    raised_at: datetime
    changed_at: datetime
    sequence: int = 0
    why: str | None = None


class AlertStageRow(SQLModel, table=True):
    """A stage of an alert that was told, once; `passed_over`: along with a later one."""

    __tablename__ = "alert_stage"
    __table_args__ = (CheckConstraint("stage IN ('open', 'last_call', 'missed')", name="stage"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    alert: str = Field(primary_key=True)
    turn: int = Field(primary_key=True)
    stage: str = Field(primary_key=True)
    raised_at: datetime
    passed_over: bool = False


class SeenToRow(SQLModel, table=True):
    """That somebody sees to an alert: nobody else need, and it stays open until it is done."""

    __tablename__ = "seen_to"

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    alert: str
    turn: int
    person: str
    at: datetime


class DigestRow(SQLModel, table=True):
    """At what hour of the house the day's letter goes out, as `HH:MM`; empty: none does."""

    __tablename__ = "digest"

    house: str = Field(primary_key=True, foreign_key="house.id")
    at: str


class NoLettersRow(SQLModel, table=True):
    """Somebody, by name, who wants no letters of alerts."""

    __tablename__ = "no_letters"

    house: str = Field(primary_key=True, foreign_key="house.id")
    person: str = Field(primary_key=True)


class LetterRow(SQLModel, table=True):
    """A letter that waits to be sent, or was; `id` is what it is known by, wherever it goes.

    It is of these days: no backup brings a letter back, which would be sent again. Its instants are
    those of the server's own clock.

    Attributes:
        next_try_at: from when on it may be tried; None: it is done with.
        sent_at: when the mail server had taken it; None, and done with: it was given up.
        said: what the mail server said against it last.
    """

    __tablename__ = "letter"
    __table_args__ = (
        Index("ix_letter_next_try_at", "house", "next_try_at"),
        {"info": {PASSING: True}},
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    person: str
    address: str
    subject: str
    text: str
    written_at: datetime
    tries: int = 0
    next_try_at: datetime | None = None
    sent_at: datetime | None = None
    said: str | None = None


class CalendarFeedRow(SQLModel, table=True):
    """A person's calendar; `id` is the SHA-256 of what its address ends with.

    It is of these days, as a session is: no backup brings an address back that was withdrawn.
    """

    __tablename__ = "calendar_feed"
    __table_args__ = ({"info": {PASSING: True}},)

    id: str = Field(primary_key=True)
    house: str = Field(foreign_key="house.id", index=True)
    person: str
    made_at: datetime
    read_at: datetime | None = None
