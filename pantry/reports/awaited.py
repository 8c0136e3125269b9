"""Which devices have not handed in what they hold since the house was restored (SY7)."""

from pantry.records.rows import every
from pantry.records.tables import AwaitedRow, DeviceRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View


def awaited(view: View) -> list[Row]:
    """A row for each device, by name: since when, and whether the house went on without it."""
    called = {row.id: row.name for row in every(view.connection, DeviceRow, house=view.id)}
    rows = every(view.connection, AwaitedRow, house=view.id, handed_in_at=None)
    return [
        {
            "device": row.device,
            "name": called.get(row.device, row.device),
            "since": instant(row.since),
            "went_on_at": instant(row.given_up_at),
        }
        for row in sorted(rows, key=lambda row: called.get(row.device, row.device))
    ]
