"""Temperatures of places and of what cools, what was held because of them, probes, cleaning.

Temperatures are tenths of a degree Celsius. A row stands as long as its command does: whoever takes
the command back takes the row away, and the journal keeps both.
"""

from datetime import datetime

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel


class TemperatureRow(SQLModel, table=True):
    """The temperature of a storage area, how it stood to the limits then, and what was done."""

    __tablename__ = "temperature"
    __table_args__ = (
        CheckConstraint("warmth IN ('within', 'too_warm', 'too_cold')", name="warmth"),
        Index("ix_temperature_area", "house", "area", "at"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    area: str
    tenths: int
    warmth: str
    done: str | None = None
    note: str | None = None
    at: datetime
    person: str


class HeldWarmRow(SQLModel, table=True):
    """That a batch was put on hold because the place it stood in had failed, and by which reading.

    `since` is the last reading within the limits before, or the first of all.
    """

    __tablename__ = "held_warm"
    __table_args__ = (Index("ix_held_warm_area", "house", "area"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    batch: str = Field(primary_key=True)
    area: str
    since: datetime


class CoolingReadingRow(SQLModel, table=True):
    """A temperature of a batch that cools; whether the cooling had failed with it."""

    __tablename__ = "cooling_reading"
    __table_args__ = (Index("ix_cooling_reading_batch", "house", "batch"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    batch: str
    tenths: int
    failed: bool = False
    at: datetime
    person: str


class ProbeCheckRow(SQLModel, table=True):
    """What a probe showed in ice and water and in boiling water, and whether that was right."""

    __tablename__ = "probe_check"

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    probe: str
    ice_tenths: int | None = None
    boiling_tenths: int | None = None
    is_right: bool
    at: datetime
    person: str


class CleaningRow(SQLModel, table=True):
    """Something was cleaned, in a storage area or anywhere."""

    __tablename__ = "cleaning"

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    what: str
    area: str | None = None
    at: datetime
    person: str
