"""What stands in the house, item by item and batch by batch."""

from collections.abc import Sequence
from decimal import Decimal
from itertools import groupby

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import NEVER, Words, many


def stock(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch; an item with several batches has a line for all of them."""
    if not rows:
        terminal.print("Nothing stands in the house.")
        return
    lines = table("Item, batch", "Where", "On hand>", "Promised>", "Available>", "How long|")
    items = 0
    for item, of_item in groupby(rows, key=lambda row: row["item"]):
        items += 1
        batches = list(of_item)
        if len(batches) > 1:
            add(lines, item, "", *_amounts(words, batches), "")
        for row in batches:
            add(
                lines,
                f"  {row['label']}" if len(batches) > 1 else f"{item} {row['label']}",
                _where(words, row),
                *_amounts(words, [row]),
                words.left(row["usable_until"], row["good_until"]),
            )
    terminal.print(lines)
    terminal.print(f"{many(len(rows), 'batch', 'batches')} of {many(items, 'item')}.")


def _amounts(words: Words, rows: Sequence[Row]) -> list[str]:
    """What is on hand, promised and available of them together."""
    return [
        _sum(words, [row[name] for row in rows]) for name in ("on_hand", "promised", "available")
    ]


def _sum(words: Words, quantities: Sequence[Row]) -> str:
    total = sum((Decimal(quantity["value"]) for quantity in quantities), Decimal(0))
    return words.amount({"value": str(total), "unit": quantities[0]["unit"]}) if total else NEVER


def _where(words: Words, row: Row) -> str:
    """The storage area, and what of it is not simply there."""
    said = [row["area"] or NEVER]
    for name, spoken in (("on_hold", "on hold"), ("emergency", "for an emergency")):
        if row[name]["value"] != "0":
            said.append(f"{words.amount(row[name])} {spoken}")
    return ", ".join(said)
