"""What stands in the wrong place."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import NEVER, Words

_WRONG = {
    "thaws": "frozen food outside a freezer",
    "warm": "kept cold, and stands where it is not",
    "not_frozen": "in a freezer, never recorded as frozen",
}


def wrong_places(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch and storage area that it does not belong in."""
    if not rows:
        terminal.print("Everything stands where such food is kept, by what is recorded.")
        return
    lines = table("Item, batch", "How much>", "Stands in", "What is wrong", "Move it to")
    for row in rows:
        add(
            lines,
            f"{row['item']} {row['label']}",
            words.amount(row["quantity"]),
            row["area"],
            _WRONG[row["wrong"]],
            row["into"] or NEVER,
        )
    terminal.print(lines)
    terminal.print(
        "Only what is still hard goes back into a freezer. Ask the chef about what stood warm; "
        "local codes come first."
    )
