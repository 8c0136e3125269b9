"""What was lost of which no batch in the books is known."""

from datetime import datetime

from sqlalchemy import BigInteger, CheckConstraint, Index
from sqlmodel import Field, SQLModel


class WasteWithoutBatchRow(SQLModel, table=True):
    """Food that was lost and stood in no batch: what came back from the table, a pot without label.

    `item` or `dish` is what it was, where the house has it; `what` says it in words, by the name it
    had then. A row stands as long as its command does.
    """

    __tablename__ = "waste_without_batch"
    __table_args__ = (
        CheckConstraint("unit IN ('g', 'ml', 'each')", name="unit"),
        Index("ix_waste_without_batch_at", "house", "at"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    what: str
    item: str | None = None
    dish: str | None = None
    quantity: int = Field(sa_type=BigInteger)
    unit: str
    reason: str
    destination: str
    at: datetime
    person: str
