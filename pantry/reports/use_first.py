"""What must be used first, and what could use it: what dies soon and is promised to nobody."""

from datetime import datetime, timedelta

from pantry.records.tables import BatchRow
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.menu import RecipeKind, ServiceState
from pantry.rules.seasons import in_season

WITHIN = timedelta(days=14)


def use_first(view: View) -> list[Row]:
    """Batches available that die within a fortnight, or are past their best, the soonest first."""
    soon = view.now + WITHIN
    found = [
        (end, row)
        for row in view.batches
        if (end := _end(row)) is not None and end <= soon and _available(view, row) > 0
    ]
    return [_row(view, row) for _, row in sorted(found, key=lambda pair: (pair[0], pair[1].id))]


def _end(row: BatchRow) -> datetime | None:
    """When it dies, or else when it is only flagged."""
    return row.usable_until or row.good_until


def _available(view: View, row: BatchRow) -> int:
    standing = view.standing.get(row.id)
    if standing is None or row.recalled:
        return 0
    return standing.usable - view.promised.get(row.id, 0)


def _row(view: View, row: BatchRow) -> Row:
    item = view.items[row.item]
    dead = row.usable_until is not None and row.usable_until < view.now
    return {
        "item": item.name,
        "batch": row.id,
        "label": row.label,
        "area": ", ".join(view.areas.get(place, place) for place in view.standing[row.id].shelf),
        "available": amount(_available(view, row), item),
        "usable_until": instant(row.usable_until),
        "good_until": instant(row.good_until),
        "date_mark": row.date_kind,
        "past": "usable_until" if dead else "good_until" if _flagged(view, row) else None,
        "could_use": [] if dead else _could_use(view, row),
    }


def _flagged(view: View, row: BatchRow) -> bool:
    return row.good_until is not None and row.good_until < view.now


def _could_use(view: View, row: BatchRow) -> list[Row]:
    """Dishes proposed for a service in time, then approved dishes of the season, by name."""
    end = row.usable_until or view.now + WITHIN
    using = _dishes_using(view, row.item)
    planned = [
        {"dish": view.recipes[serving.dish].name, "service": service.id}
        for service in view.services
        if service.state in (ServiceState.PROPOSED, ServiceState.CONFIRMED)
        and view.now <= service.at <= end
        for serving in service.servings
        if serving.dish in using
    ]
    named = {row["dish"] for row in planned}
    today = local_date(view.now, view.zone)
    others = [
        {"dish": recipe.name}
        for recipe in sorted(view.recipes.values(), key=lambda recipe: recipe.name)
        if recipe.id in using
        and recipe.offered
        and recipe.name not in named
        and in_season(recipe, today)
    ]
    return [*planned, *others]


def _dishes_using(view: View, item: str) -> set[str]:
    """The dishes an item goes into, through however many preparations."""
    wanted, dishes, waiting = {item}, set[str](), [item]
    while waiting:
        part = waiting.pop()
        for recipe in view.recipes.values():
            if all(line.item != part for line in recipe.ingredients):
                continue
            if recipe.kind is RecipeKind.DISH:
                dishes.add(recipe.id)
            elif recipe.makes and recipe.makes not in wanted:
                wanted.add(recipe.makes)
                waiting.append(recipe.makes)
    return dishes
