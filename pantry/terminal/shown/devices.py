"""The devices of the house."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import listed, plain
from pantry.terminal.words import Words, many


def devices(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each device: since when, when it was last heard, what it has not handed in, whose it is."""
    if not rows:
        terminal.print("No phone is enrolled.")
        return
    for row in rows:
        state = " (taken out of the house)" if row["revoked"] else ""
        locked = ", locked after wrong PINs" if row["locked"] else ""
        terminal.print(plain(f"\n{row['name']}{state}{locked}", "bold"))
        heard = words.moment(row["heard_at"]) if row["heard_at"] else "never"
        terminal.print(
            plain(f"  Enrolled {words.moment(row['enrolled_at'])}; last heard of: {heard}")
        )
        if row["unsent"]:
            terminal.print(plain(f"  Holds {many(row['unsent'], 'record')} not handed in yet"))
        if row["people"]:
            terminal.print(plain(f"  Used by {listed(row['people'], 'and')}"))
    terminal.print(f"\n{many(len(rows), 'device')}.")
