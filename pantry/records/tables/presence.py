"""What people said of who is in the house: each saying a row, the last of a thing stands."""

from datetime import date, datetime

from sqlalchemy import BigInteger, CheckConstraint
from sqlmodel import Field, SQLModel


class StayRow(SQLModel, table=True):
    """Who stays and eats at a table, from when to when; `heads` 0 where they do not come.

    `first_at` and `last_at` are a meal, a wall time or empty. `number` is the place in the journal.
    """

    __tablename__ = "stay"
    __table_args__ = (CheckConstraint("heads >= 0", name="heads"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    command: str = Field(primary_key=True)
    number: int = Field(sa_type=BigInteger)
    who: str
    heads: int
    dining_table: str
    first: date
    first_at: str = ""
    last: date | None = None
    last_at: str = ""
    said_by: str
    said_at: datetime


class AwayRow(SQLModel, table=True):
    """Who of a table eats elsewhere; `meal` empty for all of them, `heads` 0 where nobody does."""

    __tablename__ = "away"
    __table_args__ = (CheckConstraint("heads >= 0", name="heads"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    command: str = Field(primary_key=True)
    number: int = Field(sa_type=BigInteger)
    who: str
    heads: int
    dining_table: str
    first: date
    last: date
    meal: str = ""
    said_by: str
    said_at: datetime


class RotaRow(SQLModel, table=True):
    """How many of a table eat when: a JSON list of `{heads, weekday or on, meal}`."""

    __tablename__ = "rota"

    house: str = Field(primary_key=True, foreign_key="house.id")
    dining_table: str = Field(primary_key=True)
    command: str = Field(primary_key=True)
    number: int = Field(sa_type=BigInteger)
    lines: str
    said_by: str
    said_at: datetime
