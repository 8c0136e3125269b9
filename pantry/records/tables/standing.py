"""Standing orders: what a supplier brings of itself on its weekdays, until it is told otherwise."""

from datetime import date, datetime

from sqlmodel import Field, SQLModel


class StandingOrderRow(SQLModel, table=True):
    """That a supplier brings something of itself; `through`: orders are written up to that day.

    `when_empty`: it comes for an empty house, too.
    """

    __tablename__ = "standing_order"

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    when_empty: bool = False
    through: date | None = None
    person: str
    at: datetime


class StandingLineRow(SQLModel, table=True):
    """What comes on a weekday (0 is Monday): so many of a pack, or something in words."""

    __tablename__ = "standing_line"

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    weekday: int = Field(primary_key=True)
    number: int = Field(primary_key=True)
    pack: str | None = None
    packs: int = 0
    words: str | None = None
    amount: str | None = None


class StandingDeliveryRow(SQLModel, table=True):
    """The order that was written for one day of a standing order: once, whatever becomes of it.

    `on` is the day of the supplier's week; the delivery may have moved. `version` is the order's
    that the standing order made: an order that has moved on since is somebody's own.
    """

    __tablename__ = "standing_delivery"

    house: str = Field(primary_key=True, foreign_key="house.id")
    supplier: str = Field(primary_key=True)
    on: date = Field(primary_key=True)
    purchase_order: str
    version: int
