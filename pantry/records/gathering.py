"""A restored house hears every device before it goes on (SY7): who is awaited, and who is late."""

from datetime import datetime

from sqlalchemy import Connection

from pantry.records.rows import add, change, every, remove
from pantry.records.tables import AwaitedRow, DeviceRow


def await_devices(
    connection: Connection, house: str, lost_epoch: str, position: int, now: datetime
) -> list[str]:
    """Await every device that the backup knows and that is not revoked; answers their names.

    Args:
        connection: the restored books.
        house: its id.
        lost_epoch: the epoch the backup was made in.
        position: of the journal, up to which the backup reaches.
        now: when it is restored.
    """
    remove(connection, AwaitedRow, house=house)
    devices = every(connection, DeviceRow, house=house, revoked=False)
    rows = [
        AwaitedRow(house=house, device=row.id, lost_epoch=lost_epoch, position=position, since=now)
        for row in devices
    ]
    add(connection, *rows)
    return sorted(row.name for row in devices)


def silent(connection: Connection, house: str) -> list[AwaitedRow]:
    """The devices that hold everybody up; while there is one, the house gathers."""
    return [
        row
        for row in every(connection, AwaitedRow, house=house, handed_in_at=None)
        if row.given_up_at is None
    ]


def heard(connection: Connection, house: str, device: str, **to: object) -> None:
    """Note what became of a device that is awaited."""
    change(connection, AwaitedRow, {"house": house, "device": device}, **to)


def names(connection: Connection, house: str, rows: list[AwaitedRow]) -> list[str]:
    """What people call the devices of these rows, in the order of the alphabet."""
    called = {row.id: row.name for row in every(connection, DeviceRow, house=house)}
    return sorted(called.get(row.device, row.device) for row in rows)
