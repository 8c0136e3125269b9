"""What another length of notice would change for the larder."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, first_of, table
from pantry.terminal.words import NEVER, Words, length


def longer_notice(terminal: Console, words: Words, rows: list[Row]) -> None:
    """How many items each length of notice would let the house buy once a menu is chosen."""
    del words
    if not rows:
        terminal.print("Nothing is bought yet, and no recipe uses anything that is measured.")
        return
    lines = table("Notice", "Bought in", "Kept in", "Against the house's own")
    for row in rows:
        name = f"{length(row['notice'])}{', the own' if row['is_own'] else ''}"
        add(lines, name, str(row["bought_in"]), str(row["kept_in"]), _change(row))
    terminal.print(lines)


def _change(row: Row) -> str:
    names = row["gained"] or row["lost"]
    if not names:
        return NEVER
    many_of = "more" if row["gained"] else "fewer"
    return f"{len(names)} {many_of}: {first_of(names, 3)}"
