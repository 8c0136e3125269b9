"""When a letter that was not taken is tried again, and when it is given up."""

from datetime import datetime, timedelta

FIRST = timedelta(minutes=1)
LONGEST = timedelta(hours=2)
WORTH = timedelta(hours=24)
"""What presses today says nothing tomorrow: a letter that is older is given up."""


def next_try(written_at: datetime, tries: int, now: datetime, *, again: bool) -> datetime | None:
    """When to try next: each time twice as long after; None: not any more.

    Args:
        written_at: when the letter was written.
        tries: how often it was tried, at least once.
        now: the present.
        again: the mail server said that it may work later; if not, somebody has to mend a setting
            or an address first, and nothing is gained by haste.
    """
    doubled = FIRST * 2 ** min(tries - 1, 20) if again else LONGEST
    at = now + min(doubled, LONGEST)
    return at if at <= written_at + WORTH else None
