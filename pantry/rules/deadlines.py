"""By when something has to be ordered or chosen, and how loudly that is said (PL5)."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from zoneinfo import ZoneInfo

from pantry.rules.house_time import Span, before
from pantry.rules.supply import House


class Alert(StrEnum):
    """How near an order-by is; `missed` where no delivery can make it any more."""

    NONE = "none"
    OPEN = "open"
    LAST_CALL = "last_call"
    MISSED = "missed"


@dataclass(frozen=True, slots=True)
class ChooseBy:
    """The latest instant at which a dish can still be chosen.

    Attributes:
        at: None: something it lacks cannot be bought for it at all.
        earlier_than_notice: it is before service less notice (or never), so that the household's
            usual answer comes too late.
    """

    at: datetime | None
    earlier_than_notice: bool


def alert_at(now: datetime, order_by: datetime, house: House, zone: ZoneInfo) -> Alert:
    """The alert of something that has to be ordered by then (PL5).

    Nothing until order-by less the house's warning time, *open* from that second on, *last call*
    from order-by less its last-call time, *missed* once order-by has passed.
    """
    if now > order_by:
        return Alert.MISSED
    if now >= before(order_by, house.last_call, zone):
        return Alert.LAST_CALL
    if now >= before(order_by, house.warning, zone):
        return Alert.OPEN
    return Alert.NONE


def choose_by(
    service_at: datetime,
    lead: Span,
    lacking: Iterable[datetime | None],
    notice: Span,
    zone: ZoneInfo,
) -> ChooseBy:
    """By when a dish has to be chosen: the earlier of its lead time and what it lacks (PL5).

    Args:
        service_at: when it is served.
        lead: of its recipe.
        lacking: for each thing it lacks the last possible order-by; None: not to be bought.
        notice: the house's notice period.
        zone: the house's, in which whole days are counted.
    """
    at: datetime | None = before(service_at, lead, zone)
    for order_by in lacking:
        at = None if at is None or order_by is None else min(at, order_by)
    return ChooseBy(at, at is None or at < before(service_at, notice, zone))
