"""Lines of text made to fit a box: they wrap, then shrink, then the least important are left out.

Nothing ever runs over the edge, and no date and no allergen is ever cut off in the middle: where
the allergens have no room at any size that can be read, the label says that they must be looked up.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from pantry.paper.fonts import width, wrapped

SMALLEST = 4.8
"""Points: an x-height of 0.93 mm; small packs may not go below 0.9 mm (Regulation (EU) No
1169/2011, Article 13(3))."""

LEADING = 1.16
_STEPS = 24


@dataclass(frozen=True, slots=True)
class Line:
    """A text with its font and its size in points; `weight` 0 is never left out.

    `instead` is said where the lines have no room at any size; None: the text itself, even then.
    """

    text: str
    font: str
    size: float
    weight: int = 0
    instead: str | None = None


@dataclass(frozen=True, slots=True)
class Set:
    """A line as it is set."""

    text: str
    font: str
    size: float


def fitted(lines: Sequence[Line], wide: float, high: float) -> list[Set]:
    """The lines in a box of so many points, as large as they have room."""
    kept = [line for line in lines if line.text]
    while True:
        found = _largest(kept, wide, high)
        if found is not None:
            return found
        least = max((line.weight for line in kept), default=0)
        if least:
            kept = [line for line in kept if line.weight < least]
        elif any(line.instead is not None for line in kept):
            kept = [_short(line) for line in kept if line.instead != ""]
        else:
            return _cut(kept, wide, high)


def one_line(text: str, font: str, most: float, largest: float) -> float:
    """The size in points at which a text is one line of at most so many points."""
    return min(largest, largest * most / max(width(text, font, largest), 0.01))


def _short(line: Line) -> Line:
    return line if line.instead is None else Line(line.instead, line.font, line.size)


def _largest(lines: Sequence[Line], wide: float, high: float) -> list[Set] | None:
    for step in range(_STEPS + 1):
        scale = 1 - 0.6 * step / _STEPS
        placed = _at(lines, wide, scale)
        if sum(each.size * LEADING for each in placed) <= high:
            return placed
    return None


def _at(lines: Sequence[Line], wide: float, scale: float) -> list[Set]:
    placed = []
    for line in lines:
        size = max(SMALLEST, line.size * scale)
        placed += [Set(text, line.font, size) for text in wrapped(line.text, line.font, size, wide)]
    return placed


def _cut(lines: Sequence[Line], wide: float, high: float) -> list[Set]:
    """A name so long that it has no room at the smallest size ends in dots; the rest stands."""
    name, *rest = lines
    below = _at(rest, wide, 0)
    room = int((high - sum(each.size * LEADING for each in below)) / (SMALLEST * LEADING))
    parts = wrapped(name.text, name.font, SMALLEST, wide)[: max(room, 1)]
    last = parts[-1]
    while last and width(f"{last}…", name.font, SMALLEST) > wide:
        last = last[:-1]
    return [Set(each, name.font, SMALLEST) for each in [*parts[:-1], f"{last}…"]] + below
