"""The devices of the house: whose they are, when each was last heard of, what it still holds."""

from pantry.records.rows import every
from pantry.records.tables import (
    DeviceHeardRow,
    DevicePersonRow,
    DeviceRow,
    PersonRow,
    WrongPinRow,
)
from pantry.reports.report import Row, instant
from pantry.reports.view import View


def devices(view: View) -> list[Row]:
    """A row for each device, by name; `unsent` are the numbers it has made and not handed in."""
    of = {"house": view.id}
    heard = {row.device: row for row in every(view.connection, DeviceHeardRow, **of)}
    locked = {row.device for row in every(view.connection, WrongPinRow, **of) if row.locks}
    names = {row.id: row.name for row in every(view.connection, PersonRow, **of)}
    used = every(view.connection, DevicePersonRow, **of)
    rows = every(view.connection, DeviceRow, **of)
    return [
        {
            "id": row.id,
            "name": row.name,
            "enrolled_at": instant(row.enrolled_at),
            "heard_at": instant(heard[row.id].at) if row.id in heard else None,
            "unsent": max(0, heard[row.id].made - row.highest) if row.id in heard else 0,
            "people": sorted(names[each.person] for each in used if each.device == row.id),
            "locked": row.id in locked,
            "revoked": row.revoked,
        }
        for row in sorted(rows, key=lambda row: (row.revoked, row.name))
    ]
