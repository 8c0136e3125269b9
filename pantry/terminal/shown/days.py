"""The days ahead, day by day."""

from collections.abc import Iterable
from itertools import groupby
from operator import itemgetter

from rich.console import Console
from rich.table import Table

from pantry.reports.report import Row
from pantry.terminal.printing import add
from pantry.terminal.shown.day_lines import TITLES, line
from pantry.terminal.words import Words


def days(terminal: Console, words: Words, rows: list[Row]) -> None:
    """For each day what comes, is to be ordered, chosen, done, served, and what dies."""
    if not rows:
        terminal.print("Nothing is known of these days.")
        return
    lines = Table.grid("day", "what", "which", padding=(0, 2))
    by_day = sorted(rows, key=itemgetter("day"))
    for day, of_day in groupby(by_day, key=itemgetter("day")):
        _day(lines, words, day, list(of_day))
    terminal.print(lines)


def _day(lines: Table, words: Words, day: str, rows: Iterable[Row]) -> None:
    name = words.day(day)
    for what, title in TITLES.items():
        found = [line(words, row) for row in rows if row["what"] == what]
        if found:
            add(lines, name, title, "; ".join(found))
            name = ""
