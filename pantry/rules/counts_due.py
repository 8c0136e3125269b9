"""What of a storage area is to be counted now: a little every week, never all of a working kitchen.

Chilled food of high risk or value weekly, the rest monthly, the freezer at the turn of the season,
and whatever the books say is not there, or less than not there (common practice, no source).
"""

from datetime import date
from enum import StrEnum

from pantry.handbook.policies import Policy
from pantry.rules.stock import AreaKind


class Due(StrEnum):
    """Why something is to be counted now; what speaks loudest first."""

    AGAIN = "again"
    BELOW_NOTHING = "below_nothing"
    NOTHING_LEFT = "nothing_left"
    WEEKLY = "weekly"
    MONTHLY = "monthly"
    SEASON = "season"


def by_the_books(stands: int, *, found_before: bool) -> Due | None:
    """Why the books alone call for a count.

    Args:
        stands: what the books have there.
        found_before: it stood there when it was counted last, or was never counted and stood there.
    """
    if stands < 0:
        return Due.BELOW_NOTHING
    return Due.NOTHING_LEFT if stands == 0 and found_before else None


def by_the_calendar(
    policy: Policy, kind: AreaKind, last: date, today: date, *, closely: bool
) -> Due | None:
    """Why the time that has passed calls for a count.

    Args:
        policy: the house's, with its own numbers.
        kind: of the storage area.
        last: the day it was counted last; where it never was, the day it came.
        today: the day in the house.
        closely: the item is of high risk or high value.
    """
    if kind is AreaKind.FROZEN:
        return Due.SEASON if _season(last) != _season(today) else None
    weekly = closely and kind is AreaKind.CHILLED
    every = policy.number(f"counting.{'closely_chilled' if weekly else 'others'}.every").amount
    if (today - last).days < every:
        return None
    return Due.WEEKLY if weekly else Due.MONTHLY


def _season(day: date) -> int:
    """The season of a year as a number that grows: each begins with March, June, September, ..."""
    return (day.year * 12 + day.month) // 3
