"""What stood in a cold place that failed, batch by batch, with what the policy says of it (SL5)."""

from collections.abc import Sequence

from pantry.handbook.policies import CAUTION
from pantry.records import accounts
from pantry.records.read.failed_places import Waiting, waiting
from pantry.records.rows import every
from pantry.records.tables import AreaRow, HeldWarmRow, MovementRow, TemperatureRow
from pantry.reports.clear_to_keep import doubts
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.safety import Reading, holding
from pantry.rules.temperature import degrees

_NEVER = "9"
"""Sorts after every instant."""


def failed_places(view: View) -> list[Row]:
    """A row for each batch that is on hold since its place failed, by place and what dies first.

    Batches of an item stand together. `verdict` is the policy's by the readings since it stood
    there: `accept` where it stayed within the time and temperature that are tolerated, `ask` where
    nobody can tell, `refuse` past them. `held_for` are the reasons why
    any of the batch is on hold besides. `clear` where nothing speaks against keeping it together
    with others; the rest are decided one by one.
    """
    areas = {row.id: row for row in every(view.connection, AreaRow, house=view.id)}
    held = waiting(view.connection, view.id)
    found = [_row(view, areas[area], each) for (_, area), each in held.items()]
    doubted = doubts(view, found)
    for row in found:
        row["clear"] = row["batch"] not in doubted
    first = _first_of_each(found)
    return sorted(
        found,
        key=lambda row: (
            row["area"],
            first[row["area"], row["item"]],
            row["item"],
            row["usable_until"] or _NEVER,
            row["label"],
        ),
    )


def _first_of_each(found: Sequence[Row]) -> dict[tuple[str, str], str]:
    """By place and item, when the first of its batches dies."""
    first: dict[tuple[str, str], str] = {}
    for row in found:
        of = (row["area"], row["item"])
        first[of] = min(first.get(of, _NEVER), row["usable_until"] or _NEVER)
    return first


def _row(view: View, area: AreaRow, waits: Waiting) -> Row:
    held = waits.warm
    batch = view.every_batch[held.batch]
    item = view.items[batch.item]
    readings = _readings(view, area, held)
    judged = holding(view.policy, area.kind, readings, readings[-1].at)
    return {
        "batch": batch.id,
        "label": batch.label,
        "item": item.name,
        "area_id": area.id,
        "area": area.name,
        "on_hold": amount(view.standing[batch.id].held.get(area.id, 0), item),
        "held_for": list(waits.held_for),
        "since": instant(held.since),
        "highest_c": degrees(max(reading.temperature for reading in readings)),
        "verdict": judged.verdict.value,
        "reason": judged.reason,
        "source": judged.limit.source,
        "usable_until": instant(batch.usable_until),
        "caution": CAUTION,
    }


def _readings(view: View, area: AreaRow, held: HeldWarmRow) -> Sequence[Reading]:
    """The readings of the place since the batch came to stand there; on hold it stands there still.

    Where a reading came late and is older than that, all there are.
    """
    moved = every(view.connection, MovementRow, house=view.id, batch=held.batch)
    here = {accounts.area(area.id), accounts.emergency(area.id)}
    came = min((row.at for row in moved if row.target in here), default=held.since)
    rows = every(view.connection, TemperatureRow, house=view.id, area=area.id)
    taken = sorted((Reading(row.at, row.tenths) for row in rows), key=lambda each: each.at)
    return [reading for reading in taken if reading.at >= came] or taken
