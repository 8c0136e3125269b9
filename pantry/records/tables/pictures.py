"""Pictures that people took: of a parcel, a date, what was wrong with it."""

from datetime import datetime

from sqlmodel import Field, SQLModel


class PictureRow(SQLModel, table=True):
    """One picture, as it was sent, with who sent it and when; never changed, kept with the books.

    What names it is in the journal: a picture comes after the command, or never.
    """

    __tablename__ = "picture"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    kind: str
    content: bytes
    person: str
    device: str | None = None
    at: datetime
