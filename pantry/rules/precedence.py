"""Whose need comes first when there is not enough (AL2)."""

from datetime import datetime

from pantry.rules.allocation import Need


def is_pressing(need: Need, now: datetime) -> bool:
    """Whether nothing can be bought for it any more: its last order-by has passed, or never was."""
    return need.last_order_by is None or need.last_order_by < now


def precedence(need: Need, now: datetime) -> tuple[int, int, datetime, int, str]:
    """Sorts first what goes first: pressing needs by their table's rank, then the others by time.

    A need that can still be bought yields to one that cannot.
    """
    at = max(need.wanted_by, now)
    if is_pressing(need, now):
        return (0, need.rank, at, 0, need.id)
    return (1, 0, at, need.rank, need.id)
