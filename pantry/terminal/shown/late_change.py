"""What a late change would do: short, to be ordered by when, spare and until when it keeps."""

from itertools import groupby

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words

_HEADS = {
    "short": "Short, and not to be had any more",
    "to_order": "Short, and still to be ordered",
    "spare": "Spare: no chosen menu uses it any more",
    "coming_spare": "On its way, and no chosen menu uses it any more",
    "set_aside": "Set aside besides",
    "make_more": "To be made besides",
    "make_less": "Not to be made",
    "covered": "No longer short",
}


def late_change(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A list for each kind of effect, the worst first."""
    if not rows:
        terminal.print("Nothing else changes.")
        return
    for effect, of_effect in groupby(rows, key=lambda row: row["effect"]):
        terminal.print(plain(f"\n{_HEADS[effect]}", "bold"))
        lines = table("Item", "Quantity>", "Whose", "Until")
        for row in of_effect:
            add(
                lines,
                row["item"],
                words.amount(row["quantity"]),
                _whose(words, row),
                _until(words, row),
            )
        terminal.print(lines)


def _whose(words: Words, row: Row) -> str:
    if row["service"]:
        dish = f", {row['dish']}" if row["dish"] else ""
        return f"{words.service(row['service'])}{dish}"
    return str(row["label"] or NEVER)


def _until(words: Words, row: Row) -> str:
    """Until when it can be ordered, or may be used; of what is made or comes, when that is."""
    if row["effect"] == "to_order":
        return f"order by {words.moment(row['mend_until'])}"
    if row["usable_until"]:
        return f"usable until {words.moment(row['usable_until'])}"
    if row["good_until"]:
        return f"good until {words.moment(row['good_until'])}"
    return words.moment(row["when"])
