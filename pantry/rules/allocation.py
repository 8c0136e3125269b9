"""The words of allocation: needs, sources, what is given, short, left and lost (AL1, RQ3)."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Final, NamedTuple

from pantry.rules.house_time import Span


# A plan makes needs and sources by the ten thousand, and making a frozen one takes four times as
# long. That nothing of them is ever changed is checked with the types.
@dataclass(slots=True, unsafe_hash=True)
class Need:
    """What one dish of one service wants of one item (RQ1, RQ2).

    Attributes:
        id: stable text, the same on every computation from the same menu.
        via: the preparation's item id whose making wants it; empty where the dish itself does.
        quantity: thousandths of the item's base unit, what is still to be given.
        wanted_by: when it must be there.
        until: the last instant at which it must still be usable.
        rank: of the table; 1 is served first.
        last_order_by: the last possible order-by for it; None: it cannot be bought at all.
    """

    id: Final[str]
    service: Final[str]
    dish: Final[str]
    item: Final[str]
    quantity: Final[int]
    wanted_by: Final[datetime]
    until: Final[datetime]
    rank: Final[int] = 1
    via: Final[str] = ""
    last_order_by: Final[datetime | None] = None


@dataclass(slots=True, unsafe_hash=True)
class Source:
    """Something a need can be given from: a batch, a delivery to come, a harvest, a making.

    Attributes:
        kind: `batch`, `delivery`, `harvest`, `making` or `planned` (an order the plan proposes).
        ready: from when it is there; None: now.
        sealed_quantity: what one unopened pack holds; None: the whole source is one container;
            0: opening changes nothing.
        opened: already open, so that taking from it opens nothing.
        frozen: taking from it thaws it, and thawing needs time.
        left: what was left of its safety clock when it was frozen; None: no limit was known (SL3).
        since: when it came in; on a tie the older goes first.
    """

    kind: Final[str]
    id: Final[str]
    item: Final[str]
    quantity: Final[int]
    usable_until: Final[datetime | None]
    good_until: Final[datetime | None]
    since: Final[datetime]
    ready: Final[datetime | None] = None
    sealed_quantity: Final[int | None] = 0
    opened: Final[bool] = False
    frozen: Final[bool] = False
    left: Final[Span | None] = None


class Pick(NamedTuple):
    """A quantity of one source given to one need.

    `thaw_from` is when it must be taken out of the freezer, for a frozen source.
    """

    need: str
    source: str
    quantity: int
    thaw_from: datetime | None = None


@dataclass(frozen=True, slots=True)
class Loss:
    """A quantity that dies unused within the horizon."""

    source: str
    quantity: int
    at: datetime


@dataclass(frozen=True, slots=True)
class Handling:
    """What using one item implies (RQ3).

    Attributes:
        opened_until: last instant usable for something opened at an instant; None: no limit.
        thawed_until: last instant usable once thawing starts at an instant; None: no limit.
        left_until: last instant usable of what had so much left when it was frozen, once thawing
            starts at an instant; None: no limit.
        thaw_start: the instant at which thawing must start for use at an instant; None: at once.
        piece: thousandths of the base unit in one whole piece; 0: divisible.
    """

    opened_until: Callable[[datetime], datetime] | None = None
    thawed_until: Callable[[datetime], datetime] | None = None
    left_until: Callable[[Span, datetime], datetime] | None = None
    thaw_start: Callable[[datetime], datetime] | None = None
    piece: int = 0


@dataclass(frozen=True, slots=True)
class Allocation:
    """What every need gets, what is short, what is left and what is lost.

    What is supplied is exactly what is picked, left and lost.

    Attributes:
        picks: in order of the needs, one for each need, source and thaw; each names the source
            that was given, also where it comes out of what an earlier need left opened or thawed.
        short: by need id, only where something is missing.
        left: what stands after the last need, in the order in which it dies. The opened or thawed
            rest of a source keeps its id and stands beside what is still sealed.
        lost: what dies unused before the last need is over, in the order in which it dies.
    """

    picks: tuple[Pick, ...]
    short: dict[str, int]
    left: tuple[Source, ...]
    lost: tuple[Loss, ...]
