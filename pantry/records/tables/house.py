"""The house itself: its settings, storage areas, people, devices, policy overrides."""

from datetime import datetime

from sqlalchemy import BigInteger, CheckConstraint
from sqlmodel import Field, SQLModel


class HouseRow(SQLModel, table=True):
    """One house; its row is what a writer locks, and carries the heads of its sequences (SY6)."""

    __tablename__ = "house"
    __table_args__ = (
        CheckConstraint("unit_system IN ('us', 'metric', 'imperial')", name="unit_system"),
        CheckConstraint("decimal_mark IN ('.', ',')", name="decimal_mark"),
    )

    id: str = Field(primary_key=True)
    name: str = Field(unique=True)
    zone: str
    currency: str
    unit_system: str
    decimal_mark: str = "."
    notice: str
    warning: str
    last_call: str
    receiving_margin: str
    policy: str
    allergen_list: str
    people: int = 0
    version: int = 1
    last_command: str = ""
    epoch: str
    position: int = Field(default=0, sa_type=BigInteger)
    change: int = Field(default=0, sa_type=BigInteger)
    backed_up: int = Field(default=0, sa_type=BigInteger)
    chain: str = ""


class AreaRow(SQLModel, table=True):
    """A storage area; temperature limits in tenths of a degree Celsius."""

    __tablename__ = "area"
    __table_args__ = (CheckConstraint("kind IN ('ambient', 'chilled', 'frozen')", name="kind"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    kind: str
    min_tenths: int | None = None
    max_tenths: int | None = None
    shelf_order: int = 0


class AnswersForRow(SQLModel, table=True):
    """The one table that somebody answers for who chooses menus; without a row: for all."""

    __tablename__ = "answers_for"

    house: str = Field(primary_key=True, foreign_key="house.id")
    person: str = Field(primary_key=True)
    dining_table: str


class PersonRow(SQLModel, table=True):
    """Somebody who may give commands, and the role that says which."""

    __tablename__ = "person"
    __table_args__ = (
        CheckConstraint("role IN ('porter', 'chef', 'manager', 'approver')", name="role"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    role: str
    email: str | None = None
    active: bool = True


class DeviceRow(SQLModel, table=True):
    """A device whose outbox numbers its commands; `highest` is the last number kept (SY2)."""

    __tablename__ = "device"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    highest: int = Field(default=0, sa_type=BigInteger)
    revoked: bool = False
    enrolled_at: datetime


class DeviceHeardRow(SQLModel, table=True):
    """When a device was last heard of, and the last number it said it had made by then (SY11)."""

    __tablename__ = "device_heard"

    house: str = Field(primary_key=True, foreign_key="house.id")
    device: str = Field(primary_key=True)
    made: int = Field(sa_type=BigInteger)
    at: datetime


class PolicyOverrideRow(SQLModel, table=True):
    """A number of the food-safety policy that the house set otherwise, by whom and why (SL5)."""

    __tablename__ = "policy_override"

    house: str = Field(primary_key=True, foreign_key="house.id")
    name: str = Field(primary_key=True)
    value: int
    person: str
    reason: str
