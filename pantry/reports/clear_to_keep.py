"""What stood in a cold place that failed and may be kept together, without a look at each (SL5)."""

from collections.abc import Sequence

from pantry.records import accounts
from pantry.records.rows import every
from pantry.records.tables import (
    CoolingReadingRow,
    HeldWarmRow,
    MovementRow,
    QuestionRow,
    TemperatureRow,
)
from pantry.reports.coolings import may_be_hot
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.cold_places import Warmth
from pantry.rules.cooling import Outcome, cooling
from pantry.rules.safety import Reading, Verdict


def doubts(view: View, waiting: Sequence[Row]) -> set[str]:
    """The batches that are not kept together with others: a person has to look at each of them.

    The policy does not accept it wherever it stood, its place is too warm still, it is past its
    date or recalled, it has not cooled, something else has ever held it, or something is asked
    about it. `waiting` are the rows of what failed places hold, each with its `verdict`.
    """
    asked = {
        row.about
        for row in every(view.connection, QuestionRow, house=view.id)
        if row.settled_at is None
    }
    warm = {area for area in {row["area_id"] for row in waiting} if _is_warm(view, area)}
    return {
        row["batch"]
        for row in waiting
        if row["verdict"] != Verdict.ACCEPT.value
        or row["area_id"] in warm
        or row["batch"] in asked
        or _is_past(view, row["batch"])
        or _has_not_cooled(view, row["batch"])
        or _was_held_otherwise(view, row["batch"])
    }


def _is_warm(view: View, area: str) -> bool:
    taken = every(view.connection, TemperatureRow, house=view.id, area=area)
    last = max(taken, key=lambda row: (row.at, row.command))
    return last.warmth == Warmth.TOO_WARM.value


def _is_past(view: View, batch: str) -> bool:
    row = view.every_batch[batch]
    return row.recalled or (row.usable_until is not None and row.usable_until < view.now)


def _has_not_cooled(view: View, batch: str) -> bool:
    """Whether it was to cool and did not, or nobody has measured that it has."""
    rows = every(view.connection, CoolingReadingRow, house=view.id, batch=batch)
    if not rows:
        return may_be_hot(view.every_batch[batch], view.now)
    readings = [Reading(row.at, row.tenths) for row in rows]
    return cooling(view.policy, readings, view.now).outcome is not Outcome.PASSED


def _was_held_otherwise(view: View, batch: str) -> bool:
    """Whether anything but a place that failed has ever put some of it on hold."""
    held = every(view.connection, HeldWarmRow, house=view.id, batch=batch)
    by_failing = {row.command for row in held}
    moved = every(view.connection, MovementRow, house=view.id, batch=batch)
    # what was taken back, and its taking back, were no reason to hold it
    undone = {row.reverses for row in moved}
    onto = [
        row
        for row in moved
        if accounts.kind(row.target) == "hold" and row.reverses is None and row.number not in undone
    ]
    return any(row.command not in by_failing for row in onto)
