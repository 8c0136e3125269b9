"""What is different, change by change."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import Words


def changes(terminal: Console, _words: Words, rows: list[Row]) -> None:
    """A line for each change, with the number to ask from next time."""
    if not rows:
        terminal.print("Nothing has changed since.")
        return
    lines = table("No.>", "Journal>", "What", "Which")
    for row in rows:
        add(lines, str(row["number"]), str(row["position"]), row["what"], row["key"])
    terminal.print(lines)
    terminal.print(f"Go on with: chooseby changes --since {rows[-1]['number']}")
