"""The twin of the plan: needs matched to batches by sorting both, in plain Python.

It knows nothing of opening, thawing, whole pieces, ranks, preparations, suppliers or prices: it is
what a first program for the job would do, and the least that any program for it has to do.
"""

from collections.abc import Iterable
from datetime import UTC, datetime

from pantry.rules.allocation import Need, Source

_NEVER = datetime.max.replace(tzinfo=UTC)


def matched(needs: Iterable[Need], batches: Iterable[Source]) -> dict[str, int]:
    """What each need is short of, by need id: item by item, the first need from what dies first."""
    needs_of: dict[str, list[Need]] = {}
    for need in needs:
        needs_of.setdefault(need.item, []).append(need)
    batches_of: dict[str, list[Source]] = {}
    for batch in batches:
        batches_of.setdefault(batch.item, []).append(batch)
    short: dict[str, int] = {}
    for item, of_item in needs_of.items():
        _match(of_item, batches_of.get(item, []), short)
    return short


def _match(needs: list[Need], batches: list[Source], short: dict[str, int]) -> None:
    needs.sort(key=lambda need: need.wanted_by)
    batches.sort(key=lambda batch: batch.usable_until or _NEVER)
    index, left = 0, batches[0].quantity if batches else 0
    for need in needs:
        lacking = need.quantity
        while lacking and index < len(batches):
            dies = batches[index].usable_until
            if not left or (dies is not None and dies < need.until):
                index += 1
                left = batches[index].quantity if index < len(batches) else 0
                continue
            given = min(left, lacking)
            left -= given
            lacking -= given
        if lacking:
            short[need.id] = lacking
