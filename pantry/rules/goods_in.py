"""What a line at the back door is held against: a temperature's limits, a date's services (SL5).

Local codes, the maker's label and licensed practice come first.
"""

from collections.abc import Iterable
from datetime import datetime

from pantry.rules.fefo import Need
from pantry.rules.stock import AreaKind, DateKind


def received_as(food: str | None, area: AreaKind, kind: DateKind, *, high_risk: bool) -> str | None:
    """By which limits of the policy a line is judged; None: nobody needs its temperature.

    The group of the item goes first, where the policy has one, then the place it is put. What goes
    into a freezer without a use-by was bought frozen and is judged as that, whatever its group;
    with one it is fresh, and frozen from then on. What stands at room temperature is judged only
    where it is high-risk: anchovies in a jar are no fresh fish (common practice, no source).

    Args:
        food: the policy's name of the item's group; None: it has none.
        area: of the place where it is put.
        kind: of its date mark.
        high_risk: whether the house calls the item so.
    """
    if area is AreaKind.FROZEN and (food is None or kind is not DateKind.USE_BY):
        return AreaKind.FROZEN.value
    if area is AreaKind.AMBIENT:
        return food if high_risk else None
    return food or area.value


def too_short_for(needs: Iterable[Need], until: datetime | None) -> list[str]:
    """The services that want a line for longer than it keeps, by the time they want it.

    Args:
        needs: what is to be given of the line.
        until: the last instant at which it may be used, or is at its best; None: no limit.
    """
    if until is None:
        return []
    late = sorted((need for need in needs if need.until > until), key=lambda need: need.wanted_by)
    return list(dict.fromkeys(need.service for need in late))
