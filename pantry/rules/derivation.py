"""Why a row of the plan says what it says, as data that every figure follows from (PL7)."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from pantry.rules.allocation import Need
from pantry.rules.below_par import Refill
from pantry.rules.house_time import Span


@dataclass(frozen=True, slots=True)
class Line:
    """What one need has to do with a row.

    Attributes:
        given: what it is given without the row's packs and those that come later, as
            (source id, quantity).
        lacking: what it is short of then; all of the need less what is given.
        covered: how much of that the row's packs cover.
        counts: it is why they are bought. False: it could have been ordered for later, and only
            uses what is over of them.
    """

    need: Need
    given: tuple[tuple[str, int], ...]
    lacking: int
    covered: int
    counts: bool


@dataclass(frozen=True, slots=True)
class Derivation:
    """The inputs of one row of the plan.

    From them follow

    - net: what is covered of the lines that count, what par wants, what daily use is short of
      beyond par, and `used_up`; of what is missed: what is lacking, and what par wants;
    - packs: `menu_packs`, `par_packs` and `daily_packs`. The first is what counts (all that is
      covered, where par or daily use come to it) over the pack's quantity, rounded up; more only
      where `opened`. The second is what par wants less what is `over`, likewise. The third is
      what each need of daily use is short of, likewise, added up;
    - order-by: the cut-off less the time to send it;
    - that the delivery does: it is in at or before the wanted-by of each line that counts, less
      the receiving margin; and usable through its until, or else what it is used for leaves
      something for that need which is (PL4).

    Attributes:
        rules: the numbers of the rules that made it.
        lines: the needs that the row's packs cover something of, or, where nothing can be
            ordered, that stay short, in the order of time.
        par: what par wants of the row.
        daily: for daily use beyond par, the need's id and what it is short of.
        used_up: what menu and par leave over of their packs and daily use takes before that.
        pack_quantity: thousandths in one pack.
        price: of one pack, minor units.
        at: when the delivery is in the house.
        usable_until: the last instant its goods may be used; None: no limit.
        opened: packs are bought because what is left in an opened one does not keep.
    """

    rules: tuple[str, ...]
    lines: tuple[Line, ...]
    par: Refill | None
    daily: tuple[tuple[str, int], ...]
    used_up: int
    menu_packs: int
    par_packs: int
    daily_packs: int
    pack_quantity: int
    price: int
    at: datetime | None
    cutoff: datetime | None
    send: timedelta
    margin: Span
    usable_until: datetime | None
    opened: bool
