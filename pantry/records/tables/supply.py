"""Suppliers with calendars and packs, orders, harvest estimates."""

from datetime import date, datetime

from sqlalchemy import BigInteger, CheckConstraint, Index
from sqlmodel import Field, SQLModel


class SupplierRow(SQLModel, table=True):
    """Who sells, and on what terms; money in minor units."""

    __tablename__ = "supplier"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    email: str | None = None
    minimum: int = Field(default=0, sa_type=BigInteger)
    charge: int = Field(default=0, sa_type=BigInteger)
    may_fail: bool = False
    send_minutes: int = 0
    version: int = 1
    last_command: str = ""


class SupplierTermsRow(SQLModel, table=True):
    """In whose time and with which holidays a supplier's calendar is, and what else was agreed.

    `zone` None: the house's. `country` and `subdivision` say whose public holidays are kept,
    `holiday_delivery` what becomes of a delivery on one. `fails_percent`: of a hundred deliveries
    so many do not come. `order_given` is how they take orders, `order_words` in their own words:
    an alert and the order desk say so. `substitution` stands on the order and is looked at when
    another thing came; `fallback_shop` is the shop run that is a way out of what they miss.
    """

    __tablename__ = "supplier_terms"
    __table_args__ = (
        CheckConstraint(
            "holiday_delivery IN ('falls_away', 'day_before', 'day_after')",
            name="holiday_delivery",
        ),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    zone: str | None = None
    country: str | None = None
    subdivision: str | None = None
    holiday_delivery: str = "falls_away"
    holiday_orders: bool = False
    fails_percent: int | None = None
    order_given: str | None = None
    order_words: str | None = None
    substitution: str | None = None
    fallback_shop: str | None = None


class DeliveryRuleRow(SQLModel, table=True):
    """One delivery of a supplier's week, local wall times as `HH:MM`."""

    __tablename__ = "delivery_rule"

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    weekday: int = Field(primary_key=True)
    at: str = Field(primary_key=True)
    cutoff_days_before: int
    cutoff_at: str


class ClosureRow(SQLModel, table=True):
    """An exception of a supplier's calendar, through `until`; `command` called a delivery off."""

    __tablename__ = "closure"
    __table_args__ = (CheckConstraint("what IN ('no_delivery', 'no_orders')", name="what"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    on: date = Field(primary_key=True)
    what: str = Field(primary_key=True)
    instead: date | None = None
    until: date | None = None
    reason: str | None = None
    command: str | None = None


class PackRow(SQLModel, table=True):
    """An item as a supplier sells it; `id` is `SUPPLIER/ITEM/slug of the pack's name`."""

    __tablename__ = "pack"
    __table_args__ = (Index("ix_pack_item", "house", "item"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    supplier: str
    item: str
    name: str
    quantity: int = Field(sa_type=BigInteger)
    sealed_quantity: int = Field(sa_type=BigInteger)
    price: int = Field(sa_type=BigInteger)
    gtin: str | None = None
    life_on_arrival_days: int | None = None
    contains: str | None = None
    may_contain: str | None = None
    version: int = 1
    last_command: str = ""


class OrderRow(SQLModel, table=True):
    """An order for one delivery of one supplier; `id` is `SUPPLIER/DATE` and a count if needed."""

    __tablename__ = "purchase_order"
    __table_args__ = (
        CheckConstraint("state IN ('open', 'received', 'cancelled')", name="state"),
        Index("ix_purchase_order_state", "house", "state"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    supplier: str
    delivery_at: datetime
    state: str = "open"
    reason: str | None = None
    version: int = 1
    last_command: str = ""


class OrderLineRow(SQLModel, table=True):
    """So many packs of an item on an order, and what has come of them, in thousandths."""

    __tablename__ = "order_line"
    __table_args__ = (CheckConstraint("packs > 0", name="packs"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    purchase_order: str = Field(primary_key=True)
    pack: str = Field(primary_key=True)
    item: str
    packs: int
    quantity: int = Field(sa_type=BigInteger)
    received: int = Field(default=0, sa_type=BigInteger)
    closed: bool = False


class HarvestRow(SQLModel, table=True):
    """What the garden is expected to give of an item between two dates."""

    __tablename__ = "harvest"

    house: str = Field(primary_key=True, foreign_key="house.id")
    item: str = Field(primary_key=True)
    first: date = Field(primary_key=True)
    last: date
    quantity: int = Field(sa_type=BigInteger)
    gathered: int = Field(default=0, sa_type=BigInteger)


class DriverLeftRow(SQLModel, table=True):
    """That the driver of an order's delivery has left: nothing more is awaited of it."""

    __tablename__ = "driver_left"
    __table_args__ = (Index("ix_driver_left_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    purchase_order: str
    supplier: str
    driver: str | None = None
    at: datetime


class CreditRow(SQLModel, table=True):
    """That a credit is expected: for an order line that did not come whole, or of an invoice.

    `id` is `ORDER|PACK`, or `INVOICE|DIFFERENCE`. What that of an order line is worth follows from
    the line, as long as goods may still come: `cost` is what the whole line was to cost. Of an
    invoice it is worth its `cost`, for what `words` say. `amount` and `note` are those of the
    supplier's credit note; a credit without a note is written off, for a `reason`.
    """

    __tablename__ = "credit"
    __table_args__ = (Index("ix_credit_order", "house", "purchase_order"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    purchase_order: str | None = None
    pack: str | None = None
    item: str | None = None
    supplier: str
    cost: int = Field(sa_type=BigInteger)
    opened_at: datetime
    opened_by: str
    settled_at: datetime | None = None
    settled_by: str | None = None
    amount: int | None = Field(default=None, sa_type=BigInteger)
    note: str | None = None
    reason: str | None = None
    version: int = 1
    last_command: str = ""
    invoice: str | None = None
    words: str | None = None
