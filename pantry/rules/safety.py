"""Whether food is safe to take in and to keep, by its temperature (SL5).

The limits are the house's food-safety policy. Temperatures are tenths of a degree Celsius, instants
aware and in UTC. What is judged here is shown together with `pantry.handbook.policies.CAUTION`:
local codes and licensed practice come first.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from pantry.handbook.policies import Number, Policy, Stricter
from pantry.refusals import MissingFact, declare
from pantry.rules.temperature import write_temperature

NO_READINGS = declare("no_readings", "Nobody has taken a temperature yet.")


class Verdict(StrEnum):
    """What is to be done: take it, ask the chef (on hold until then), or refuse it."""

    ACCEPT = "accept"
    ASK = "ask"
    REFUSE = "refuse"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with its reason in one sentence and the number it rests on.

    `until` is when a tolerated period ends, while it runs.
    """

    verdict: Verdict
    reason: str
    limit: Number
    until: datetime | None = None


@dataclass(frozen=True, slots=True)
class Reading:
    """A temperature taken at an instant, in tenths of a degree Celsius."""

    at: datetime
    temperature: int


@dataclass(frozen=True, slots=True)
class _Period:
    """A stretch past the limit, as far as the readings tell.

    Attributes:
        earliest: the last reading within the limit before it; it began after that.
        first: the first reading past the limit.
        last: the last reading past the limit, or now while it runs.
        latest: the first reading within the limit after it, or now while it runs.
        runs: no reading was within the limit again.
    """

    earliest: datetime
    first: datetime
    last: datetime
    latest: datetime
    runs: bool


def receiving(policy: Policy, food: str, temperature: int) -> Judgement:
    """What to do with a delivery of this temperature, by food (`poultry`, `frozen`, `hot`...).

    Up to the first limit it is accepted, up to the second the chef is asked, beyond it is refused;
    hot food the other way round.

    Raises:
        NotThere: `policy_number_unknown`, with the foods that have limits.
    """
    accept = policy.number(f"receiving.{food}.accept")
    refuse = policy.number(f"receiving.{food}.refuse")
    shown = write_temperature(temperature)
    if beyond(temperature, refuse):
        return Judgement(Verdict.REFUSE, f"{shown} is past the limit of {refuse.written}.", refuse)
    if beyond(temperature, accept):
        reason = f"{shown} is past {accept.written}, though not past {refuse.written}."
        return Judgement(Verdict.ASK, reason, accept)
    return Judgement(Verdict.ACCEPT, f"{shown} is within {accept.written}.", accept)


def holding(policy: Policy, kind: str, readings: Iterable[Reading], now: datetime) -> Judgement:
    """Whether what is held `chilled`, `hot` or `frozen` may still be used, by its readings.

    What passed the limit is refused, except where the policy tolerates one period shorter than so
    long, or asks a person up to a worst temperature. Where nobody took a temperature often enough
    to tell how long a period was, the chef is asked.

    Raises:
        MissingFact: `no_readings`.
        NotThere: `policy_number_unknown`.
    """
    taken = in_order(readings)
    limit = policy.number(f"holding.{kind}.limit")
    periods = _periods_beyond(taken, limit, now)
    if not periods:
        return Judgement(Verdict.ACCEPT, f"It stayed within {limit.written}.", limit)
    worst = policy.numbers.get(f"holding.{kind}.worst")
    if worst is not None:
        return _up_to_worst(taken, limit, worst)
    return _tolerated(periods, limit, policy.number(f"holding.{kind}.tolerance"))


def off_control_until(
    policy: Policy, kind: str, since: datetime, highest: int | None = None
) -> datetime:
    """Until when food may be used once it has left temperature control, `chilled` or `hot`.

    `highest` is the warmest it has been: some policies give more time to what stayed cool. FDA Food
    Code 2022, 3-501.19, wants a written procedure for this; England allows it once.

    Raises:
        NotThere: `policy_number_unknown`.
    """
    time = policy.number(f"off_control.{kind}.within")
    cool = policy.numbers.get(f"off_control.{kind}.cool_highest")
    if cool is not None and highest is not None and not beyond(highest, cool):
        time = policy.number(f"off_control.{kind}.cool_within")
    return since + timedelta(minutes=time.amount)


def thaw_time(policy: Policy, weight: int) -> timedelta:
    """How long a piece takes to thaw in the cold room, by its weight in milligrams (SL3)."""
    step = policy.number("thawing.step.weight").amount * 1000
    hours = policy.number("thawing.step.time").amount
    return timedelta(hours=hours * max(1, -(-weight // step)))


def beyond(temperature: int, limit: Number) -> bool:
    """Whether a temperature is past a limit, on the side that is not safe."""
    if limit.stricter is Stricter.HIGHER:
        return temperature < limit.amount
    return temperature > limit.amount


def in_order(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """The readings by their time.

    Raises:
        MissingFact: `no_readings`.
    """
    taken = tuple(sorted(readings, key=lambda reading: reading.at))
    if not taken:
        raise MissingFact(
            NO_READINGS, "There is no temperature to judge.", "Take one and enter it."
        )
    return taken


def _periods_beyond(taken: Sequence[Reading], limit: Number, now: datetime) -> list[_Period]:
    periods: list[_Period] = []
    past: list[datetime] = []
    within: datetime | None = None
    for reading in taken:
        if beyond(reading.temperature, limit):
            past.append(reading.at)
            continue
        if past:
            periods.append(_Period(within or past[0], past[0], past[-1], reading.at, runs=False))
        past, within = [], reading.at
    if past:
        until = max(now, past[-1])
        periods.append(_Period(within or past[0], past[0], until, until, runs=True))
    return periods


def _up_to_worst(taken: Sequence[Reading], limit: Number, worst: Number) -> Judgement:
    past_worst = next((r for r in taken if beyond(r.temperature, worst)), None)
    if past_worst:
        shown = write_temperature(past_worst.temperature)
        return Judgement(Verdict.REFUSE, f"{shown} is past the worst of {worst.written}.", worst)
    reason = f"It passed {limit.written}, though not {worst.written}."
    return Judgement(Verdict.ASK, reason, limit)


def _tolerated(periods: Sequence[_Period], limit: Number, tolerance: Number) -> Judgement:
    period, allowed = periods[0], timedelta(minutes=tolerance.amount)
    if not allowed:
        return Judgement(Verdict.REFUSE, f"It passed {limit.written}.", limit)
    if len(periods) > 1:
        reason = f"It passed {limit.written} more than once, and only one period is tolerated."
        return Judgement(Verdict.REFUSE, reason, tolerance)
    if period.last - period.first >= allowed:
        reason = f"It was past {limit.written} for {tolerance.written} or longer."
        return Judgement(Verdict.REFUSE, reason, tolerance)
    if period.latest - period.earliest >= allowed:
        reason = f"It may have been past {limit.written} for {tolerance.written} or longer."
        until = period.first + allowed if period.runs else None
        return Judgement(Verdict.ASK, reason, tolerance, until)
    if period.runs:
        reason = f"It is past {limit.written}; that is tolerated for less than {tolerance.written}."
        return Judgement(Verdict.ASK, reason, tolerance, period.earliest + allowed)
    reason = f"It was past {limit.written} once, for less than {tolerance.written}; not again."
    return Judgement(Verdict.ACCEPT, reason, tolerance)
