"""Blocks of lines put on pages, so that a block stays together where a page has room for it."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Protocol, TypeVar


class High(Protocol):
    """Something that takes room on a page."""

    @property
    def high(self) -> float:
        """With what is free above it, in points."""


OneLine = TypeVar("OneLine", bound=High)


def paged(
    blocks: Iterable[Sequence[OneLine]],
    room: float,
    in_lines: Callable[[OneLine], Iterable[OneLine]],
) -> Iterator[list[OneLine]]:
    """The lines page by page, each as the lines it wraps into.

    A block is parted only where it is longer than what a page has room for, in points.
    """
    page: list[OneLine] = []
    left = room
    for block in blocks:
        lines = [each for line in block for each in in_lines(line)]
        if page and sum(line.high for line in lines) > left:
            yield page
            page, left = [], room
        for line in lines:
            if line.high > left:
                yield page
                page, left = [], room
            page.append(line)
            left -= line.high
    yield page
