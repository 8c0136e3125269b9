"""Whether cooked food cooled fast enough, stage by stage (SL5).

Bacteria multiply fastest between hot and room temperature, so the first stage is the shorter one.
Temperatures are tenths of a degree Celsius. A failed cooling puts the batch on hold. Local codes
and licensed practice come first.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from pantry.handbook.policies import Number, Policy
from pantry.rules.safety import Reading, beyond, in_order


class Outcome(StrEnum):
    """Whether it cooled in time, did not, or is still cooling."""

    PASSED = "passed"
    FAILED = "failed"
    RUNNING = "running"


@dataclass(frozen=True, slots=True)
class Cooling:
    """How a cooling stands.

    Attributes:
        stage: the stage that failed or runs, 1 being the first; the last one where all passed.
        by: when this stage's temperature must be reached; None: the clock has not begun.
        limit: the temperature of this stage, with its source.
    """

    outcome: Outcome
    stage: int
    by: datetime | None
    limit: Number
    reason: str


def cooling(
    policy: Policy, readings: Iterable[Reading], now: datetime, *, start: str = "cooked"
) -> Cooling:
    """How the cooling of one batch stands at `now`, by its readings.

    The clock begins with the last reading that was still hot (`from`), or with the first reading
    where none was; where what is made begins at room temperature (`start` is `ambient`), with the
    first. Each stage is reached by a reading at or below its temperature, in time: a temperature
    that nobody took in time was not reached in time.

    Raises:
        MissingFact: `no_readings`.
        NotThere: `policy_number_unknown`.
    """
    taken = in_order(readings)
    stages = [name for name in policy.names(f"cooling.{start}") if name != "from"]
    first = policy.number(f"cooling.{start}.{stages[0] if stages else 'stage_1'}.to")
    begun = _begun(taken, policy.numbers.get(f"cooling.{start}.from"))
    if begun is None:
        return Cooling(Outcome.RUNNING, 1, None, first, "It is still hot; cooling has not begun.")
    return _through(policy, [f"cooling.{start}.{name}" for name in stages], taken, begun, now)


def _through(
    policy: Policy, stages: Sequence[str], taken: Sequence[Reading], begun: datetime, now: datetime
) -> Cooling:
    """The first stage not reached, or the last."""
    for number, stage in enumerate(stages, start=1):
        limit, within = policy.number(f"{stage}.to"), policy.number(f"{stage}.within")
        by = begun + timedelta(minutes=within.amount)
        reached = next(
            (r.at for r in taken if r.at >= begun and not beyond(r.temperature, limit)), None
        )
        if reached is None and now <= by:
            reason = f"It must be at {limit.written} within {within.written}."
            return Cooling(Outcome.RUNNING, number, by, limit, reason)
        if reached is None or reached > by:
            reason = f"No reading shows {limit.written} within {within.written}."
            return Cooling(Outcome.FAILED, number, by, limit, reason)
    return Cooling(Outcome.PASSED, len(stages), by, limit, "It cooled in time.")


def _begun(taken: Sequence[Reading], hot: Number | None) -> datetime | None:
    """When the clock began; None while every reading is above `hot`."""
    if hot is None:
        return taken[0].at
    begun = None
    for reading in taken:
        if beyond(reading.temperature, hot):
            return begun or reading.at
        begun = reading.at
    at_the_limit = taken[-1].temperature == hot.amount
    return begun if at_the_limit else None
