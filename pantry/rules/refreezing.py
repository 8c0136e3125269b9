"""Whether food that was frozen before may be frozen again (SL3)."""

from collections.abc import Iterable
from enum import StrEnum

from pantry.refusals import UnsafeFood, declare

REFROZEN = declare("refrozen", "Thawed food is not frozen again; what is cooked from it, once.")


class Treatment(StrEnum):
    """What decides whether food may be frozen."""

    COOKED = "cooked"
    FROZEN = "frozen"
    THAWED = "thawed"


def refuse_refreezing(history: Iterable[Treatment]) -> None:
    """Refuse to freeze food with this history, oldest first: its own and that of its ingredient.

    Raw food that was thawed is not frozen again; what is cooked from it may be frozen once. Cooked
    food that was thawed may be frozen after it was cooked anew. What has several ingredients is
    asked for each.

    Source: Food Standards Agency, How to chill, freeze and defrost food safely.

    Raises:
        UnsafeFood: `refrozen`.
    """
    cooked = thawed_raw = thawed_since_cooked = False
    for treatment in history:
        if treatment is Treatment.COOKED:
            cooked = True
            thawed_since_cooked = thawed_since_cooked and thawed_raw
        elif treatment is Treatment.THAWED and cooked:
            thawed_since_cooked = True
        elif treatment is Treatment.THAWED:
            thawed_raw = True
    if thawed_since_cooked or (thawed_raw and not cooked):
        raise UnsafeFood(
            REFROZEN,
            "It was frozen and thawed before.",
            "Use it before its time or throw it away; raw food may be cooked, then frozen once.",
        )
