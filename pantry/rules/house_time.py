"""Time as the house lives it: its zone, wall times, civil dates, spans (SL1)."""

from dataclasses import dataclass
from datetime import timedelta


@dataclass(frozen=True, slots=True)
class Span:
    """A length of time: nominal days first, then exact time (RFC 5545, 3.3.6).

    `P3D` before a clock change keeps the wall time; `PT72H` does not.
    """

    days: int = 0
    exact: timedelta = timedelta(0)
