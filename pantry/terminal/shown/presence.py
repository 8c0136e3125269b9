"""Who is in the house, on a terminal."""

from itertools import groupby

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words


def presence(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Day by day how many eat at each table and meal, what that is made of and who said so."""
    if not rows:
        terminal.print("No table has a meal on these days.")
        return
    for day, of_day in groupby(rows, key=lambda row: row["date"]):
        terminal.print(plain(f"\n{words.day(day)}", "bold"))
        lines = table("Table", "Meal", "Covers>", "Made of", "Menu>")
        for row in of_day:
            covers = NEVER if row["covers"] is None else str(row["covers"])
            made_of = "\n".join(_part(words, part) for part in row["made_of"]) or NEVER
            menu = row["menu"]
            stands = f"{menu['state'].replace('_', ' ')} for {menu['covers']}" if menu else NEVER
            add(lines, row["table"], row["meal"], covers, made_of, stands)
        terminal.print(lines)


def _part(words: Words, part: Row) -> str:
    """`+2 Ann Hale and Tom Hale, said by Rhona on Monday`."""
    if part["what"] == "usual":
        return f"{part['heads']} as usual"
    who = part["who"] or "by the rota"
    number = f"{part['heads']:+d}" if part["what"] in ("stay", "away") else str(part["heads"])
    return f"{number} {who}, said by {part['said_by']} {words.moment(part['said_at'])}"
