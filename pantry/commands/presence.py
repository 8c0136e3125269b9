"""Say who is in the house: who comes to stay, who eats elsewhere, who works when."""

import json
from dataclasses import dataclass
from datetime import date
from typing import Any

from pantry.commands import base, naming
from pantry.commands.add_guest import look_again
from pantry.commands.covers_said import menus_follow
from pantry.commands.given import Given
from pantry.commands.presence_decisions import EndStay, RotaPart, SayAway, SayStay, SetRota
from pantry.commands.set_calendar import weekday
from pantry.records.books import Books
from pantry.records.read import presence as read
from pantry.records.rows import add, every
from pantry.records.slugs import slug
from pantry.records.tables import AwayRow, ConstraintRow, RotaRow, StayRow
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.rules.presence import USUAL_TIMES, clock_of, is_clock, names_in

STAY_UNKNOWN = declare("stay_unknown", "Nobody stays under that id.")
STAY_BACKWARDS = declare("stay_backwards", "A stay or an absence ends before it begins.")
MEAL_UNKNOWN = declare("meal_unknown", "The house has no meal of that name, and it is no time.")
ROTA_LINE_UNCLEAR = declare("rota_line_unclear", "A line of a rota says no day, or two.")
ROTA_LINE_TWICE = declare("rota_line_twice", "Two lines of a rota are about the same meal.")


@dataclass(slots=True)
class _Stands:
    """What decisions on a saying are taken on: its place in the journal, and its command (SY3)."""

    id: str
    version: int
    last_command: str


def say_stay(books: Books, given: Given[SayStay]) -> None:
    """Write that somebody stays, or what is otherwise now; menus follow (AL3 looks at them again).

    Raises:
        NotThere: `table_unknown`, `meal_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `date_unreadable`, `stay_backwards`.
    """
    body = given.body
    table = naming.dining_table(books, body.table).id
    before = last_stay(books, body.stay)
    if before:
        _check(books, given, before, before.who)
    first = naming.day(body.first, "body.first")
    last = None if body.last is None else naming.day(body.last, "body.last")
    row = StayRow(
        house=books.id,
        id=body.stay,
        command=given.id,
        number=books.position,
        who=body.who.strip(),
        heads=body.heads,
        dining_table=table,
        first=first,
        first_at=_mark(books, table, body.first_at, "body.first_at"),
        last=last,
        last_at=_mark(books, table, body.last_at, "body.last_at"),
        said_by=body.by.strip() or given.person,
        said_at=given.at,
    )
    _write_stay(books, row)


def end_stay(books: Books, given: Given[EndStay]) -> None:
    """Write when somebody leaves instead, or that they do not come.

    Raises:
        NotThere: `stay_unknown`, `meal_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `date_unreadable`, `stay_backwards`.
    """
    body = given.body
    before = last_stay(books, body.stay)
    if before is None:
        raise NotThere(
            STAY_UNKNOWN,
            f"Nobody stays under {body.stay!r}.",
            "Look who stays, and name the stay by its id.",
            value=body.stay,
            field="body.stay",
        )
    _check(books, given, before, before.who)
    said: dict[str, object] = {"heads": 0}
    if body.last is not None:
        mark = _mark(books, before.dining_table, body.last_at, "body.last_at")
        said = {"last": naming.day(body.last, "body.last"), "last_at": mark}
    own = {
        "command": given.id,
        "number": books.position,
        "said_by": body.by.strip() or given.person,
        "said_at": given.at,
    }
    _write_stay(books, StayRow(**{**before.model_dump(), **own, **said}))


def say_away(books: Books, given: Given[SayAway]) -> None:
    """Write who of a table eats elsewhere, or what is otherwise now; menus follow.

    Raises:
        NotThere: `table_unknown`, `meal_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `date_unreadable`, `stay_backwards`.
    """
    body = given.body
    table = naming.dining_table(books, body.table).id
    rows = every(books.connection, AwayRow, house=books.id, id=body.away)
    for before in read.standing(rows, lambda row: row.id):
        _check(books, given, before, before.who)
    first = naming.day(body.first, "body.first")
    last = first if body.last is None else naming.day(body.last, "body.last")
    _refuse_backwards(first, last)
    meal = _meal(books, table, body.meal, "body.meal")
    row = AwayRow(
        house=books.id,
        id=body.away,
        command=given.id,
        number=books.position,
        who=body.who.strip(),
        heads=body.heads,
        dining_table=table,
        first=first,
        last=last,
        meal=meal,
        said_by=body.by.strip() or given.person,
        said_at=given.at,
    )
    with menus_follow(books):
        add(books.connection, row)
    books.note("away", row.id)


def set_rota(books: Books, given: Given[SetRota]) -> None:
    """Write how many of a table eat when, in the place of its rota before; menus follow.

    Raises:
        NotThere: `table_unknown`, `meal_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `weekday_unreadable`, `date_unreadable`, `rota_line_unclear`,
            `rota_line_twice`.
    """
    body = given.body
    table = naming.dining_table(books, body.table)
    rows = every(books.connection, RotaRow, house=books.id, dining_table=table.id)
    for before in read.standing(rows, lambda row: row.dining_table):
        _check(books, given, before, f"The rota of {table.name}")
    row = RotaRow(
        house=books.id,
        dining_table=table.id,
        command=given.id,
        number=books.position,
        lines=json.dumps(_lines(books, table.id, body.lines)),
        said_by=body.by.strip() or given.person,
        said_at=given.at,
    )
    with menus_follow(books):
        add(books.connection, row)
    books.note("rota", table.id)


def last_stay(books: Books, stay: str) -> StayRow | None:
    """What was said last of a stay."""
    rows = every(books.connection, StayRow, house=books.id, id=stay)
    return next(iter(read.standing(rows, lambda row: row.id)), None)


def look_at_menus(books: Books, row: StayRow) -> None:
    """Ask the chef about every menu that somebody who stays cannot eat (AL3)."""
    names = set(names_in(row.who))
    known = every(books.connection, ConstraintRow, house=books.id, dining_table=row.dining_table)
    for person in sorted({each.person for each in known}):
        if set(names_in(person)) & names:
            look_again(books, row.dining_table, person)


def _write_stay(books: Books, row: StayRow) -> None:
    _refuse_backwards(row.first, row.last)
    _refuse_no_meal(books, row)
    with menus_follow(books):
        add(books.connection, row)
    books.note("stay", row.id)
    look_at_menus(books, row)


def _check(books: Books, given: Given[Any], row: Any, called: str) -> None:  # noqa: ANN401 - one of three tables
    base.check(books, given, _Stands(called, row.number, row.command), called)


def _refuse_backwards(first: date, last: date | None) -> None:
    if last is not None and last < first:
        raise UnreadableInput(
            STAY_BACKWARDS,
            f"It ends on {last} and begins on {first}.",
            "Give the first day and the last, in this order.",
            value=last.isoformat(),
            field="body.last",
        )


def _refuse_no_meal(books: Books, row: StayRow) -> None:
    """Refuse a stay of one day that ends at an earlier meal or hour than it begins."""
    meals = read.meals(books.connection, books.id, books.zone, books.now)
    times = read.times_of(meals.get(row.dining_table, {}))
    begins, ends = clock_of(row.first_at, times), clock_of(row.last_at, times)
    if row.first == row.last and begins and ends and ends < begins:
        raise UnreadableInput(
            STAY_BACKWARDS,
            f"On {row.first} it ends with {row.last_at}, before it begins with {row.first_at}.",
            "Give the first meal and the last, in this order.",
            value=row.last_at,
            field="body.last_at",
        )


def _mark(books: Books, table: str, written: str | None, field: str) -> str:
    text = (written or "").strip()
    if is_clock(text) and text < "24:00" and text[3:] < "60":
        return text
    return _meal(books, table, text, field)


def _meal(books: Books, table: str, written: str | None, field: str) -> str:
    name = slug(written or "")
    meals = read.meals(books.connection, books.id, books.zone, books.now)
    known = read.times_of(meals.get(table, {})).keys() | USUAL_TIMES.keys()
    if written and name not in known:
        raise NotThere(
            MEAL_UNKNOWN,
            f"The house has no meal {written!r}.",
            f"Write one of {', '.join(sorted(known))}; or the time, such as 16:30.",
            value=written,
            field=field,
        )
    return name


def _lines(books: Books, table: str, parts: list[RotaPart]) -> list[dict[str, object]]:
    lines: list[dict[str, object]] = []
    for number, part in enumerate(parts):
        field = f"body.lines[{number}]"
        if (part.weekday is None) == (part.date is None):
            raise UnreadableInput(
                ROTA_LINE_UNCLEAR,
                "A line of a rota is for a weekday or for a date, and for one of them.",
                "Give weekday or date.",
                field=field,
            )
        same = {**_when(part, field), "meal": _meal(books, table, part.meal, field)}
        if any({**line, "heads": 0} == {**same, "heads": 0} for line in lines):
            raise UnreadableInput(
                ROTA_LINE_TWICE,
                "Two lines of the rota are for the same day and meal.",
                "Keep one of them.",
                value=part.weekday or part.date or "",
                field=field,
            )
        lines.append({**same, "heads": part.heads})
    return lines


def _when(part: RotaPart, field: str) -> dict[str, object]:
    if part.date is not None:
        return {"on": naming.day(part.date, field).isoformat()}
    return {"weekday": weekday(part.weekday or "", field)}
