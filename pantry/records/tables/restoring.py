"""After a restore: which devices are awaited, what they handed in, which numbers are missing."""

from datetime import datetime

from sqlalchemy import BigInteger, Index
from sqlmodel import Field, SQLModel


class AwaitedRow(SQLModel, table=True):
    """A device that is to hand in all it holds since the last restore (SY7).

    `lost_epoch` and `position` are of the backup: places of that epoch behind that position were
    lost with the disk. `first` is the lowest number the device says it holds. While it has neither
    handed in nor been given up, the house gathers and takes nothing new.
    """

    __tablename__ = "awaited"

    house: str = Field(primary_key=True, foreign_key="house.id")
    device: str = Field(primary_key=True)
    lost_epoch: str
    position: int = Field(sa_type=BigInteger)
    since: datetime
    first: int | None = Field(default=None, sa_type=BigInteger)
    handed_in_at: datetime | None = None
    given_up_at: datetime | None = None
    given_up_by: str | None = None


class GatheredRow(SQLModel, table=True):
    """A command of a lost journal that a device still held, until it is replayed.

    `epoch` and `position` are its place in that journal, `at` when it was given that place, and
    `answer` what was said to it, all as the device kept them; a command that was never answered
    has no place.
    """

    __tablename__ = "gathered"
    __table_args__ = (Index("uq_gathered_device_n", "house", "device", "n", unique=True),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    device: str
    n: int = Field(sa_type=BigInteger)
    epoch: str
    position: int | None = Field(default=None, sa_type=BigInteger)
    at: datetime
    envelope: str
    answer: str | None = None


class MissingRow(SQLModel, table=True):
    """Numbers of a device, `first` to `last`, that no backup and no device holds any more."""

    __tablename__ = "missing"

    house: str = Field(primary_key=True, foreign_key="house.id")
    device: str = Field(primary_key=True)
    first: int = Field(primary_key=True, sa_type=BigInteger)
    last: int = Field(sa_type=BigInteger)
    noted_at: datetime
