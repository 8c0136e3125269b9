"""A command as its verb receives it: read, allowed, on the books."""

from dataclasses import dataclass
from datetime import datetime
from typing import Generic, TypeVar

from pantry.commands.decision import Base
from pantry.commands.parts import Part

Body = TypeVar("Body", bound=Part)


@dataclass(frozen=True, slots=True)
class Given(Generic[Body]):
    """One command: who gave it, in which role, when it happened, and what it says.

    Attributes:
        at: when it happened, in UTC.
        device: whose outbox it came from; None: it was given at a desk.
        base: the version it was taken on, or the id of one's own earlier command.
        again: it was applied in a journal that was lost, and is replayed (SY7).
    """

    id: str
    at: datetime
    person: str
    role: str
    device: str | None
    base: Base
    body: Body
    again: bool = False

    @property
    def at_desk(self) -> bool:
        """Whether it came from no outbox, so that a missing base means what stands now."""
        return self.device is None
