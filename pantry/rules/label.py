"""What stands on a batch's label, in words a person reads at arm's length (SL1-SL3).

A date always says what it is: *use by* and *best before* are the pack's own words; *usable until*
is what opening, thawing, making or picking leave of it. Nothing is ever called free of anything:
what nobody declared is not known. Local codes, the maker's label and licensed practice come first.
"""

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from pantry.rules.house_time import end_of_day, local_date
from pantry.rules.stock import DateKind, DateMark, State

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip

NOT_TO_BE_USED = "Not to be used"
ON_HOLD = "On hold: the chef decides"

_DONE = {
    "decant": "Decanted",
    "freeze": "Frozen",
    "harvest": "Picked",
    "left_over": "Left over",
    "make": "Made",
    "open": "Opened",
    "thaw": "Thawed",
    "vacuum_pack": "Vacuum packed",
}
_STATES = {
    State.FROZEN: "Frozen",
    State.MADE: "Made",
    State.OPENED: "Opened",
    State.THAWED: "Thawed",
    State.VACUUM_PACKED: "Vacuum packed",
}


@dataclass(frozen=True, slots=True)
class Labelled:
    """What is known of a batch that is to have a label.

    Attributes:
        done: the kind of the command that made the batch; empty where nobody knows.
        done_at: when it came into its state, in UTC.
        usable, held: whether it may be used; whether some of it is on hold.
        unknown: allergens of the house's list of which nobody declared anything; `all_unknown`
            where that is the whole list.
    """

    item: str
    label: str
    house: str
    area: str
    state: State
    done: str
    done_at: datetime
    mark: DateMark
    usable_until: datetime | None
    good_until: datetime | None
    usable: bool = True
    held: bool = False
    contains: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    all_unknown: bool = False


@dataclass(frozen=True, slots=True)
class LabelWords:
    """The lines of a label, the most important ones apart.

    Attributes:
        warning: why it is not to be used; empty where it may be.
        dates: by when, the one that counts first.
        done: when it was opened, frozen, thawed, made, picked; empty for a sealed pack.
        allergens: what it contains, may contain, and what is not known.
    """

    item: str
    label: str
    warning: str
    dates: tuple[str, ...]
    done: str
    area: str
    allergens: tuple[str, ...]
    house: str


def words_of(of: Labelled, zone: ZoneInfo) -> LabelWords:
    """The lines of one label, in the house's zone."""
    return LabelWords(
        item=of.item,
        label=of.label,
        warning=NOT_TO_BE_USED if not of.usable else ON_HOLD if of.held else "",
        dates=_dates(of, zone) or ("No date mark",),
        done=_done(of, zone),
        area=of.area,
        allergens=_allergens(of),
        house=of.house,
    )


def day_words(day: date) -> str:
    """`Fri 12 Mar 2027`: the month in letters, so that nobody takes it for the day."""
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]} {day.year}"


def _dates(of: Labelled, zone: ZoneInfo) -> tuple[str, ...]:
    """The pack's own date, unless what happened since has left less of it."""
    marked = _of_mark(of.mark)
    end = None if of.mark.date is None else end_of_day(of.mark.date, zone)
    if of.usable_until is not None and (
        of.usable_until != end or of.mark.kind is not DateKind.USE_BY
    ):
        until = f"Usable until {_instant_words(of.usable_until, zone)}"
    elif of.good_until is not None and of.good_until != end:
        until = f"Good until {_instant_words(of.good_until, zone)}"
    else:
        return marked
    return (until, *(f"On the pack: {words[0].lower()}{words[1:]}" for words in marked))


def _of_mark(mark: DateMark) -> tuple[str, ...]:
    if mark.date is None or mark.kind is DateKind.NONE:
        return ()
    named = "Use by" if mark.kind is DateKind.USE_BY else "Best before"
    return (f"{named} {day_words(mark.date)}",)


def _instant_words(until: datetime, zone: ZoneInfo) -> str:
    """Its last day in the house; with the time where it ends before its day does."""
    day = local_date(until, zone)
    if until == end_of_day(day, zone):
        return day_words(day)
    return f"{day_words(day)}, {until.astimezone(zone):%H:%M}"


def _done(of: Labelled, zone: ZoneInfo) -> str:
    named = _DONE.get(of.done) or _STATES.get(of.state)
    if named is None:
        return ""
    done = f"{named} {day_words(local_date(of.done_at, zone))}"
    # what is decanted or packed in the freezer is frozen food still
    lies_frozen = of.state is State.FROZEN and of.done in ("decant", "open", "vacuum_pack")
    return f"{done}, frozen" if lies_frozen else done


def _allergens(of: Labelled) -> tuple[str, ...]:
    if of.all_unknown and not of.contains and not of.may_contain:
        return ("Allergens not known",)
    said = (
        ("Contains", of.contains),
        ("May contain", of.may_contain),
        ("Not known", of.unknown),
    )
    return tuple(f"{named}: {', '.join(names)}" for named, names in said if names)
