"""Suppliers and their calendars."""

from datetime import date

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import plain
from pantry.terminal.words import Words


def suppliers(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each supplier with what comes in the next weeks, by when to order it, and what is moved."""
    if not rows:
        terminal.print("The house has no supplier.")
    for row in rows:
        terminal.print(plain(f"\n{row['supplier']}", "bold"))
        for line in _terms(row):
            terminal.print(plain(f"  {line}"))
        for each in row["coming"]:
            terminal.print(plain(f"  {_comes(words, each)}"))


def _terms(row: Row) -> list[str]:
    told = []
    if row["order_given"] or row["order_words"]:
        how = (row["order_given"] or "").replace("_", " ")
        told.append("Orders: " + ", ".join(filter(None, (how, row["order_words"]))))
    if row["holidays"]:
        kept = row["holidays"]
        where = "-".join(filter(None, (kept["country"], kept["subdivision"])))
        told.append(f"Public holidays of {where}: a delivery {_MOVED[kept['delivery']]}")
    if row["may_fail"]:
        percent = row["fails_percent"]
        told.append("May fail to come" + (f", {percent} in 100" if percent is not None else ""))
    if row["fallback_shop"]:
        told.append(f"Otherwise: {row['fallback_shop']}")
    return told


_MOVED = {
    "falls_away": "falls away",
    "day_before": "comes the working day before",
    "day_after": "comes the working day after",
}


def _comes(words: Words, row: Row) -> str:
    day = f"{date.fromisoformat(row['on']):%a %d %b}"
    if row["delivery"] is None:
        return f"{day}: nothing comes" + _because(row["why"])
    told = f"{words.moment(row['delivery'])}, order by {words.moment(row['order_by'])}"
    if row["comes_on"] != row["on"]:
        told += f"; moved from {day}" + _because(row["why"])
    if row["cutoff_moved"]:
        told += "; earlier because no orders are taken then" + _because(row["cutoff_why"])
    return told


def _because(why: str | None) -> str:
    return f" ({why})" if why else ""
