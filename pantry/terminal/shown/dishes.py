"""Every dish the house can cook."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.shown.items import contents
from pantry.terminal.words import NEVER, Words, many


def dishes(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each dish: its variants, its season, what it contains, when it was last served."""
    if not rows:
        terminal.print("No dish is known yet.")
        return
    lines = table("Dish", "Season", "Contains", "Last served")
    for row in rows:
        named = row["dish"] if row["approved"] else f"{row['dish']} (not approved)"
        served = (f"{words.day(last['date'])} {last['table']}" for last in row["last_served"])
        add(
            lines,
            "\n  ".join([named, *row["variants"]]),
            f"{row['season_from']} to {row['season_to']}" if row["season_from"] else NEVER,
            contents(row),
            "\n".join(served) or NEVER,
        )
    terminal.print(lines)
    terminal.print(f"{many(len(rows), 'dish', 'dishes')}.")
