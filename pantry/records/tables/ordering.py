"""What is kept of orders beside their lines: free lines, sending, answers, prices, the budget."""

from datetime import datetime

from sqlalchemy import BigInteger, Index
from sqlmodel import Field, SQLModel


class FreeLineRow(SQLModel, table=True):
    """A line of an order for what is no item, in words; `asked` is what the back door asked for."""

    __tablename__ = "free_line"

    house: str = Field(primary_key=True, foreign_key="house.id")
    purchase_order: str = Field(primary_key=True)
    number: int = Field(primary_key=True)
    words: str
    amount: str | None = None
    asked: str | None = None


class OrderBeforeRow(SQLModel, table=True):
    """How an order stood before a command changed it, as JSON, so that it can be taken back.

    `version` is the one that the command made. A row stands as long as its command does.
    """

    __tablename__ = "order_before"
    __table_args__ = (Index("ix_order_before_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    purchase_order: str
    kind: str
    version: int
    before: str


class OrderSentRow(SQLModel, table=True):
    """That an order was given to its supplier: how, to whom, by whom; `version` is what it made."""

    __tablename__ = "order_sent"
    __table_args__ = (Index("ix_order_sent_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    purchase_order: str
    version: int
    how: str
    to_whom: str
    words: str | None = None
    person: str
    at: datetime


class SupplierAnswerRow(SQLModel, table=True):
    """What a supplier said of an order; `moved_from` where it comes at another time than asked."""

    __tablename__ = "supplier_answer"
    __table_args__ = (Index("ix_supplier_answer_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    purchase_order: str
    said_by: str | None = None
    words: str | None = None
    moved_from: datetime | None = None
    person: str
    at: datetime


class AnsweredLineRow(SQLModel, table=True):
    """What a supplier said of one line: so many of the packs ordered come, and what comes instead.

    Prices in minor units for one pack; `price` where it is another than `price_before`.
    """

    __tablename__ = "answered_line"

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    pack: str = Field(primary_key=True)
    ordered: int
    packs: int
    instead: str | None = None
    instead_packs: int | None = None
    price_before: int = Field(sa_type=BigInteger)
    price: int | None = Field(default=None, sa_type=BigInteger)
    words: str | None = None


class PackPriceRow(SQLModel, table=True):
    """That a pack's price changed, in minor units; it stands as long as its command does."""

    __tablename__ = "pack_price"
    __table_args__ = (Index("ix_pack_price_pack", "house", "pack"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    pack: str = Field(primary_key=True)
    before: int = Field(sa_type=BigInteger)
    price: int = Field(sa_type=BigInteger)
    at: datetime


class BudgetRow(SQLModel, table=True):
    """What the house means to spend on deliveries in a week, in minor units; None: no budget."""

    __tablename__ = "budget"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    amount: int | None = Field(default=None, sa_type=BigInteger)
    version: int = 1
    last_command: str = ""
