"""Services as time passes (LG5)."""

from datetime import datetime, timedelta

GRACE = timedelta(hours=12)
"""So long after its time a service may still be recorded as served without being asked about.

Common practice, no source: the evening's kitchen records in the morning.
"""


def lapsed(at: datetime, now: datetime) -> bool:
    """Whether a confirmed service of that time should have been served by now."""
    return at < now - GRACE
