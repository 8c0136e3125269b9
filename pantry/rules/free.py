"""What of an item no confirmed menu needs, and between which instants it is free (PL1, AL2).

Which batch a need is given may still be swapped: where another that comes later would do as well,
what is given is free until that one comes. Daily use that is still to come takes nothing before it.
"""

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta
from typing import NamedTuple

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.implied_use import FOREVER
from pantry.rules.lots import source_of
from pantry.rules.market import Market
from pantry.rules.outlook import Outlook

_SECOND = timedelta(seconds=1)
_EVER = datetime.min.replace(tzinfo=UTC)


class Free(NamedTuple):
    """A quantity of one source that no confirmed menu needs, between two instants."""

    source: str
    quantity: int
    ready: datetime
    until: datetime


def free_of(outlook: Outlook, daily: frozenset[str], market: Market) -> list[Free]:
    """Everything that no need but a daily one wants, and between which instants it is free."""
    ready = {source.id: source.ready or _EVER for source in outlook.sources}
    ready |= {lot.id: lot.offer.delivery.at for lot in outlook.lots}
    allocation = outlook.allocation
    left = [(part.id, part.quantity, part.usable_until or FOREVER) for part in allocation.left]
    lost = [(loss.source, loss.quantity, loss.at) for loss in allocation.lost]
    used = {need.id: need.wanted_by - _SECOND for need in outlook.needs if need.id in daily}
    picked = [
        (pick.source, pick.quantity, used[pick.need])
        for pick in allocation.picks
        if pick.need in used
    ]
    free = [Free(id_, quantity, ready[id_], until) for id_, quantity, until in left + lost + picked]
    if not outlook.is_plain:
        return free
    return free + list(_until_another_comes(outlook, ready, daily, market))


def _until_another_comes(
    outlook: Outlook, arrives: dict[str, datetime], daily: frozenset[str], market: Market
) -> Iterator[Free]:
    """What menus are given and could as well be given of what is over and comes later (AL2)."""
    planned = [source_of(lot, market) for lot in outlook.lots]
    sources = {source.id: source for source in (*outlook.sources, *planned)}
    over = dict.fromkeys(sources, 0) | _over(outlook.allocation)
    latest_first = sorted(over, key=lambda id_: arrives[id_], reverse=True)
    needs = {need.id: need for need in outlook.needs if need.id not in daily}
    for pick in reversed(outlook.allocation.picks):
        given = pick.quantity if pick.need in needs else 0
        until = sources[pick.source].usable_until or FOREVER
        for id_ in latest_first:
            swapped = min(given, over[id_])
            later = arrives[id_] > arrives[pick.source]
            if swapped and later and _does(sources[id_], needs[pick.need]):
                over[id_] -= swapped
                over[pick.source] += swapped  # an earlier need may in turn be given that
                given -= swapped
                ends = min(until, arrives[id_] - _SECOND)
                yield Free(pick.source, swapped, arrives[pick.source], ends)


def _over(allocation: Allocation) -> dict[str, int]:
    """What no need is given, by source."""
    over: dict[str, int] = {}
    for part in allocation.left:
        over[part.id] = over.get(part.id, 0) + part.quantity
    for loss in allocation.lost:
        over[loss.source] = over.get(loss.source, 0) + loss.quantity
    return over


def _does(source: Source, need: Need) -> bool:
    """Whether it is there when the need wants it, and usable for as long as that has to last."""
    there = source.ready is None or source.ready <= need.wanted_by
    return there and (source.usable_until is None or source.usable_until >= need.until)


def free_at(free: Sequence[Free], at: datetime) -> list[tuple[str, int]]:
    """What is free at an instant, by source."""
    there: dict[str, int] = {}
    for part in free:
        if part.ready <= at <= part.until:
            there[part.source] = there.get(part.source, 0) + part.quantity
    return list(there.items())


def lowest_of(free: Sequence[Free], first: datetime, before: datetime) -> int:
    """The least that is free from an instant until just before another."""
    ends = {part.until + _SECOND for part in free if first <= part.until < FOREVER}
    instants = [first, *(end for end in ends if end < before)]
    return min(sum(quantity for _, quantity in free_at(free, at)) for at in instants)
