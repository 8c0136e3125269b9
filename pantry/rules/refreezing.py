"""Whether food that was frozen before may be frozen again (SL3)."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import reduce

from pantry.refusals import UnsafeFood, declare

REFROZEN = declare("refrozen", "Thawed food is not frozen again; what is cooked from it, once.")


class Treatment(StrEnum):
    """What decides whether food may be frozen."""

    COOKED = "cooked"
    FROZEN = "frozen"
    THAWED = "thawed"


@dataclass(frozen=True, slots=True)
class Past:
    """What was done to food since it was raw, as far as it decides whether it may be frozen.

    Attributes:
        cooked: it was cooked, once or more.
        thawed_raw: it was thawed before it was first cooked.
        thawed_since: cooked food was thawed, and not cooked anew since, or was thawed raw too.
    """

    cooked: bool = False
    thawed_raw: bool = False
    thawed_since: bool = False

    def then(self, treatment: Treatment) -> "Past":
        """What it is after one treatment more."""
        match treatment:
            case Treatment.COOKED:
                return replace(
                    self, cooked=True, thawed_since=self.thawed_since and self.thawed_raw
                )
            case Treatment.THAWED if self.cooked:
                return replace(self, thawed_since=True)
            case Treatment.THAWED:
                return replace(self, thawed_raw=True)
        return self


RAW = Past()


def after(history: Iterable[Treatment]) -> Past:
    """What raw food is after these treatments, oldest first."""
    return reduce(Past.then, history, RAW)


def refuse_refreezing(past: Past) -> None:
    """Refuse to freeze food with this past: its own and that of its ingredient.

    Raw food that was thawed is not frozen again; what is cooked from it may be frozen once. Cooked
    food that was thawed may be frozen after it was cooked anew. What has several ingredients is
    asked for each.

    Source: Food Standards Agency, How to chill, freeze and defrost food safely.

    Raises:
        UnsafeFood: `refrozen`.
    """
    if past.thawed_since or (past.thawed_raw and not past.cooked):
        raise UnsafeFood(
            REFROZEN,
            "It was frozen and thawed before.",
            "Use it before its time or throw it away; raw food may be cooked, then frozen once.",
        )
