"""Labels that are printed beforehand with numbers, and which batches have had a label printed."""

from datetime import datetime

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel


class NumberedLabelRow(SQLModel, table=True):
    """That a numbered label is on a batch, beside the batch's own; a batch may have several."""

    __tablename__ = "numbered_label"
    __table_args__ = (Index("ix_numbered_label_batch", "house", "batch"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    label: str = Field(primary_key=True)
    batch: str
    command: str
    at: datetime


class LabelRangeRow(SQLModel, table=True):
    """Numbers that a command reserved to be printed, the last of them included."""

    __tablename__ = "label_range"
    __table_args__ = (CheckConstraint("first <= last", name="order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    first: int = Field(primary_key=True)
    last: int
    command: str
    person: str
    at: datetime


class PrintedLabelRow(SQLModel, table=True):
    """When a label was last printed for a batch."""

    __tablename__ = "printed_label"

    house: str = Field(primary_key=True, foreign_key="house.id")
    batch: str = Field(primary_key=True)
    at: datetime
