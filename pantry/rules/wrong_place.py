"""Whether a batch stands where such food is not kept: only what the records themselves tell.

Chilled food in a place that is not cold, frozen food in a place where it thaws, food in a freezer
that nobody froze. What the house itself keeps in a place stands right there. What stands above what
is not told: a storage area has no shelves here. Keeping cold food cold and frozen food frozen is
common practice, no source; what becomes of food that stood warm is the chef's to decide, and local
codes come first.
"""

from enum import StrEnum

from pantry.rules.stock import AreaKind, State


class Wrong(StrEnum):
    """What is wrong with a place, the most urgent first."""

    THAWS = "thaws"
    WARM = "warm"
    NOT_FROZEN = "not_frozen"


BELONGS = {
    Wrong.THAWS: AreaKind.FROZEN,
    Wrong.WARM: AreaKind.CHILLED,
    Wrong.NOT_FROZEN: AreaKind.CHILLED,
}
"""The kind of place it is moved to."""


def wrong_place(
    place: AreaKind,
    state: State,
    *,
    home: AreaKind | None,
    was_thawed: bool = False,
    high_risk: bool = False,
) -> Wrong | None:
    """What is wrong with a place for a batch; None: nothing that is known.

    Args:
        place: the kind of storage area it stands in.
        state: of the batch.
        home: the kind of its item's own storage area; None: it has none.
        was_thawed: it was thawed and not cooked since.
        high_risk: its item is, by the house.
    """
    if place is AreaKind.FROZEN:
        # ice cream that was made here is kept in the freezer by the house's own word
        is_right = state is State.FROZEN or home is AreaKind.FROZEN
        return None if is_right else Wrong.NOT_FROZEN
    came_frozen = home is AreaKind.FROZEN and state is State.SEALED and not was_thawed
    if state is State.FROZEN or came_frozen:
        return Wrong.THAWS
    if place is AreaKind.CHILLED:
        return None
    is_cold = home in (AreaKind.CHILLED, AreaKind.FROZEN) or was_thawed
    is_risk = high_risk and home is None
    return Wrong.WARM if is_cold or is_risk else None
