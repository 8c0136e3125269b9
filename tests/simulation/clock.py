"""A phone's clock, and how well the phone knows how far it is off (SY8)."""

from dataclasses import dataclass
from datetime import datetime, timedelta

NEVER_MEASURED = timedelta(minutes=15)
"""How far off a clock may be that was never held against the server's."""

_NOTHING = timedelta(0)


@dataclass
class Clock:
    """The phone's own time, the offset it measured, and the bound of that.

    Attributes:
        off: how far it is from the true time, which the phone does not know.
        offset: what to add for the server's time, as far as the phone knows.
        bound: how far that may be off.
    """

    off: timedelta
    offset: timedelta = _NOTHING
    bound: timedelta = NEVER_MEASURED

    def reads(self, true: datetime) -> datetime:
        return true + self.off

    def measure(self, server: datetime, sent: datetime, heard: datetime) -> None:
        """The reply's time lies somewhere in the round trip, which bounds the error."""
        self.offset = server - (sent + (heard - sent) / 2)
        self.bound = (heard - sent) / 2 + timedelta(seconds=1)

    def steps(self, by: timedelta, *, while_off: bool) -> None:
        """Somebody sets the clock; a running phone notices by its monotonic one.

        A phone that was off does not, and takes nothing that it measured before for true.
        """
        self.off += by
        if while_off:
            self.offset, self.bound = _NOTHING, NEVER_MEASURED
        else:
            self.offset -= by
            self.bound += timedelta(seconds=1)

    def stamp(self) -> dict:
        """What goes into a command beside its time, in whole milliseconds."""
        return {
            "offset_ms": round(self.offset / timedelta(milliseconds=1)),
            "bound_ms": round(self.bound / timedelta(milliseconds=1)),
        }
