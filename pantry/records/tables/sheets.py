"""Menus that were shown to the household, the links to them, and what was answered."""

from datetime import datetime

from sqlalchemy import BigInteger, Index
from sqlmodel import Field, SQLModel

from pantry.records.tables.access import PASSING


class SheetRow(SQLModel, table=True):
    """Services that were shown to the household; `dining_table` where all of them are of one."""

    __tablename__ = "sheet"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    recipient: str | None = None
    dining_table: str | None = None
    sent_by: str
    sent_at: datetime
    expires_at: datetime
    withdrawn_at: datetime | None = None
    version: int = 1
    last_command: str = ""


class SheetServiceRow(SQLModel, table=True):
    """One service of a sheet, in the order in which they are shown."""

    __tablename__ = "sheet_service"
    __table_args__ = (Index("ix_sheet_service_service", "house", "service"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    sheet: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    service: str


class SheetLinkRow(SQLModel, table=True):
    """The link to a sheet; `id` is the SHA-256 of what only the link has.

    It is of these days, as a session is: no backup brings a link back that was ended.
    """

    __tablename__ = "sheet_link"
    __table_args__ = ({"info": {PASSING: True}},)

    id: str = Field(primary_key=True)
    house: str = Field(foreign_key="house.id")
    sheet: str
    read_at: datetime | None = None


class MenuAnswerRow(SQLModel, table=True):
    """What the household answered to one service; the last stands, none is changed.

    Attributes:
        number: its place in the journal, so that the last is known.
        version: of the service's menu that was answered.
        courses: a JSON list, by course: what was picked, struck, put in its place.
        said_by: who answered, as they wrote it themselves.
    """

    __tablename__ = "menu_answer"
    __table_args__ = (Index("ix_menu_answer_service", "house", "service", "number"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    number: int = Field(sa_type=BigInteger)
    service: str
    sheet: str | None = None
    person: str
    said_by: str | None = None
    at: datetime
    version: int
    covers: int | None = None
    wish: str = ""
    courses: str = "[]"
