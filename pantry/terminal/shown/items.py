"""Everything that is stocked."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import NEVER, Words, many


def items(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each item: where it stands, what it contains, the packs it is sold in."""
    if not rows:
        terminal.print("No item is known yet.")
        return
    lines = table("Item", "Where", "Contains", "Sold as")
    for row in rows:
        named = row["item"] if row["counted"] else f"{row['item']} (not counted: {row['level']})"
        packs = (f"{words.amount(pack['quantity'])} of {pack['supplier']}" for pack in row["packs"])
        add(lines, named, row["area"] or NEVER, contents(row), "\n".join(packs) or NEVER)
    terminal.print(lines)
    terminal.print(f"{many(len(rows), 'item')}.")


def contents(row: Row) -> str:
    """`milk; may contain nuts; unknown: celery` of an item or a dish."""
    said = []
    if row["contains"]:
        said.append(", ".join(row["contains"]))
    if row["may_contain"]:
        said.append(f"may contain {', '.join(row['may_contain'])}")
    if row["unknown"]:
        said.append(f"unknown: {', '.join(row['unknown'])}")
    return "; ".join(said) or "nothing that must be named"
