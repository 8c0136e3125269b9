"""How the house knows who is there: passwords, sessions, ways in, what was tried in vain.

No secret stands here, only what a secret can be checked against. What is `PASSING` is of this
server and of these days: a backup leaves it out, so that a session that was ended cannot come back
with an old one.
"""

from datetime import datetime

from sqlmodel import Field, SQLModel

PASSING = "passing"
"""Marks, in a table's `info`, what no backup holds."""

_OF_THESE_DAYS = {"info": {PASSING: True}}


class PasswordRow(SQLModel, table=True):
    """What a person's password is checked against: an argon2id hash with its own salt."""

    __tablename__ = "password"

    house: str = Field(primary_key=True, foreign_key="house.id")
    person: str = Field(primary_key=True)
    hash: str
    set_at: datetime


class SessionRow(SQLModel, table=True):
    """Somebody is signed in; `id` is the SHA-256 of the token, which only the browser has.

    It ends at `expires_at`, which moves on while it is used, and never later than `ends_at`. One
    that was begun on a device of the house, by PIN or password, ends with the device's rights.
    """

    __tablename__ = "session"
    __table_args__ = (_OF_THESE_DAYS,)

    id: str = Field(primary_key=True)
    house: str = Field(foreign_key="house.id", index=True)
    person: str
    begun_at: datetime
    expires_at: datetime
    ends_at: datetime
    device: str | None = None


class WayInRow(SQLModel, table=True):
    """A one-time code with which a person sets a password; a new one takes the place of the old."""

    __tablename__ = "way_in"
    __table_args__ = (_OF_THESE_DAYS,)

    house: str = Field(primary_key=True, foreign_key="house.id")
    person: str = Field(primary_key=True)
    code: str
    expires_at: datetime


class PinRow(SQLModel, table=True):
    """What a person's PIN is checked against, on the devices of the house: an argon2id hash."""

    __tablename__ = "pin"

    house: str = Field(primary_key=True, foreign_key="house.id")
    person: str = Field(primary_key=True)
    hash: str
    set_at: datetime


class DeviceCodeRow(SQLModel, table=True):
    """A one-time code with which a device is enrolled; `id` is its SHA-256."""

    __tablename__ = "device_code"
    __table_args__ = (_OF_THESE_DAYS,)

    id: str = Field(primary_key=True)
    house: str = Field(foreign_key="house.id")
    name: str
    made_by: str
    expires_at: datetime


class DeviceKeyRow(SQLModel, table=True):
    """What a device shows to be known again; `id` is the SHA-256 of what only the device has."""

    __tablename__ = "device_key"

    id: str = Field(primary_key=True)
    house: str = Field(foreign_key="house.id", index=True)
    device: str


class WrongPinRow(SQLModel, table=True):
    """How many PINs in a row were wrong for one person on one device; `person` "" is nobody known.

    It is counted for each person, so that a right PIN of one's own gives no more guesses at
    another's; where one of them `locks`, the device is locked for all.
    """

    __tablename__ = "wrong_pin"
    __table_args__ = (_OF_THESE_DAYS,)

    house: str = Field(primary_key=True, foreign_key="house.id")
    device: str = Field(primary_key=True)
    person: str = Field(primary_key=True)
    wrong: int
    wait_until: datetime
    locks: bool


class DevicePersonRow(SQLModel, table=True):
    """Somebody who has come in on a device: what it hands in later may be theirs."""

    __tablename__ = "device_person"

    house: str = Field(primary_key=True, foreign_key="house.id")
    device: str = Field(primary_key=True)
    person: str = Field(primary_key=True)
    last_at: datetime


class TryRow(SQLModel, table=True):
    """How often in a row somebody, or an address, has been wrong, and until when it must wait.

    `id` is a hash of whom it is about: what strangers type is not kept.
    """

    __tablename__ = "sign_in_try"
    __table_args__ = (_OF_THESE_DAYS,)

    id: str = Field(primary_key=True)
    wrong: int
    last_at: datetime = Field(index=True)
    wait_until: datetime
