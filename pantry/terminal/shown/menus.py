"""The menus of the days ahead, service by service."""

from rich.console import Console
from rich.table import Table

from pantry.reports.conflict_words import called, conflict_said
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words, many

_STATES = {"taken_off": "taken off the menu"}


def menus(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each service with its dishes, what they lack and by when they must be chosen."""
    if not rows:
        terminal.print("No menu is proposed.")
        return
    for row in rows:
        state = _STATES.get(row["state"], row["state"])
        covers = many(row["covers"], "cover")
        terminal.print(plain(f"\n{words.service(row['service'])}: {covers}, {state}", "bold"))
        if row["courses"]:
            terminal.print(_dishes(words, row))
        for course in row["courses"]:
            for dish in course["dishes"]:
                for each in dish["conflicts"]:
                    terminal.print(plain(conflict_said(each, called(dish), words.moment)))


def _dishes(words: Words, row: Row) -> Table:
    lines = table("Course", "Dish", "Portions>", "Choose by|", "Lacks")
    proposed = row["state"] == "proposed"
    for course in row["courses"]:
        for dish in course["dishes"]:
            add(
                lines,
                course["course"],
                called(dish),
                str(dish["portions"] or row["covers"]),
                words.moment(dish["choose_by"]) if proposed else NEVER,
                ", ".join(dish["short"]) or NEVER,
            )
    return lines
