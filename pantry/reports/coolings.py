"""What cools now, what must be reached by when, and what did not cool in time (SL5)."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from pantry.handbook.policies import CAUTION, Policy
from pantry.records.rows import every
from pantry.records.tables import BatchRow, CoolingReadingRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.cooling import Cooling, cooling
from pantry.rules.safety import Reading
from pantry.rules.temperature import degrees

_SHOWN = timedelta(days=2)
_HOT_FOR = timedelta(hours=8)
"""How long after its making a batch is offered that nobody has taken a temperature of."""


def coolings(view: View) -> list[Row]:
    """A row for each batch whose temperature was taken while it cooled, in the last two days.

    Beside them what was cooked a few hours ago and has no reading yet: its `outcome` is `unread`.
    What must be read next comes first. `from_c` and `stages` are what it is held against.
    """
    rows = every(view.connection, CoolingReadingRow, house=view.id)
    by_batch: dict[str, list[CoolingReadingRow]] = {}
    for row in sorted(rows, key=lambda row: (row.at, row.command)):
        by_batch.setdefault(row.batch, []).append(row)
    batches = view.every_batch if by_batch else {row.id: row for row in view.batches}
    found = [
        _row(view, batches[batch], taken)
        for batch, taken in by_batch.items()
        if taken[-1].at >= view.now - _SHOWN
    ]
    unread = [row for row in view.batches if row.id not in by_batch and may_be_hot(row, view.now)]
    found += [_row(view, row, []) for row in unread]
    return sorted(found, key=lambda row: (row["by"] is None, row["by"] or "", row["label"]))


def may_be_hot(row: BatchRow, now: datetime) -> bool:
    """Whether it was cooked so lately that it may not have cooled yet."""
    return bool(row.made_by) and row.cooked and row.since >= now - _HOT_FOR


def _row(view: View, batch: BatchRow, taken: Sequence[CoolingReadingRow]) -> Row:
    readings = [Reading(row.at, row.tenths) for row in taken]
    stands = cooling(view.policy, readings, view.now) if readings else None
    return {
        "batch": batch.id,
        "label": batch.label,
        "item": view.item_name(batch.item),
        **_stands(stands),
        "readings": [
            {
                "command": row.command,
                "at": instant(row.at),
                "temperature_c": degrees(row.tenths),
                "person": row.person,
            }
            for row in taken
        ],
        **_held_against(view.policy),
        "caution": CAUTION,
    }


def _stands(stands: Cooling | None) -> Row:
    if stands is None:
        return {"outcome": "unread", "stage": 0, "by": None, "to_c": None, "reason": None}
    return {
        "outcome": stands.outcome.value,
        "stage": stands.stage,
        "by": instant(stands.by) if stands.outcome.value == "running" else None,
        "to_c": degrees(stands.limit.amount),
        "reason": stands.reason,
    }


def _held_against(policy: Policy) -> Row:
    stages = [name for name in policy.names("cooling.cooked") if name != "from"]
    return {
        "from_c": degrees(policy.number("cooling.cooked.from").amount),
        "stages": [
            {
                "to_c": degrees(policy.number(f"cooling.cooked.{stage}.to").amount),
                "to": policy.number(f"cooling.cooked.{stage}.to").written,
                "within_minutes": policy.number(f"cooling.cooked.{stage}.within").amount,
                "source": policy.number(f"cooling.cooked.{stage}.within").source,
            }
            for stage in stages
        ],
    }
