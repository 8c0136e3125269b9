"""The morning sheet, as a kitchen reads it at seven."""

from collections.abc import Callable, Sequence

from rich.console import Console
from rich.table import Table

from pantry.reports.report import Row
from pantry.terminal.printing import add
from pantry.terminal.shown.day_lines import line, made, pulled
from pantry.terminal.words import Words


def morning(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What dies today, what to pull, what comes, what must be ordered, chosen, made, was left."""
    lines = Table.grid("what", "which", padding=(0, 2))
    for what, (title, said) in _PARTS.items():
        found = [said(words, row) for row in rows if row["what"] == what]
        add(lines, title, "\n".join(found) or "nothing")
    meals = [line(words, row) for row in rows if row["what"] == "service"]
    add(lines, "Served today", "; ".join(meals) or "nothing")
    left = _left(words, [row for row in rows if row["what"] == "left"])
    add(lines, "Left unfinished", "\n".join(left) or "nothing")
    terminal.print(lines)


def _dying(words: Words, row: Row) -> str:
    """`Double cream B-0004, 2 l in Cold room, 1.2 l of it promised`."""
    said = f"{row['item']} {row['label']}, {words.amount(row['on_hand'])} in {row['area']}"
    if row["promised"]["value"] == "0":
        return f"{said}, promised to nobody"
    return f"{said}, {words.amount(row['promised'])} of it promised"


def _pull(words: Words, row: Row) -> str:
    return f"{pulled(words, row)}: out by {words.time(row['at'])}"


def _make(words: Words, row: Row) -> str:
    return f"{made(words, row)}: ready by {words.time(row['at'])}"


def _comes(words: Words, row: Row) -> str:
    """`06:45 Tolsaig Creamery: 1 x crate of 6 x 2 l Whole milk`."""
    lines = (f"{each['packs']} x {each['pack']} {each['item']}" for each in row["lines"])
    return f"{line(words, row)}: {', '.join(lines)}"


def _left(words: Words, rows: Sequence[Row]) -> list[str]:
    """What was left, each with since when.

    Services that nobody recorded share a line, and so does what has died and stands there still.
    """
    unrecorded = [words.service(row["key"]) for row in rows if row["kind"] == "service"]
    said = [f"Not recorded as served: {'; '.join(unrecorded)}"] if unrecorded else []
    died = [row["text"].partition(": it has died")[0] for row in rows if row["kind"] == "batch"]
    if died:
        said.append(f"Died, not to be used, to be recorded as waste: {'; '.join(died)}")
    others = (row for row in rows if row["kind"] not in ("service", "batch"))
    return said + [f"{words.moment(row['since'])}: {row['text']}" for row in others]


_PARTS: dict[str, tuple[str, Callable[[Words, Row], str]]] = {
    "dies": ("Dies today", _dying),
    "pull": ("Out of the freezer", _pull),
    "delivery": ("Comes today", _comes),
    "cut_off": ("Order today by", line),
    "choose_by": ("Choose today by", line),
    "make": ("To be made", _make),
}
