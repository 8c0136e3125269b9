"""What was lost, in words."""

from collections.abc import Iterable

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import Words

_CLASSES = {True: "avoidable", False: "unavoidable", None: "not classed"}


def waste(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each week, reason, item, place and destination; each week's sum after it."""
    if not rows:
        terminal.print("Nothing was lost.")
        return
    for monday in dict.fromkeys(row["monday"] for row in rows):
        _week(terminal, words, [row for row in rows if row["monday"] == monday])


def _week(terminal: Console, words: Words, rows: list[Row]) -> None:
    first = rows[0]
    lines = table(
        "Item", "Lost>", "Why", "From, to", "Cost>", title=f"Week of {words.day(first['monday'])}"
    )
    for row in rows:
        add(
            lines,
            row["item"],
            words.amount(row["quantity"]),
            f"{row['reason']} ({_CLASSES[row['avoidable']]})",
            f"{row['area'] or 'the kitchen'}, to {row['destination']}",
            words.money(row["value"]),
        )
    terminal.print(lines)
    by_class = ", ".join(
        f"{words.money(_sum(found))} {name}"
        for avoidable, name in _CLASSES.items()
        if (found := [row for row in rows if row["avoidable"] is avoidable])
    )
    covers = first["covers"]
    terminal.print(f"{words.money(_sum(rows))} in all: {by_class}; {covers} covers were served.")
    terminal.print()


def _sum(rows: Iterable[Row]) -> dict[str, object]:
    first: dict[str, object] = {}
    minor = 0
    for row in rows:
        first, minor = row["value"], minor + row["value"]["minor"]
    return {**first, "minor": minor}


def waste_without_batch(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each record of what stood in no batch."""
    if not rows:
        terminal.print("Nothing was lost that stood in no batch.")
        return
    lines = table("When", "What", "Lost>", "Why", "To", title="Without a batch")
    for row in rows:
        add(
            lines,
            words.moment(row["at"]),
            row["what"],
            words.amount(row["quantity"]),
            f"{row['reason']} ({_CLASSES[row['avoidable']]})",
            row["destination"],
        )
    terminal.print(lines)
