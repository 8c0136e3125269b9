"""When something happened, as well as anybody knows, and what came first (SY8)."""

from dataclasses import dataclass
from datetime import datetime, timedelta


@dataclass(frozen=True, slots=True)
class Moment:
    """When something happened, by whose clock, and its place among what was written down.

    Attributes:
        at: in UTC, whole seconds.
        bound: how far `at` may be off.
        device: whose outbox it came from; None: a desk, which has no order of its own.
        position: its command's place in the journal; a device hands in in its own order.
    """

    at: datetime
    bound: timedelta
    device: str | None
    position: int

    def is_before(self, other: "Moment") -> bool:
        """Whether it is taken to have come first.

        A device knows its own order, whatever its clock was set to in between. Otherwise time
        decides, and in the same second what was written down first.
        """
        if self._is_of_the_same_device(other):
            return self.position < other.position
        return (self.at, self.position) < (other.at, other.position)

    def may_be_either_side_of(self, other: "Moment") -> bool:
        """Whether the clocks leave open what came first: two devices, within both bounds."""
        together = self.bound + other.bound
        return (
            self.device != other.device
            and together > timedelta(0)
            and abs(self.at - other.at) <= together
        )

    def _is_of_the_same_device(self, other: "Moment") -> bool:
        return self.device is not None and self.device == other.device
