"""Services as time passes (LG5)."""

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Protocol


class Wants(Protocol):
    """A need, or the row it is kept in, by what is asked of it here."""

    @property
    def id(self) -> str:
        """Its id."""

    @property
    def item(self) -> str:
        """What it wants."""

    @property
    def quantity(self) -> int:
        """How much, in thousandths."""

    @property
    def wanted_by(self) -> datetime:
        """When it must be there."""


GRACE = timedelta(hours=12)
"""So long after its time a service may still be recorded as served without being asked about.

Common practice, no source: the evening's kitchen records in the morning.
"""


def lapsed(at: datetime, now: datetime) -> bool:
    """Whether a confirmed service of that time should have been served by now."""
    return at < now - GRACE


def settled(needs: Iterable[Wants], taken: Mapping[str, int]) -> dict[str, int]:
    """How much of each need is settled by what was taken out, the first wanted first, by id.

    Args:
        needs: of one service, with all that they want.
        taken: thousandths of each item that were taken out for it.
    """
    rest = dict(taken)
    found: dict[str, int] = {}
    for need in sorted(needs, key=lambda need: (need.wanted_by, need.id)):
        found[need.id] = min(rest.get(need.item, 0), need.quantity)
        rest[need.item] = rest.get(need.item, 0) - found[need.id]
    return found
