"""Who eats: the usual number of a table, its rota, who stays and who is away (RQ5, AL3).

What people said, as it stands; a figure comes with all it is made of (PL7). Days and wall times are
the house's own.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from typing import Literal

from pantry.rules.menu import Constraint, DiningTable

USUAL_TIMES: Mapping[str, time] = {
    "breakfast": time(8),
    "lunch": time(13),
    "tea": time(16),
    "supper": time(18),
    "dinner": time(19, 30),
}
"""When a meal is that a table has not had yet: common practice, no source."""

_CLOCK = re.compile("[0-9]{2}:[0-9]{2}")
_AND = re.compile(r"\s*(?:[,;&]|\band\b)\s*")


@dataclass(frozen=True, slots=True)
class Meal:
    """One meal on one day, at a wall time of the house."""

    on: date
    name: str
    at: time


@dataclass(frozen=True, slots=True)
class Stay:
    """Somebody is in the house and eats at a table.

    Attributes:
        who: one or more names, or what they are (`two guests`).
        heads: how many; 0: they do not come after all.
        first_at: the meal or the wall time from which; empty: the day's first meal.
        last: None: until somebody says.
        last_at: the last meal, or the wall time at which they leave; empty: the day's last meal.
    """

    id: str
    who: str
    heads: int
    table: str
    first: date
    first_at: str
    last: date | None
    last_at: str
    said_by: str
    said_at: datetime


@dataclass(frozen=True, slots=True)
class Away:
    """Somebody of a table eats elsewhere; `meal` empty: at every meal of these days."""

    id: str
    who: str
    heads: int
    table: str
    first: date
    last: date
    meal: str
    said_by: str
    said_at: datetime


@dataclass(frozen=True, slots=True)
class RotaLine:
    """How many eat on a weekday (0 is Monday) or, as an exception, on a day; at one meal or all."""

    heads: int
    weekday: int | None = None
    on: date | None = None
    meal: str = ""


@dataclass(frozen=True, slots=True)
class Rota:
    """How many of a table eat when; what no line names is as usual."""

    table: str
    lines: tuple[RotaLine, ...]
    said_by: str
    said_at: datetime


@dataclass(frozen=True, slots=True)
class Presence:
    """All that people said of who is in the house, as it stands; rotas by table."""

    stays: tuple[Stay, ...] = ()
    away: tuple[Away, ...] = ()
    rotas: Mapping[str, Rota] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Counted:
    """One thing a number of covers is made of: so many more, or (below nothing) fewer.

    What is usual was said by nobody in particular.
    """

    what: Literal["usual", "rota", "stay", "away"]
    heads: int
    id: str = ""
    who: str = ""
    said_by: str = ""
    said_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Covers:
    """How many eat; None: nobody has said anything. Never below nothing."""

    number: int | None
    made_of: tuple[Counted, ...]

    @property
    def last_said(self) -> Counted | None:
        """What was said last of all it is made of."""
        said = [each for each in self.made_of if each.said_at is not None]
        return max(said, key=lambda each: (each.said_at, each.id), default=None)


def covers(table: DiningTable, meal: Meal, presence: Presence, times: Mapping[str, time]) -> Covers:
    """How many eat at a table at a meal: the rota or what is usual, who stays, less who is away.

    Args:
        table: who eats together.
        meal: which meal.
        presence: what was said of the whole house.
        times: when the table's meals usually are, by name.
    """
    made_of = [*_base(table, meal, presence)]
    made_of += [
        Counted("stay", stay.heads, stay.id, stay.who, stay.said_by, stay.said_at)
        for stay in presence.stays
        if stay.table == table.id and stay.heads and _eats(stay, meal, times)
    ]
    made_of += [
        Counted("away", -away.heads, away.id, away.who, away.said_by, away.said_at)
        for away in presence.away
        if away.table == table.id and away.heads and _is_away(away, meal)
    ]
    number = max(0, sum(each.heads for each in made_of)) if made_of else None
    return Covers(number, tuple(made_of))


def _base(table: DiningTable, meal: Meal, presence: Presence) -> Iterable[Counted]:
    rota = presence.rotas.get(table.id)
    line = _line(rota, meal) if rota else None
    if rota and line:
        yield Counted("rota", line.heads, said_by=rota.said_by, said_at=rota.said_at)
    elif table.usual_covers is not None:
        yield Counted("usual", table.usual_covers)


def _line(rota: Rota, meal: Meal) -> RotaLine | None:
    """The line that says most exactly: the day before the weekday, the meal before all of them."""
    fitting = [line for line in _of_day(rota.lines, meal.on) if line.meal in ("", meal.name)]
    return max(fitting, key=lambda line: (line.on is not None, line.meal != ""), default=None)


def _of_day(lines: Iterable[RotaLine], on: date) -> list[RotaLine]:
    return [line for line in lines if line.on == on or line.weekday == on.weekday()]


def _eats(stay: Stay, meal: Meal, times: Mapping[str, time]) -> bool:
    if meal.on < stay.first or (stay.last is not None and meal.on > stay.last):
        return False
    if meal.on == stay.first and not _from(stay.first_at, meal, times):
        return False
    return meal.on != stay.last or _until(stay.last_at, meal, times)


def _from(mark: str, meal: Meal, times: Mapping[str, time]) -> bool:
    begins = clock_of(mark, times)
    return mark == meal.name or begins is None or begins <= meal.at


def _until(mark: str, meal: Meal, times: Mapping[str, time]) -> bool:
    """Whoever leaves at one o'clock is not at a meal at one; whose last meal is lunch is."""
    ends = clock_of(mark, times)
    if mark == meal.name or ends is None:
        return True
    return meal.at < ends if is_clock(mark) else meal.at <= ends


def is_clock(mark: str) -> bool:
    """Whether an end of a stay is a wall time, and no meal."""
    return _CLOCK.fullmatch(mark) is not None


def clock_of(mark: str, times: Mapping[str, time]) -> time | None:
    """When an end of a stay is: its wall time, or its meal's; None where that is not known."""
    if is_clock(mark):
        return time.fromisoformat(mark)
    return times.get(mark, USUAL_TIMES.get(mark))


def _is_away(away: Away, meal: Meal) -> bool:
    return away.first <= meal.on <= away.last and away.meal in ("", meal.name)


Following = Literal["agrees", "asked", "follows", "keeps"]
"""What a menu does when another number is said than before."""


def following(stands: int, before: int | None, after: int | None, *, is_chosen: bool) -> Following:
    """What becomes of a menu for which another number is said.

    What is proposed at the number that was said follows; at another it has that from the chef, and
    keeps it. About what is chosen, or where nobody is left to eat, the chef is asked.

    Args:
        stands: the covers it stands at.
        before: what was said before; None: nothing.
        after: what is said now.
        is_chosen: it is confirmed.
    """
    if after is None or stands == after:
        return "agrees"
    if is_chosen or not after:
        return "asked"
    return "follows" if stands == before else "keeps"


def people_on(day: date, people: int, tables: Iterable[DiningTable], presence: Presence) -> int:
    """How many are in the house on a day: those it is set to, and what was said of the day (RQ5).

    Whoever stays for a part of the day counts, whoever is away at one meal counts too; of a rota
    counts the meal with most.

    Args:
        day: which day.
        people: how many are in the house as a rule.
        tables: all of them.
        presence: what was said.
    """
    rotas = sum(_more_by_rota(day, table, presence.rotas.get(table.id)) for table in tables)
    stay = sum(
        each.heads
        for each in presence.stays
        if each.first <= day and (each.last is None or day <= each.last)
    )
    away = sum(
        each.heads for each in presence.away if not each.meal and each.first <= day <= each.last
    )
    return max(0, people + rotas + stay - away)


def _more_by_rota(day: date, table: DiningTable, rota: Rota | None) -> int:
    lines = _of_day(rota.lines, day) if rota else []
    exceptions = [line for line in lines if line.on == day]
    most = max((line.heads for line in exceptions or lines), default=None)
    return 0 if most is None else most - (table.usual_covers or 0)


def while_they_stay(constraints: Iterable[Constraint], stays: Iterable[Stay]) -> list[Constraint]:
    """What nobody can eat, on every day on which they may be at the table (AL3).

    What was said for some days is in force on these and on all the days of the person's stays: who
    comes again cannot eat it then either. What was said without days is in force always, whatever
    stays are known: whoever lives here may be at the table on other days, too, and too much caution
    is none too many. A stay that was called off says nothing.
    """
    known: dict[tuple[str, str], list[Stay]] = {}
    for stay in stays:
        for name in names_in(stay.who) if stay.heads else ():
            known.setdefault((name, stay.table), []).append(stay)
    found = []
    for each in constraints:
        found.append(each)
        if each.first is None and each.last is None:
            continue
        own = known.get((_plain(each.person), each.table), [])
        days = {(stay.first, stay.last) for stay in own} - {(each.first, each.last)}
        found += [
            replace(each, first=first, last=last)
            for first, last in sorted(days, key=lambda pair: (pair[0], pair[1] or date.max))
        ]
    return found


def names_in(who: str) -> list[str]:
    """The names in what a stay says of who it is: `Ann Hale and Tom Hale` are two."""
    return [_plain(name) for name in (who, *_AND.split(who)) if name.strip()]


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())
