"""A command as its verb receives it: read, allowed, on the books."""

from dataclasses import dataclass
from datetime import datetime
from typing import Generic, TypeVar

from pantry.commands.decisions import Base
from pantry.commands.parts import Part

Body = TypeVar("Body", bound=Part)


@dataclass(frozen=True, slots=True)
class Given(Generic[Body]):
    """One command: who gave it, in which role, when it happened, and what it says.

    Attributes:
        base: the version it was taken on, or the id of one's own earlier command.
        at_desk: it came from no outbox, so that a missing base means what stands now.
    """

    id: str
    at: datetime
    person: str
    role: str
    base: Base
    at_desk: bool
    body: Body
