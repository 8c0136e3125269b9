"""Where a lot came from and where it went."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words

_DIRECTIONS = {
    "back": "Where it came from",
    "forward": "Where it went",
    "beside": "Of the same item in the house: for a recall, look at these too",
}
_LINKS = {"scanned": "scanned", "assumed": "assumed, first expired first out"}
_ACCOUNTS = {
    "supplier": "delivered",
    "garden": "harvested",
    "opening_stock": "there when the books were opened",
    "served": "served",
    "transit": "sent to another house",
    "waste": "thrown away",
    "count_difference": "count difference",
}


def trace(terminal: Console, words: Words, rows: list[Row]) -> None:
    """The batches on the way back, those on the way forward, and those beside them."""
    for direction, title in _DIRECTIONS.items():
        of_direction = [row for row in rows if row["direction"] == direction]
        if not of_direction:
            continue
        terminal.print(plain(f"\n{title}", "bold"))
        lines = table("Batch", "Item", "Lot", "From" if direction == "back" else "To", "Known by")
        for row in of_direction:
            parts = row["from"] if direction == "back" else row["to"]
            add(
                lines,
                row["label"],
                row["item"],
                row["lot"] or NEVER,
                "\n".join(_part(words, part) for part in parts) or NEVER,
                _LINKS[row["link"]],
            )
        terminal.print(lines)


def _part(words: Words, part: Row) -> str:
    """`1.2 l into B-0301`, `800 g served Sat 13 Mar dinner, family`, `300 g in Cold room`."""
    amount = words.amount(part["quantity"])
    if "area" in part:
        return f"{amount} in {part['area']}{', on hold' if part['on_hold'] else ''}"
    if "batch" in part:
        return f"{amount} {part['label']}"
    said = f"{amount} {_ACCOUNTS.get(part['account'], part['account'])}"
    if part.get("supplier"):
        return f"{said}, from {part['supplier']}"
    return f"{said} {words.service(part['service'])}" if part.get("service") else said
