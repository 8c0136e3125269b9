"""The sheets `stays`, `away` and `rota`: who comes, who eats elsewhere, how many eat when (RQ5)."""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any
from uuid import NAMESPACE_OID, uuid5

from pantry.commands.book import cells
from pantry.commands.book.people import refuse_backwards
from pantry.commands.book.reading import Line, Reading
from pantry.commands.book.services import Meal
from pantry.commands.presence import MEAL_UNKNOWN, ROTA_LINE_TWICE, ROTA_LINE_UNCLEAR
from pantry.commands.set_calendar import weekday
from pantry.records.slugs import slug
from pantry.records.tables import AwayRow, RotaRow, StayRow
from pantry.refusals import NotThere, declare
from pantry.rules.presence import USUAL_TIMES, is_clock

TEXT_TOO_LONG = declare("text_too_long", "A cell has more letters than its column takes.")

_WHO = 120
_BY = 80
_HEADS = cells.whole(1, 1_000)
_EATING = cells.whole(0, 1_000)

Saying = StayRow | AwayRow | RotaRow


@dataclass(slots=True)
class Sayings:
    """What a book says of who is in the house.

    Attributes:
        rows: as yet without a command and a number, and without who said it where no cell does.
        meals: the meals of each table that the house or the book has, by the table's id.
    """

    rows: list[Saying] = field(default_factory=list)
    meals: Mapping[str, frozenset[str]] = field(default_factory=dict)


def read_presence(reading: Reading, services: Iterable[Meal]) -> list[Saying]:
    """Every row of `stays` and `away`, and one rota for each table that `rota` has rows of."""
    said = Sayings(meals=_meals(reading, services))
    _read_stays(reading, said)
    _read_away(reading, said)
    _read_rota(reading, said)
    return said.rows


def _meals(reading: Reading, services: Iterable[Meal]) -> dict[str, frozenset[str]]:
    found = dict(reading.known.meals)
    for each in services:
        of_table = found.get(each.row.dining_table, frozenset())
        found[each.row.dining_table] = of_table | {each.row.meal}
    return found


def _read_stays(reading: Reading, said: Sayings) -> None:
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("stays"):
        table = line.refer("table", reading.tables)
        who = _text(line, "who", _WHO)
        first, last = _days(line)
        line.once(seen, table, slug(who), first.isoformat(), column="from")
        row = StayRow(
            house=reading.house.id,
            **_saying(line),
            id=_identity("stay", table, slug(who), first.isoformat()),
            who=who,
            heads=line.read("heads", _HEADS, 1),
            dining_table=table,
            first=first,
            first_at=line.read("from_at", _mark(said, table), ""),
            last=last,
            last_at=line.read("to_at", _mark(said, table), ""),
        )
        said.rows.append(row)


def _read_away(reading: Reading, said: Sayings) -> None:
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("away"):
        table = line.refer("table", reading.tables)
        who = _text(line, "who", _WHO)
        first, last = _days(line)
        meal = line.read("meal", _meal(said, table), "")
        line.once(seen, table, slug(who), first.isoformat(), meal or "all", column="from")
        row = AwayRow(
            house=reading.house.id,
            **_saying(line),
            id=_identity("away", table, slug(who), first.isoformat(), meal),
            who=who,
            heads=line.read("heads", _HEADS, 1),
            dining_table=table,
            first=first,
            last=last or first,
            meal=meal,
        )
        said.rows.append(row)


def _read_rota(reading: Reading, said: Sayings) -> None:
    """The rows of one table are one rota, which takes the place of the one it had."""
    of_table: dict[str, list[dict[str, object]]] = {}
    for line in reading.lines("rota"):
        table = line.refer("table", reading.tables)
        same = _when(line) | {"meal": line.read("meal", _meal(said, table), "")}
        lines = of_table.setdefault(table, [])
        if any({**each, "heads": 0} == {**same, "heads": 0} for each in lines) and not line.faulty:
            line.fault(
                "weekday" if line.text("weekday") else "date",
                ROTA_LINE_TWICE,
                "An earlier row is for the same table, day and meal.",
                "Keep one of the two rows.",
            )
        lines.append(same | {"heads": line.read("heads", _EATING, 0)})
    for table, lines in of_table.items():
        said.rows.append(
            RotaRow(
                house=reading.house.id,
                dining_table=table,
                command="",
                number=0,
                lines=json.dumps(lines),
                said_by="",
                said_at=reading.at,
            )
        )


def _when(line: Line) -> dict[str, object]:
    if bool(line.text("weekday")) == bool(line.text("date")):
        line.fault(
            "weekday",
            ROTA_LINE_UNCLEAR,
            "A row of a rota is for a weekday or for a date, and for one of them.",
            "Fill in weekday, or date for one day alone.",
        )
    on = line.read("date", cells.day, None)
    if on:
        return {"on": on.isoformat()}
    return {"weekday": line.read("weekday", lambda text: weekday(text, ""), 0)}


def _days(line: Line) -> tuple[date, date | None]:
    first = line.read("from", cells.day, line.reading.at.date())
    last = line.read("to", cells.day, None)
    if last and last < first and "from" not in line.faulty:
        refuse_backwards(line)
    return first, last


def _saying(line: Line) -> dict[str, Any]:
    """Who said it and when, the book being brought where no cell says so."""
    return {
        "command": "",
        "number": 0,
        "said_by": _text(line, "said_by", _BY),
        "said_at": line.read("said_at", _by_now(line.reading), line.reading.at),
    }


def _by_now(reading: Reading) -> Callable[[str], datetime]:
    """A reader of when something was said; a time to come is taken for now."""
    read = cells.moment(reading.zone)
    return lambda text: min(read(text), reading.at)


def _mark(said: Sayings, table: str) -> Callable[[str], str]:
    """A reader of an end of a stay: a wall time, or a meal of the table."""
    meal = _meal(said, table)

    def read(text: str) -> str:
        padded = text.rjust(5, "0")
        if is_clock(padded) and padded < "24:00" and padded[3:] < "60":
            return padded
        return meal(text)

    return read


def _meal(said: Sayings, table: str) -> Callable[[str], str]:
    """A reader of a meal that the table has or a house usually has, or `meal_unknown`."""
    known = said.meals.get(table, frozenset()) | USUAL_TIMES.keys()

    def read(text: str) -> str:
        if slug(text) in known:
            return slug(text)
        raise NotThere(
            MEAL_UNKNOWN,
            f"The house has no meal {text!r}.",
            f"Write one of {', '.join(sorted(known))}; the end of a stay may be a time, too.",
            value=text,
        )

    return read


def _text(line: Line, column: str, most: int) -> str:
    text = line.text(column)
    if len(text) > most:
        line.fault(
            column,
            TEXT_TOO_LONG,
            f"It has {len(text)} letters, and at most {most} are taken.",
            "Write it shorter.",
        )
    return text


def _identity(*parts: str) -> str:
    """The same for the same row of every book, and never too long for a command to name it."""
    return str(uuid5(NAMESPACE_OID, "|".join(parts)))
