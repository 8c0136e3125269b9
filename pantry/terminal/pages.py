"""The demo house on a few pages: the house, its morning, its next days, its plan, its questions."""

from collections import Counter
from datetime import timedelta

from rich.console import Console
from rich.table import Table

from pantry.reports.questions import questions
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.menu import RecipeKind, ServiceState
from pantry.terminal import shown
from pantry.terminal.morning import Morning
from pantry.terminal.printing import add, plain
from pantry.terminal.shown.plan import by_deadline, deadline, missed
from pantry.terminal.words import Words, many

DAYS = 5
ORDERS = 2
QUESTIONS = 5


def show(terminal: Console, words: Words, seen: View) -> None:
    """Every page, one below the other."""
    morning = Morning(words, seen)
    _house(terminal, words, morning)
    _morning(terminal, words, morning)
    _days(terminal, words, morning)
    _plan(terminal, words, morning.plan)
    _questions(terminal, words, questions(seen))


def begin(terminal: Console, title: str) -> None:
    """A new page, with its title."""
    terminal.print()
    terminal.rule(plain(title, "bold"), align="left", style="")


def _house(terminal: Console, words: Words, morning: Morning) -> None:
    seen = morning.seen
    begin(terminal, f"{seen.house.name}, {words.moment(seen.now)} ({seen.house.zone})")
    dishes = sum(recipe.kind is RecipeKind.DISH for recipe in seen.recipes.values())
    states = Counter(service.state for service in seen.services if service.at >= seen.now)
    terminal.print(
        plain(
            f"{many(len(morning.stock), 'batch', 'batches')} of {many(len(seen.items), 'item')} "
            f"in {many(len(seen.areas), 'storage area')}; "
            f"{many(len(seen.suppliers), 'supplier')}; {many(dishes, 'dish', 'dishes')}; "
            f"{many(seen.house.people, 'person', 'people')} in the house, at "
            f"{many(len(seen.tables), 'table')}."
        )
    )
    terminal.print(
        plain(
            f"Ahead: {many(states[ServiceState.CONFIRMED], 'service')} whose menu is confirmed, "
            f"{states[ServiceState.PROPOSED]} that are proposed."
        )
    )


def _morning(terminal: Console, words: Words, morning: Morning) -> None:
    today = words.today
    begin(terminal, f"This morning, {words.day(today)}")
    lines = Table.grid("what", "which", padding=(0, 2))
    for what, found in (
        ("Dies today", morning.dies(today)),
        ("Out of the freezer", morning.pulls(today)),
        ("Comes today", morning.comes(today)),
        ("Order today by", morning.cut_offs(today)),
        ("To be made", morning.makes(today)),
    ):
        add(lines, what, "\n".join(found) or "nothing")
    terminal.print(lines)


def _days(terminal: Console, words: Words, morning: Morning) -> None:
    begin(terminal, "The next days")
    lines = Table.grid("day", "what", "which", padding=(0, 2))
    for ahead in range(DAYS):
        day = words.today + timedelta(days=ahead)
        name = words.day(day)
        for what, found in (
            ("meals", morning.meals(day)),
            ("comes", morning.vans(day)),
            ("order by", morning.cut_offs(day)),
            ("choose by", morning.to_choose(day)),
            ("dies", morning.last_day(day)),
        ):
            if found:
                add(lines, name, what, "; ".join(found))
                name = ""
    terminal.print(lines)


def _plan(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What cannot be had any more, then the first orders; how many more there are."""
    begin(terminal, "What to order, by when, and why")
    missed(terminal, words, [row for row in rows if row["alert"] == "missed"])
    orders = by_deadline(rows)
    shown.plan(terminal, words, [row for order in orders[:ORDERS] for row in order])
    for order in orders[ORDERS:]:
        terminal.print(plain(f"{deadline(words, order)}; {many(len(order), 'item')}"))


def _questions(terminal: Console, words: Words, rows: list[Row]) -> None:
    begin(terminal, "What somebody must settle")
    shown.questions(terminal, words, rows[:QUESTIONS])
    if len(rows) > QUESTIONS:
        terminal.print(f"And {len(rows) - QUESTIONS} more.")
