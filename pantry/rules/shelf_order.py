"""The order in which things stand on the shelves of a storage area: as they were counted last."""

from collections.abc import Sequence


def as_counted(before: Sequence[str], counted: Sequence[str]) -> list[str]:
    """The order once something was counted in another one.

    What was not counted stays where it was; what was, shares out its own places among itself as it
    was counted. What is new stands behind what was counted before it.

    Args:
        before: the items in the order they were known in.
        counted: the items that were counted, in the order they were.
    """
    known = set(before)
    again = iter([item for item in counted if item in known])
    taken = set(counted)
    order = [next(again) if item in taken else item for item in before]
    last: str | None = None
    for item in counted:
        if item not in known:
            order.insert(0 if last is None else order.index(last) + 1, item)
        last = item
    return order
