"""What a scanned code says, and what of the house carries it."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.scanning import said_of
from pantry.terminal.words import NEVER, Words


def code(terminal: Console, words: Words, rows: list[Row]) -> None:
    """The code line by line, then a line for each match."""
    (row,) = rows
    for line in said_of(row["read"]):
        terminal.print(plain(line))
    if not row["matches"]:
        terminal.print("Nothing in the house carries it.")
        return
    lines = table("What", "Item", "Which", "How much>")
    for match in row["matches"]:
        which = match["label"] or match["pack"]
        seller = f" of {match['supplier']}" if match["supplier"] else ""
        amount = words.amount(match["quantity"])
        add(lines, match["kind"], match["item"], f"{which or NEVER}{seller}", amount)
    terminal.print(lines)
