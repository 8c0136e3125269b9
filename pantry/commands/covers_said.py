"""Menus follow who is in the house: what is proposed by itself, what is confirmed by a question."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date, datetime

from pantry.commands import menus
from pantry.records.books import Books
from pantry.records.questions import ask, close
from pantry.records.read import menu
from pantry.records.read import presence as read
from pantry.records.rows import every, one
from pantry.records.tables import ServiceRow
from pantry.rules.menu import ServiceState
from pantry.rules.presence import Covers, Meal, covers, following
from pantry.rules.services import lapsed

COVERS_SAID = "covers_said"
"""The chef's question about a service for which another number was said than it stands at."""

_TO_COME = (ServiceState.PROPOSED.value, ServiceState.CONFIRMED.value)


@contextmanager
def menus_follow(books: Books) -> Iterator[None]:
    """What is said inside changes the numbers of menus to come; what was as said before follows.

    A proposed service at another number than was said has that from the chef, and keeps it. A
    confirmed one is never changed here: the chef is asked, once a service, with the last word.
    """
    before = _numbers(books)
    yield
    after = _numbers(books)
    for service, now_said in after.items():
        if now_said.number != before[service].number:
            _follow(books, service, before[service], now_said)


def number_said(books: Books, table: str, on: date, meal: str, at: datetime) -> int | None:
    """How many eat at a meal that has no menu yet, by all that was said."""
    return _covers_of(books)(table, on, meal, at).number


def _covers_of(books: Books) -> Callable[[str, date, str, datetime], Covers]:
    said = read.presence(books.connection, books.id)
    tables = menu.tables(books.connection, books.id)
    meals = read.meals(books.connection, books.id, books.zone, books.now)

    def of_meal(table: str, on: date, meal: str, at: datetime) -> Covers:
        times = read.times_of(meals.get(table, {}))
        when = Meal(on, meal, at.astimezone(books.zone).time())
        return covers(tables[table], when, said, times)

    return of_meal


def _numbers(books: Books) -> Mapping[str, Covers]:
    of_meal = _covers_of(books)
    return {row.id: of_meal(row.dining_table, row.on, row.meal, row.at) for row in _to_come(books)}


def _to_come(books: Books) -> list[ServiceRow]:
    return [
        row
        for state in _TO_COME
        for row in every(books.connection, ServiceRow, house=books.id, state=state)
        if not lapsed(row.at, books.now)
    ]


def _follow(books: Books, service: str, before: Covers, after: Covers) -> None:
    row = one(books.connection, ServiceRow, house=books.id, id=service)
    close(books, COVERS_SAID, service, "another number was said", "the house")
    is_chosen = row.state == ServiceState.CONFIRMED.value
    does = following(row.covers, before.number, after.number, is_chosen=is_chosen)
    if does == "asked":
        _ask(books, row, after)
    elif does == "follows":
        menus.moved_on(books, row, covers=after.number)


def _ask(books: Books, row: ServiceRow, after: Covers) -> None:
    last = after.last_said
    by = ""
    if last and last.said_at:
        at = last.said_at.astimezone(books.zone)
        by = f", said by {last.said_by} on {at:%Y-%m-%d} at {at:%H:%M}"
    ask(
        books,
        COVERS_SAID,
        "chef",
        row.id,
        recorded=f"{row.id} is {row.state} for {row.covers}.",
        against=f"{after.number}, not {row.covers}{by}.",
        answers=(f"it stays at {row.covers}",),
    )
