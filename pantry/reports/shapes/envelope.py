"""What stands around the rows of every report."""

from typing import Generic, TypeVar

from pantry.reports.shapes.notice import NoticeRow
from pantry.reports.shapes.written import Duration, Instant, Number, Shape

Row = TypeVar("Row")


class Report(Shape, Generic[Row], frozen=True):
    """Rows with what they are of: the house by name, its IANA time zone, the instant."""

    schema: Number
    house: str
    zone: str
    as_of: Instant
    position: Number
    rows: list[Row]


class NoticeReport(Report[NoticeRow], frozen=True):
    """The rows of notice, and what notice the menu really needs; null: no notice would do."""

    needed_by_menu: Duration | None
