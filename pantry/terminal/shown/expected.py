"""What the back door expects, delivery by delivery."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words


def expected(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each delivery with its lines: what is still awaited, where it goes, what it is for."""
    if not rows:
        terminal.print("Nothing is on order.")
        return
    for row in rows:
        at = words.moment(row["at"])
        terminal.print(plain(f"\n{at} {row['supplier']}, order {row['order']}", "bold"))
        lines = table("Packs>", "Pack", "Item", "Awaited>", "Where", "For")
        for line in row["lines"]:
            add(
                lines,
                str(line["packs"]),
                line["pack"],
                line["item"],
                words.amount(line["outstanding"]),
                line["area"] or NEVER,
                "; ".join(words.service(service) for service in line["for"]) or NEVER,
            )
        terminal.print(lines)
