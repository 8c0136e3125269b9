"""Which batches should have a label printed."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import Words, many


def labels(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch that wants a label."""
    wanting = [row for row in rows if row["wants"]]
    if not wanting:
        terminal.print("Every batch that needs a label has one.")
        return
    lines = table("Item, batch", "Where", "On hand>", "What its label says")
    for row in wanting:
        named = f"{row['item']} {row['label']}"
        add(lines, named, row["area"], words.amount(row["on_hand"]), row["dates"][0])
    terminal.print(lines)
    terminal.print(f"{many(len(wanting), 'batch', 'batches')} without a label.")
