"""A cold place: its limits, whether a reading is within them, and when it has failed (SL5).

The limits are the stricter of the house's own for the place and the food-safety policy's.
Temperatures are tenths of a degree Celsius. What is said here is shown together with
`pantry.handbook.policies.CAUTION`: local codes and licensed practice come first.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum

from pantry.handbook.policies import Policy
from pantry.rules.safety import Reading, Verdict, holding, in_order
from pantry.rules.stock import AreaKind
from pantry.rules.temperature import write_temperature


class Warmth(StrEnum):
    """How a reading stands to the limits of its place."""

    WITHIN = "within"
    TOO_WARM = "too_warm"
    TOO_COLD = "too_cold"


@dataclass(frozen=True, slots=True)
class Limits:
    """What a place is kept within; None: no limit on that side.

    Attributes:
        source: who says that it must not be warmer: `this house`, or the policy's source.
    """

    lowest: int | None
    highest: int | None
    source: str

    def judge(self, temperature: int) -> Warmth:
        """How a reading stands to them."""
        if self.highest is not None and temperature > self.highest:
            return Warmth.TOO_WARM
        if self.lowest is not None and temperature < self.lowest:
            return Warmth.TOO_COLD
        return Warmth.WITHIN


def limits_of(policy: Policy, kind: AreaKind, lowest: int | None, highest: int | None) -> Limits:
    """The limits of a place, by its kind and the house's own for it: the stricter rule."""
    own = "this house"
    if kind is AreaKind.AMBIENT:
        return Limits(lowest, highest, own)
    limit = policy.number(f"holding.{kind.value}.limit")
    if highest is None or limit.amount < highest:
        return Limits(lowest, limit.amount, limit.source)
    return Limits(lowest, highest, own)


def failed(
    policy: Policy, kind: AreaKind, limits: Limits, readings: Sequence[Reading]
) -> str | None:
    """Why a chilled or frozen place has failed by the stretch it is in; None: it has not.

    It failed when two readings in a row were too warm, so far apart that a door left open does not
    explain them, or when the policy lets nothing be used any more that stood there so long. The
    readings are those from the last one within the limits onward.

    Raises:
        MissingFact: `no_readings`.
        NotThere: `policy_number_unknown`.
    """
    taken = in_order(readings)
    warm = [each for each in taken if limits.judge(each.temperature) is Warmth.TOO_WARM]
    if kind is AreaKind.AMBIENT or not warm:
        return None
    judged = holding(policy, kind.value, taken, taken[-1].at)
    if judged.verdict is Verdict.REFUSE:
        return judged.reason
    again = timedelta(minutes=policy.number("round.again").amount)
    if warm[-1].at - warm[0].at >= again:
        shown = write_temperature(limits.highest or 0)
        return f"It was past {shown}, and still {again // timedelta(minutes=1)} minutes later."
    return None


def stretch(limits: Limits, readings: Sequence[Reading], around: Reading) -> list[Reading]:
    """The readings too warm in a row around one of them, from the last one before that was not."""
    taken = list(in_order(readings))
    place = taken.index(around)
    first = place
    while first and limits.judge(taken[first].temperature) is Warmth.TOO_WARM:
        first -= 1
    last = place
    while last + 1 < len(taken) and _is_warm(limits, taken[last + 1]):
        last += 1
    return taken[first : last + 1]


def _is_warm(limits: Limits, reading: Reading) -> bool:
    return limits.judge(reading.temperature) is Warmth.TOO_WARM
