"""Probe checks and cleaning: what was done when, the latest first."""

from datetime import timedelta

from pantry.records.rows import every
from pantry.records.tables import CleaningRow, ProbeCheckRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.temperature import degrees

_DAYS = 90


def checks(view: View, days: int = _DAYS) -> list[Row]:
    """A row for each check of a probe and each cleaning of the last days."""
    since = view.now - timedelta(days=days)
    probes = every(view.connection, ProbeCheckRow, house=view.id)
    cleaned = every(view.connection, CleaningRow, house=view.id)
    rows = [_probe(row) for row in probes if row.at >= since]
    rows += [_cleaned(view, row) for row in cleaned if row.at >= since]
    return sorted(rows, key=lambda row: (row["at"], row["command"]), reverse=True)


def _probe(row: ProbeCheckRow) -> Row:
    ice, boiling = row.ice_tenths, row.boiling_tenths
    return {
        "kind": "probe",
        "what": row.probe,
        "area": None,
        "ice_c": None if ice is None else degrees(ice),
        "boiling_c": None if boiling is None else degrees(boiling),
        "is_right": row.is_right,
        "at": instant(row.at),
        "person": row.person,
        "command": row.command,
    }


def _cleaned(view: View, row: CleaningRow) -> Row:
    return {
        "kind": "cleaning",
        "what": row.what,
        "area": view.areas.get(row.area, row.area) if row.area else None,
        "ice_c": None,
        "boiling_c": None,
        "is_right": None,
        "at": instant(row.at),
        "person": row.person,
        "command": row.command,
    }
