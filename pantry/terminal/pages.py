"""The demo house on a few pages: the house, its morning, its next days, its plan, its questions."""

from collections import Counter
from collections.abc import Sequence

from rich.console import Console

from pantry.reports.ahead import Ahead
from pantry.reports.cut_offs import by_deadline
from pantry.reports.days import days_of
from pantry.reports.house import house
from pantry.reports.morning import morning_of
from pantry.reports.questions import questions
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.menu import ServiceState
from pantry.terminal import shown
from pantry.terminal.printing import plain
from pantry.terminal.shown.plan import deadline, missed
from pantry.terminal.words import Words, many

DAYS = 4
ORDERS = 2
QUESTIONS = 5


def show(terminal: Console, words: Words, seen: View) -> None:
    """Every page, one below the other; each report is asked once."""
    ahead = Ahead(seen)
    _house(terminal, words, seen)
    _morning(terminal, words, morning_of(ahead))
    _days(terminal, words, days_of(ahead, DAYS))
    _plan(terminal, words, ahead.plan)
    _questions(terminal, words, questions(seen))


def begin(terminal: Console, title: str) -> None:
    """A new page, with its title."""
    terminal.print()
    terminal.rule(plain(title, "bold"), align="left", style="")


def _house(terminal: Console, words: Words, seen: View) -> None:
    begin(terminal, f"{seen.house.name}, {words.moment(seen.now)} ({seen.house.zone})")
    shown.house(terminal, words, house(seen))
    states = Counter(service.state for service in seen.services if service.at >= seen.now)
    terminal.print(
        plain(
            f"Ahead: {many(states[ServiceState.CONFIRMED], 'service')} whose menu is confirmed, "
            f"{states[ServiceState.PROPOSED]} that are proposed."
        )
    )


def _morning(terminal: Console, words: Words, rows: Sequence[Row]) -> None:
    """The morning sheet, without the questions, which have a page of their own."""
    begin(terminal, f"This morning, {words.day(words.today)}")
    shown.morning(terminal, words, [row for row in rows if row.get("kind") != "question"])


def _days(terminal: Console, words: Words, rows: Sequence[Row]) -> None:
    """What stands on the days, without what the kitchen has to do before: that fills pages."""
    begin(terminal, "The next days")
    shown.days(terminal, words, [row for row in rows if row["what"] not in ("pull", "make")])


def _plan(terminal: Console, words: Words, rows: Sequence[Row]) -> None:
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
