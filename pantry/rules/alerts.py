"""Alerts that rise with their deadline: each stage is told once, and none is passed over (PL5).

A deadline is one supplier's delivery; of what nobody can bring any more it is the item. Its alert
opens, rises to *last call* and to *missed*, and closes when nothing is to be done for it: an order
covers it, or nobody wants it any more. What is wanted of it again after that is another *turn*.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

from pantry.rules.deadlines import Alert
from pantry.rules.house_time import before
from pantry.rules.supply import House

STAGES = (Alert.OPEN, Alert.LAST_CALL, Alert.MISSED)
"""In the order in which an alert rises."""

_SECOND = timedelta(seconds=1)


class Why(StrEnum):
    """Why nothing is to be done for an alert any more."""

    ORDERED = "ordered"
    NOT_NEEDED = "not_needed"
    PASSED = "passed"


@dataclass(frozen=True, slots=True)
class Deadline:
    """Something that has to be ordered by then, as the plan has it now.

    Attributes:
        id: of the delivery; `nobody/ITEM` where nobody brings it at all.
        supplier, delivery, order_by: None where nobody does.
        stage: how near it is.
    """

    id: str
    supplier: str | None
    delivery: datetime | None
    order_by: datetime | None
    stage: Alert


@dataclass(frozen=True, slots=True)
class Standing:
    """The last turn of an alert, as it is kept."""

    turn: int
    stage: Alert
    order_by: datetime | None
    is_closed: bool


@dataclass(frozen=True, slots=True)
class Rise:
    """An alert that has to be told now.

    Attributes:
        stage: what is told.
        passed_over: the stages before it that came and went while nobody looked, which are told
            along with it.
    """

    deadline: Deadline
    turn: int
    stage: Alert
    passed_over: tuple[Alert, ...]


@dataclass(frozen=True, slots=True)
class Close:
    """An alert for which nothing is to be done any more."""

    id: str
    turn: int
    why: Why


def risen(deadlines: Iterable[Deadline], standing: Mapping[str, Standing]) -> list[Rise]:
    """What has to be told now, of the deadlines of the plan and of what was told before.

    A stage that was told stays told: whoever looks by a slower clock tells nothing again.
    """
    found = []
    for deadline in deadlines:
        last = standing.get(deadline.id)
        is_open = last is not None and not last.is_closed
        told = _level(last.stage) if last is not None and is_open else -1
        level = _level(deadline.stage)
        if level > told:
            turn = last.turn if last is not None and is_open else (last.turn if last else 0) + 1
            over = STAGES[told + 1 : level] if deadline.order_by else ()
            found.append(Rise(deadline, turn, deadline.stage, over))
    return found


def closed(
    deadlines: Iterable[Deadline],
    standing: Mapping[str, Standing],
    placed: frozenset[str],
    now: datetime,
) -> list[Close]:
    """Open alerts of which the plan wants nothing any more, and why.

    Args:
        deadlines: all of the plan, near or not.
        standing: the last turn of each alert, by id.
        placed: ids of deliveries for which an order is placed.
        now: the present.
    """
    wanted = {deadline.id for deadline in deadlines}
    return [
        Close(id_, last.turn, _why(id_, last, placed, now))
        for id_, last in standing.items()
        if not last.is_closed and id_ not in wanted
    ]


def _why(id_: str, last: Standing, placed: frozenset[str], now: datetime) -> Why:
    if id_ in placed:
        return Why.ORDERED
    return Why.PASSED if last.order_by is not None and last.order_by < now else Why.NOT_NEEDED


def next_moment(
    deadlines: Iterable[Deadline], house: House, zone: ZoneInfo, now: datetime
) -> datetime | None:
    """The next instant at which one of these rises by time alone; None: none does."""
    moments = (
        moment
        for deadline in deadlines
        if deadline.order_by is not None
        for moment in begins(deadline.order_by, house, zone).values()
    )
    return min((moment for moment in moments if moment > now), default=None)


def begins(order_by: datetime, house: House, zone: ZoneInfo) -> dict[Alert, datetime]:
    """From which second on each stage holds."""
    return {
        Alert.OPEN: before(order_by, house.warning, zone),
        Alert.LAST_CALL: before(order_by, house.last_call, zone),
        Alert.MISSED: order_by + _SECOND,
    }


def _level(stage: Alert) -> int:
    return STAGES.index(stage) if stage in STAGES else -1
