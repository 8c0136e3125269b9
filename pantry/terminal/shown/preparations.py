"""What the kitchen makes, day by day in the order of making."""

from collections.abc import Iterator

from rich.console import Console

from pantry.reports.conflict_words import called, conflict_said
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import Words


def preparations(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A table for each day: how much of what by when, of what, for which dishes."""
    if not rows:
        terminal.print("Nothing is to be made in these days.")
        return
    for day in dict.fromkeys(row["day"] for row in rows):
        lines = table("Begin", "Make", "Of", "For", "", title=words.day(day))
        for row in (row for row in rows if row["day"] == day):
            add(
                lines,
                words.time(row["start"]),
                f"{words.amount(row['quantity'])} {row['preparation']}",
                "\n".join(_line(words, line) for line in row["lines"]),
                "\n".join(_wanted(words, part) for part in row["wanted"]),
                _state(row),
            )
        terminal.print(lines)
        for said in dict.fromkeys(_conflicts(words, rows, day)):
            terminal.print(plain(said, "bold"))


def _conflicts(words: Words, rows: list[Row], day: str) -> Iterator[str]:
    """Who cannot eat a dish that something of a day is made for, meal by meal."""
    for part in (part for row in rows if row["day"] == day for part in row["wanted"]):
        for each in part["conflicts"]:
            dish = called({"name": each["dish"], "variant": each["variant"]})
            said = conflict_said(each, dish, words.moment)
            yield f"{words.service(part['service'])}: {said}"


def _line(words: Words, line: Row) -> str:
    places = ", ".join(part["label"] for part in line["from"] if "label" in part)
    short = "" if line["short"]["value"] == "0" else f", {words.amount(line['short'])} short"
    return f"{words.amount(line['need'])} {line['item']}{places and f' ({places})'}{short}"


def _wanted(words: Words, part: Row) -> str:
    into = f"{part['into']}, " if part["into"] else ""
    return f"{into}{part['dish']}, {words.service(part['service'])}"


def _state(row: Row) -> str:
    if row["done"]:
        return f"made: {row['done']['label']}"
    return "not ready in time any more" if row["late"] else ""
