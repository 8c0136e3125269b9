"""Time as the house lives it: its zone, wall times, civil dates, spans (SL1).

A happening is an instant: aware, in UTC, whole seconds. A date mark or a calendar day is a civil
date of the house and becomes an instant only together with the house's IANA zone. The time zone
database says when clocks change; RFC 5545, 3.3.5, says what a wall time means on such a day.
"""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pantry.refusals import UnreadableInput, declare

ZONE_UNKNOWN = declare("zone_unknown", "The time zone is not in the IANA time zone database.")
DATE_OUT_OF_RANGE = declare("date_out_of_range", "The date is outside the years 1 to 9999.")
LIFE_TOO_SHORT = declare("life_too_short", "A life is at least one calendar day.")
SPAN_UNREADABLE = declare("span_unreadable", "The length of time cannot be read.")
INSTANT_UNREADABLE = declare("instant_unreadable", "The instant is not RFC 3339 with an offset.")

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
"""As commands and reports write them; 0 is Monday."""

_DAY = timedelta(days=1)
_SECOND = timedelta(seconds=1)
_LAST_SECOND = time(23, 59, 59)

_ISO_SPAN = re.compile(
    r"P(?=[0-9T])(?:(?P<week>[0-9]{1,6})W"
    r"|(?:(?P<day>[0-9]{1,6})D)?"
    r"(?:T(?=[0-9])(?:(?P<hour>[0-9]{1,6})H)?(?:(?P<minute>[0-9]{1,6})M)?"
    r"(?:(?P<second>[0-9]{1,6})S)?)?)"
)
_WRITTEN_SPAN = re.compile(
    r"(?=[0-9])(?:(?P<week>[0-9]{1,6}) ?(?:w|weeks?))? ?"
    r"(?:(?P<day>[0-9]{1,6}) ?(?:d|days?))? ?"
    r"(?:(?P<hour>[0-9]{1,6}) ?(?:h|hrs?|hours?))? ?"
    r"(?:(?P<minute>[0-9]{1,6}) ?(?:min|mins|minutes?))? ?"
    r"(?:(?P<second>[0-9]{1,6}) ?(?:s|secs?|seconds?))?"
)
_INSTANT = re.compile(
    r"([0-9]{4}-[0-9]{2}-[0-9]{2})[Tt ]([0-9]{2}:[0-9]{2}:[0-9]{2})(?:\.[0-9]+)?"
    r"([Zz]|[+-][0-9]{2}:[0-9]{2})"
)


@dataclass(frozen=True, slots=True)
class Span:
    """A length of time: nominal days first, then exact time (RFC 5545, 3.3.6).

    `P3D` before a clock change keeps the wall time; `PT72H` does not.
    """

    days: int = 0
    exact: timedelta = timedelta(0)


@lru_cache(maxsize=64)
def zone(name: str) -> ZoneInfo:
    """The IANA time zone of that name.

    Raises:
        UnreadableInput: `zone_unknown`.
    """
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise UnreadableInput(
            ZONE_UNKNOWN,
            f"No time zone is called {name!r}.",
            "Write an IANA name such as Europe/London or America/New_York.",
            value=name,
        ) from error


@lru_cache(maxsize=16384)
def instant_of(day: date, wall_time: time, zone: ZoneInfo) -> datetime:
    """The instant, in UTC, at which the house's clock shows this wall time (RFC 5545, 3.3.5).

    A wall time that the clock skips is read with the offset from before the gap; one that it shows
    twice means the first. Fractions of a second are dropped.

    Raises:
        UnreadableInput: `date_out_of_range`.
    """
    wall = datetime.combine(day, wall_time.replace(microsecond=0, fold=0))
    return _utc(wall, zone)


@lru_cache(maxsize=16384)
def start_of_day(day: date, zone: ZoneInfo) -> datetime:
    """The first instant, in UTC, of this civil date in this zone.

    Raises:
        UnreadableInput: `date_out_of_range`.
    """
    midnight = datetime.combine(day, time())
    return _clock_change_over(midnight, zone) or _utc(midnight, zone)


@lru_cache(maxsize=16384)
def end_of_day(day: date, zone: ZoneInfo) -> datetime:
    """The last whole second, in UTC, of this civil date in this zone: a date mark's end (SL1).

    Where the clock shows that second twice it is the second time; where the zone skipped the end
    of the date, or the whole date, it is the second before the skip.

    Raises:
        UnreadableInput: `date_out_of_range`.
    """
    wall = datetime.combine(day, _LAST_SECOND)
    change = _clock_change_over(wall, zone)
    return change - _SECOND if change else _utc(wall.replace(fold=1), zone)


def local_date(instant: datetime, zone: ZoneInfo) -> date:
    """The civil date that the house's calendar shows at this instant (aware)."""
    return instant.astimezone(zone).date()


def after(instant: datetime, span: Span, zone: ZoneInfo) -> datetime:
    """The instant, in UTC, one span later: the days in local wall time first, then exact time.

    Raises:
        UnreadableInput: `date_out_of_range`.
    """
    return _moved(instant, span.days, span.exact, zone)


def before(instant: datetime, span: Span, zone: ZoneInfo) -> datetime:
    """The instant, in UTC, one span earlier: the days in local wall time first, then exact time.

    Raises:
        UnreadableInput: `date_out_of_range`.
    """
    return _moved(instant, -span.days, -span.exact, zone)


def last_day(day: date, life_days: int) -> date:
    """The last civil date of a life of so many calendar days, `day` being day 1 (SL4).

    Raises:
        UnreadableInput: `life_too_short`, `date_out_of_range`.
    """
    if life_days < 1:
        raise UnreadableInput(
            LIFE_TOO_SHORT,
            f"A life of {life_days} days ends before it begins.",
            "Give 1 for something to be used on the same day.",
            value=str(life_days),
        )
    try:
        return day + timedelta(days=life_days - 1)
    except OverflowError as error:
        raise _out_of_range(f"{day} and {life_days} days") from error


def days_of(first: date, last: date) -> tuple[date, ...]:
    """Every civil date from `first` to `last`, both inclusive; none where `last` is earlier."""
    return tuple(first + timedelta(days=n) for n in range((last - first).days + 1))


def read_span(text: str) -> Span:
    """A length of time as ISO 8601 or people write it: weeks and days nominal, the rest exact.

    `P3D`, `P1W`, `PT72H`, `P1DT12H`; `72 h`, `3 days`, `90 min`, `2 h 30 min`, `1 week`. Months and
    years have no fixed length and are refused, as are fractions and negative lengths.

    Raises:
        UnreadableInput: `span_unreadable`.
    """
    match = _ISO_SPAN.fullmatch(text.strip()) or _WRITTEN_SPAN.fullmatch(
        " ".join(text.lower().split())
    )
    if match is None:
        raise UnreadableInput(
            SPAN_UNREADABLE,
            f"{text!r} is no length of time.",
            "Write whole weeks, days, hours or minutes, such as 72 h, 3 days, 2 h 30 min or PT72H.",
            value=text,
        )
    week, day, hour, minute, second = (int(part or 0) for part in match.groups())
    exact = timedelta(hours=hour, minutes=minute, seconds=second)
    return Span(days=7 * week + day, exact=exact)


def write_span(span: Span) -> str:
    """The span in ISO 8601 (`P3D`, `PT72H`, `P1DT12H`): days stay days and hours stay hours."""
    minutes, seconds = divmod(int(span.exact.total_seconds()), 60)
    hours, minutes = divmod(minutes, 60)
    days = f"{span.days}D" if span.days else ""
    parts = ((hours, "H"), (minutes, "M"), (seconds, "S"))
    exact = "".join(f"{number}{letter}" for number, letter in parts if number)
    if not days and not exact:
        return "PT0S"
    return f"P{days}T{exact}" if exact else f"P{days}"


def write_instant(instant: datetime) -> str:
    """The instant (aware) in RFC 3339, in UTC and whole seconds: `2027-03-20T23:59:59Z`."""
    return instant.astimezone(UTC).replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def read_instant(text: str) -> datetime:
    """An RFC 3339 instant, which has its offset, in UTC; fractions of a second are dropped.

    Raises:
        UnreadableInput: `instant_unreadable`.
    """
    match = _INSTANT.fullmatch(text.strip())
    if match is None:
        raise _no_instant(text)
    day, wall, offset = match.groups()
    try:
        return datetime.fromisoformat(f"{day}T{wall}{offset.upper()}").astimezone(UTC)
    except (ValueError, OverflowError) as error:
        raise _no_instant(text) from error


def _no_instant(text: str) -> UnreadableInput:
    return UnreadableInput(
        INSTANT_UNREADABLE,
        f"{text!r} is no instant.",
        "Write date, time and offset, such as 2027-03-10T07:00:00Z.",
        value=text,
    )


def _moved(instant: datetime, days: int, exact: timedelta, zone: ZoneInfo) -> datetime:
    """The instant moved by nominal days in local wall time, then by exact time."""
    try:
        if days:
            wall = instant.astimezone(zone).replace(tzinfo=None) + days * _DAY
            instant = _utc(wall.replace(fold=0), zone)
        return (instant + exact).astimezone(UTC)
    except OverflowError as error:
        raise _out_of_range(f"{write_instant(instant)} and {days} days, {exact}") from error


def _utc(wall: datetime, zone: ZoneInfo) -> datetime:
    """The instant of a wall time; its fold says which, where the clock shows it twice."""
    try:
        return wall.replace(tzinfo=zone).astimezone(UTC)
    except OverflowError as error:
        raise _out_of_range(wall.isoformat()) from error


def _clock_change_over(wall: datetime, zone: ZoneInfo) -> datetime | None:
    """The instant of the clock change that skips this wall time; None where it is not skipped."""
    late, early = _utc(wall, zone), _utc(wall.replace(fold=1), zone)
    if early >= late:
        return None
    offset_before = early.astimezone(zone).utcoffset()
    while late - early > _SECOND:
        middle = (early + (late - early) // 2).replace(microsecond=0)
        if middle.astimezone(zone).utcoffset() == offset_before:
            early = middle
        else:
            late = middle
    return late


def _out_of_range(value: str) -> UnreadableInput:
    return UnreadableInput(
        DATE_OUT_OF_RANGE,
        f"{value} leads outside the years 1 to 9999.",
        "Check the year.",
        value=value,
    )
