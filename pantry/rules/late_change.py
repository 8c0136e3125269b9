"""What a late change does to everything else: what runs short, what is spare, what is made (AL2).

It is the difference between the kitchen projected as it stands and as it would stand, so that it
tells of every table: eight instead of six may leave another one short.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from pantry.rules.allocation import Need, Source
from pantry.rules.implied_use import FOREVER
from pantry.rules.kitchen import Projection


class Effect(StrEnum):
    """What becomes of so much of an item, the worst first."""

    SHORT = "short"
    """A confirmed service lacks it, and nobody brings it in time."""
    TO_ORDER = "to_order"
    """A confirmed service lacks it, and it can still be ordered."""
    SPARE = "spare"
    """It stands there, and nothing that is confirmed uses it any more."""
    COMING_SPARE = "coming_spare"
    """It is on its way or will be picked, and nothing that is confirmed uses it any more."""
    SET_ASIDE = "set_aside"
    """More of what stands there, or is on its way, is given away."""
    MAKE_MORE = "make_more"
    MAKE_LESS = "make_less"
    COVERED = "covered"
    """A confirmed service lacked it, and does not any more."""


@dataclass(frozen=True, slots=True)
class Changed:
    """One effect.

    Attributes:
        quantity: thousandths of the item's base unit.
        need: whose it is, of what is short, to be ordered or covered.
        source: what becomes spare or is set aside.
        on: when it is made, of what is made.
    """

    effect: Effect
    item: str
    quantity: int
    need: Need | None = None
    source: Source | None = None
    on: datetime | None = None


def changed(
    before: Projection, after: Projection, sources: Iterable[Source], now: datetime
) -> list[Changed]:
    """What differs between two projections of the same part of a kitchen.

    By effect, the worst first; then what must be mended soonest, or dies first.

    Args:
        before: as it stands.
        after: as it would stand.
        sources: all that either was projected from.
        now: the present, aware, in UTC.
    """
    found = [
        *_needs(before, after, now),
        *_sources(before, after, sources),
        *_makings(before, after),
    ]
    place = {effect: number for number, effect in enumerate(Effect)}
    return sorted(
        found, key=lambda one: (place[one.effect], _end(one), one.item, _name(one), one.quantity)
    )


def _end(one: Changed) -> datetime:
    at = one.on
    if one.need is not None:
        at = one.need.last_order_by or one.need.wanted_by
    if one.source is not None:
        at = one.source.usable_until or one.source.good_until
    return at or FOREVER


def _name(one: Changed) -> str:
    return one.need.id if one.need else one.source.id if one.source else ""


def _needs(before: Projection, after: Projection, now: datetime) -> Iterator[Changed]:
    """What needs lack more or less than they did; of one that is gone nothing is told."""
    was = _short(before)
    short = _short(after)
    for needs in after.needs.values():
        for need in needs:
            more = short.get(need.id, 0) - was.get(need.id, 0)
            if more < 0:
                yield Changed(Effect.COVERED, need.item, -more, need=need)
            elif more > 0:
                ahead = need.last_order_by is not None and need.last_order_by >= now
                effect = Effect.TO_ORDER if ahead else Effect.SHORT
                yield Changed(effect, need.item, more, need=need)


def _short(projection: Projection) -> dict[str, int]:
    found: dict[str, int] = {}
    for allocation in projection.allocations.values():
        found |= allocation.short
    return found


def _sources(before: Projection, after: Projection, sources: Iterable[Source]) -> Iterator[Changed]:
    """Of what more is given than was, and of what less."""
    was, given = _given(before), _given(after)
    for source in sources:
        more = given.get(source.id, 0) - was.get(source.id, 0)
        if more > 0:
            yield Changed(Effect.SET_ASIDE, source.item, more, source=source)
        elif more < 0:
            effect = Effect.SPARE if source.kind == "batch" else Effect.COMING_SPARE
            yield Changed(effect, source.item, -more, source=source)


def _given(projection: Projection) -> dict[str, int]:
    found: dict[str, int] = {}
    for allocation in projection.allocations.values():
        for pick in allocation.picks:
            found[pick.source] = found.get(pick.source, 0) + pick.quantity
    return found


def _makings(before: Projection, after: Projection) -> Iterator[Changed]:
    """What is made more of than was, and what less."""
    was = {making.id: making for making in before.makings}
    made = {making.id: making for making in after.makings}
    for name in was.keys() | made.keys():
        making = made.get(name) or was[name]
        more = (made[name].quantity if name in made else 0) - (
            was[name].quantity if name in was else 0
        )
        if more:
            effect = Effect.MAKE_MORE if more > 0 else Effect.MAKE_LESS
            yield Changed(effect, making.item, abs(more), on=making.start)
