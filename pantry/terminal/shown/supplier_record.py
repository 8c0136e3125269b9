"""How suppliers kept to what was ordered of them."""

from collections import Counter

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, listed, plain, table
from pantry.terminal.words import NEVER, Words, many

_WORDS = {
    "late": "late",
    "short": "short",
    "warm": "warm",
    "refused": "refused",
    "short_dated": "short-dated",
    "said_short": "told short",
    "called_off": "called off",
}


def supplier_record(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each supplier's deliveries, how many were in time and whole, and what was not kept."""
    if not rows:
        terminal.print("This house has no supplier yet.")
        return
    terminal.print(plain(f"\nSince {rows[0]['since']}", "bold"))
    lines = table("Supplier", "Deliveries>", "In time>", "Whole>", "Not kept", "Owed")
    for row in rows:
        counted = [str(row[name]) for name in ("deliveries", "in_time", "whole")]
        add(lines, row["supplier"], *counted, _not_kept(row), _owed(words, row))
    terminal.print(lines)


def _not_kept(row: Row) -> str:
    found = Counter(each["what"] for each in row["incidents"])
    told = [f"{number} {_WORDS[what]}" for what, number in found.items()]
    if row["dearer"]:
        told.append(f"{many(row['dearer'], 'price')} rose")
    return listed(told, "and") if told else NEVER


def _owed(words: Words, row: Row) -> str:
    return words.money(row["credits"]["value"]) if row["credits"]["count"] else NEVER
