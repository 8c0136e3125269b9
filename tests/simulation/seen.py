"""What the outside has seen of a server, whatever its disk says now."""

from dataclasses import dataclass, field
from datetime import datetime

from tests.simulation.oracle_ledger import Shelf


@dataclass(frozen=True)
class Base:
    """What a copy is made of.

    Attributes:
        stands: what stood when it was made.
        known: the batches there were then, those of which nothing is left included.
        heard: the ids in the journal then.
        doubtful: the batches of which clocks left open what stood.
    """

    stands: Shelf
    known: frozenset[str]
    heard: frozenset[str]
    doubtful: frozenset[str]


@dataclass
class Seen:
    """What the outside has seen, whatever the server's disk says now.

    Attributes:
        given: every command that was saved or sent, by id.
        saved: ids of which a phone said that they are saved.
        first: the first answer to an id in this epoch.
        told: ids whose answer reached whoever gave them.
        outcome: what was first answered in any epoch.
        truly: when each command was really given.
        copies: for each phone, what its copy is made of.
    """

    given: dict[str, dict] = field(default_factory=dict)
    saved: set[str] = field(default_factory=set)
    first: dict[str, str] = field(default_factory=dict)
    told: set[str] = field(default_factory=set)
    outcome: dict[str, str] = field(default_factory=dict)
    truly: dict[str, datetime] = field(default_factory=dict)
    copies: dict[str, Base] = field(default_factory=dict)
