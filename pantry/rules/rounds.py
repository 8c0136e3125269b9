"""The rounds of a day: every cold place is read once in each (common practice, no source).

A day of the house has as many rounds as the policy's `round.every` goes into it, begun; each
lasts from its own hour of the wall clock to that of the next.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from pantry.handbook.policies import Policy
from pantry.rules.house_time import instant_of, local_date, start_of_day

_DAY = 24


@dataclass(frozen=True, slots=True)
class Round:
    """One part of a day in which every cold place is to be read; from `start`, before `end`."""

    day: date
    number: int
    of: int
    start: datetime
    end: datetime


def rounds(policy: Policy, zone: ZoneInfo, days: int, now: datetime) -> Iterator[Round]:
    """The rounds of the last days, today's that have begun included, the first one first.

    Raises:
        NotThere: `policy_number_unknown`.
    """
    today = local_date(now, zone)
    every = max(1, min(_DAY, policy.number("round.every").amount))
    for back in range(days - 1, -1, -1):
        for each in _of_day(today - timedelta(days=back), every, zone):
            if each.start <= now:
                yield each


def _of_day(day: date, every: int, zone: ZoneInfo) -> Iterator[Round]:
    hours = range(0, _DAY, every)
    starts = [instant_of(day, time(hour), zone) for hour in hours]
    ends = [*starts[1:], start_of_day(day + timedelta(days=1), zone)]
    for number, (start, end) in enumerate(zip(starts, ends, strict=True), start=1):
        yield Round(day, number, len(hours), start, end)
