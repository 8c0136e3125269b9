"""Who in the house cannot eat a dish, whether or not it stands on a menu (AL3)."""

from collections.abc import Iterator
from datetime import date

from pantry.reports import safe_dishes
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.menu import Recipe, RecipeKind, Service, ServiceState, Serving

_COURSE = ""


def who_cannot_eat(view: View, dish: Recipe) -> Iterator[Row]:
    """Each person and word once, from today on; `first` is the day from which, where it is later.

    A preparation is on nobody's plate by itself: the dishes cooked from it tell.
    """
    if dish.kind is not RecipeKind.DISH:
        return
    today = local_date(view.now, view.zone)
    told = set[tuple[str, str, str]]()
    for table in sorted(view.tables.values(), key=lambda each: (each.rank, each.name)):
        for day in _days(view, table.id, today):
            service = _thought_of(view, dish, table.id, day)
            for each in safe_dishes.told(view, service, service.servings[0]):
                key = (table.id, each["person"], each["cannot_eat"])
                if key not in told:
                    told.add(key)
                    yield each | {"table": table.name, "first": _later(day, today)}


def _days(view: View, table: str, today: date) -> list[date]:
    """Today, and every later day on which a constraint of a table begins."""
    of_table = (each for each in view.constraints if each.table == table)
    ahead = (each.first for each in of_table if each.first and each.first > today)
    return sorted({today, *ahead})


def _later(day: date, today: date) -> str | None:
    return day.isoformat() if day > today else None


def _thought_of(view: View, dish: Recipe, table: str, day: date) -> Service:
    return Service(
        id="",
        date=day,
        meal="",
        table=table,
        at=view.now,
        covers=0,
        state=ServiceState.PROPOSED,
        servings=(Serving(_COURSE, dish.id),),
    )
