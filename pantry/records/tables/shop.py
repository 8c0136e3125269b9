"""Shop runs, and what the back door asks the order desk for."""

from datetime import datetime

from sqlalchemy import BigInteger, Index
from sqlmodel import Field, SQLModel


class ShopRunRow(SQLModel, table=True):
    """That somebody went to a shop; `total` is what was paid in all, where it was said."""

    __tablename__ = "shop_run"
    __table_args__ = (Index("ix_shop_run_at", "house", "at"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    shop: str
    total: int | None = Field(default=None, sa_type=BigInteger)
    person: str
    at: datetime


class ShopRunLineRow(SQLModel, table=True):
    """What was bought: a batch of an item, or in words what the house has no item of.

    `cost` is what was said to have been paid for it; nothing else is known to have been.
    """

    __tablename__ = "shop_run_line"

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    batch: str | None = None
    words: str | None = None
    cost: int | None = Field(default=None, sa_type=BigInteger)


class AskedForRow(SQLModel, table=True):
    """What the back door asks for: an item that has run out, or something else in words.

    `id` is the command that asked; `level_before` is what an item that nobody counts was said to
    be at until then.
    """

    __tablename__ = "asked_for"
    __table_args__ = (Index("ix_asked_for_item", "house", "item"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    item: str | None = None
    words: str | None = None
    level_before: str | None = None
    person: str
    at: datetime
    closed_at: datetime | None = None
    closed_by: str | None = None
    version: int = 1
    last_command: str = ""
