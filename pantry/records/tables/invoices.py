"""Invoices of suppliers: what was billed, what was taken off, what was agreed of differences."""

from datetime import date, datetime

from sqlalchemy import BigInteger, CheckConstraint, Index
from sqlmodel import Field, SQLModel


class InvoiceRow(SQLModel, table=True):
    """An invoice as it was printed; `id` is the command that recorded it, `total` minor units.

    It is never edited: one that was recorded wrong is withdrawn, and recorded again.
    """

    __tablename__ = "invoice"
    __table_args__ = (Index("ix_invoice_supplier", "house", "supplier"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    supplier: str
    number: str
    dated: date
    total: int = Field(sa_type=BigInteger)
    person: str
    at: datetime
    withdrawn_at: datetime | None = None
    withdrawn_by: str | None = None
    withdrawn_because: str | None = None
    version: int = 1
    last_command: str = ""


class InvoiceOrderRow(SQLModel, table=True):
    """That an invoice is for an order."""

    __tablename__ = "invoice_order"
    __table_args__ = (Index("ix_invoice_order_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    invoice: str = Field(primary_key=True)
    purchase_order: str = Field(primary_key=True)


class InvoiceLineRow(SQLModel, table=True):
    """A line of an invoice: packs of an item, or in words with what it is for; minor units.

    `quantity` is how much those packs were when it was recorded, in thousandths of the item's base
    unit; of what nobody counts, of a pack.
    """

    __tablename__ = "invoice_line"
    __table_args__ = (
        CheckConstraint("charge_for IN ('delivery', 'minimum', 'tax', 'other')", name="charge_for"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    invoice: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    item: str | None = None
    pack: str | None = None
    packs: int | None = None
    quantity: int | None = Field(default=None, sa_type=BigInteger)
    charge_for: str | None = None
    words: str | None = None
    amount: int = Field(sa_type=BigInteger)


class InvoiceCreditRow(SQLModel, table=True):
    """What the supplier took off an invoice, in minor units; `credit` where one was expected."""

    __tablename__ = "invoice_credit"
    __table_args__ = (Index("ix_invoice_credit_credit", "house", "credit"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    invoice: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    credit: str | None = None
    note: str | None = None
    amount: int = Field(sa_type=BigInteger)


class InvoiceAgreedRow(SQLModel, table=True):
    """What was agreed of one difference of an invoice, as long as it is that many minor units."""

    __tablename__ = "invoice_agreed"
    __table_args__ = (CheckConstraint("agreed IN ('paid', 'credit')", name="agreed"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    invoice: str = Field(primary_key=True)
    difference: str = Field(primary_key=True)
    amount: int = Field(sa_type=BigInteger)
    agreed: str
    words: str | None = None
    command: str
    person: str
    at: datetime
