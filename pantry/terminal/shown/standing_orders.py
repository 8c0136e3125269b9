"""What suppliers bring of themselves, and what of it has to be stopped."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import plain
from pantry.terminal.shown.alerts import nobody_words
from pantry.terminal.words import Words


def standing_orders(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each supplier's standing order, and the orders that were written for it."""
    if not rows:
        terminal.print("No supplier has a standing order.")
    for row in rows:
        when = "also to an empty house" if row["when_empty"] else "not to an empty house"
        terminal.print(plain(f"\n{row['supplier']}, {when}", "bold"))
        for line in row["lines"]:
            terminal.print(plain(f"  {line['weekday'].capitalize()}: {_what(line)}"))
        for each in row["coming"]:
            terminal.print(plain(f"  Comes {words.moment(each['delivery'])}{_stop(words, each)}"))


def _what(line: Row) -> str:
    if line["words"] is not None:
        return " ".join(filter(None, (line["amount"], line["words"])))
    return f"{line['packs']} x {line['pack']} {line['item']}"


def _stop(words: Words, each: Row) -> str:
    if not each["nobody"]:
        return ""
    by = words.moment(each["tell_by"])
    return f": nobody is in the house {nobody_words(each['nobody'])}; tell them by {by}"
