"""Places in a journal that was lost: their order, and those that nobody holds (SY7)."""

from collections.abc import Iterable, Sequence

from pantry.records.tables import GatheredRow

Run = tuple[int, int]
"""Whole numbers from the first to the last, both among them."""


def in_old_order(rows: Iterable[GatheredRow]) -> list[GatheredRow]:
    """What was gathered, in the order in which the lost journals had it.

    Epochs are ids that sort by when they began. A command without a place (its device never heard
    the answer) follows the one before it of the same device.
    """
    places: dict[str, tuple[str, int]] = {}
    last: dict[str, tuple[str, int]] = {}
    in_outbox = sorted(rows, key=lambda row: (row.device, row.n))
    for row in in_outbox:
        if row.position is not None:
            last[row.device] = (row.epoch, row.position)
        places[row.id] = last.get(row.device, ("", 0))
    return sorted(in_outbox, key=lambda row: (*places[row.id], row.n))


def between(after: int, numbers: Iterable[int], before: int | None = None) -> list[Run]:
    """The runs that are not among some numbers, behind `after` and, where it is said, up to it."""
    found: list[Run] = []
    for number in sorted({number for number in numbers if number > after}):
        if number > after + 1:
            found.append((after + 1, number - 1))
        after = number
    if before is not None and before > after + 1:
        found.append((after + 1, before - 1))
    return found


def in_words(runs: Sequence[Run]) -> str:
    """Runs as people write them: `3, 7-9`."""
    return ", ".join(str(first) if first == last else f"{first}-{last}" for first, last in runs)


def how_many(runs: Sequence[Run]) -> int:
    """The numbers in all runs together."""
    return sum(last - first + 1 for first, last in runs)
