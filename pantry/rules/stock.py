"""What stands in the house: items, batches, date marks, storage areas.

Quantities are whole numbers in **thousandths of the item's base unit** (MS1): milligrams for an
item measured in g, microlitres for ml, thousandths of an each. Instants are aware, in UTC, and
whole seconds. Ids are opaque text.
"""

from dataclasses import dataclass, field
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

CivilDate: TypeAlias = date
"""A date of the house; its own name, because a date mark's field is called `date`."""


class BaseUnit(StrEnum):
    """What an item is measured in."""

    G = "g"
    ML = "ml"
    EACH = "each"


class State(StrEnum):
    """How a batch is kept; it never changes, a part treated otherwise is a child batch."""

    SEALED = "sealed"
    OPENED = "opened"
    FROZEN = "frozen"
    THAWED = "thawed"
    VACUUM_PACKED = "vacuum_packed"
    MADE = "made"


class DateKind(StrEnum):
    """What a date mark promises: safety, quality, or nothing."""

    USE_BY = "use_by"
    BEST_BEFORE = "best_before"
    NONE = "none"


class AreaKind(StrEnum):
    """The kind of a storage area."""

    AMBIENT = "ambient"
    CHILLED = "chilled"
    FROZEN = "frozen"


@dataclass(frozen=True, slots=True)
class DateMark:
    """The date on a pack, a civil date of the house; `date` is None where `kind` is none."""

    kind: DateKind
    date: CivilDate | None = None


@dataclass(frozen=True, slots=True)
class Declared:
    """What is known of one item's allergens; an allergen in none of the sets is *unknown* (AL3)."""

    contains: frozenset[str] = frozenset()
    may_contain: frozenset[str] = frozenset()
    free_of: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Item:
    """A thing that is stocked.

    Attributes:
        measured: False for what nobody counts (salt, parsley): plenty, low or out.
        whole: taken in whole pieces only (a bird, an egg, a lemon).
        density: grams per millilitre, where known.
        piece_weight: grams per each, where known.
        opened_life_days: calendar days, the day of opening being day 1; None: opening changes
            nothing.
        thawed_life_hours: hours from the end of thawing.
        frozen_life_days: quality life in the freezer, the day of freezing being day 1.
        floor: par, in thousandths; None: no par is kept.
        order_up_to: the level an order brings it back to, in thousandths.
        daily_per_head: use a day for each person in the house, in thousandths (RQ5).
    """

    id: str
    name: str
    base_unit: BaseUnit
    measured: bool = True
    whole: bool = False
    density: Fraction | None = None
    piece_weight: Fraction | None = None
    opened_life_days: int | None = None
    thawed_life_hours: int | None = None
    frozen_life_days: int | None = None
    high_risk: bool = False
    declared: Declared = field(default_factory=Declared)
    floor: int | None = None
    order_up_to: int | None = None
    daily_per_head: int = 0


@dataclass(frozen=True, slots=True)
class Batch:
    """One quantity of one item with one origin, lot, date mark, state and cost.

    Attributes:
        usable_until: the last instant it may be used (safety); None: no limit is known.
        good_until: the last instant of full quality; None: no limit is known.
        available: what stands in storage areas and is not on hold, in thousandths.
        sealed_quantity: what one unopened pack holds, in thousandths; None: the whole batch is one
            container.
        since: when it came into the house or was made; the older goes first on a tie.
        pieces: thousandths of an each, for what is counted while weighed; None elsewhere.
    """

    id: str
    item: str
    label: str
    state: State
    mark: DateMark
    usable_until: datetime | None
    good_until: datetime | None
    available: int
    since: datetime
    sealed_quantity: int | None = None
    lot: str | None = None
    pieces: int | None = None
