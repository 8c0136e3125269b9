"""Which batch a label is on, its own or a numbered one."""

from collections.abc import Mapping

from sqlalchemy import Connection

from pantry.records.rows import every, find
from pantry.records.tables import BatchRow, NumberedLabelRow
from pantry.rules.label_numbers import as_printed


def carrier(connection: Connection, house: str, label: str) -> BatchRow | None:
    """The batch that a label is on; a numbered label may be written without its hyphen."""
    found = _exactly(connection, house, label)
    if found is None and (printed := as_printed(label)) not in (None, label):
        return _exactly(connection, house, str(printed))
    return found


def _exactly(connection: Connection, house: str, label: str) -> BatchRow | None:
    own = find(connection, BatchRow, house=house, label=label)
    if own is not None:
        return own
    on = find(connection, NumberedLabelRow, house=house, label=label)
    return None if on is None else find(connection, BatchRow, house=house, id=on.batch)


def numbered_labels(connection: Connection, house: str) -> Mapping[str, list[str]]:
    """The numbered labels that were put on each batch beside its own, by the batch's id."""
    found: dict[str, list[str]] = {}
    for row in every(connection, NumberedLabelRow, house=house):
        found.setdefault(row.batch, []).append(row.label)
    return found
