"""What the house has used of each item, and what its approved dishes ask of it at most."""

from dataclasses import replace
from datetime import date, timedelta

from sqlalchemy import text

from pantry.records.rows import table
from pantry.records.tables import MovementRow
from pantry.reports.view import View
from pantry.rules.house_time import Span, local_date
from pantry.rules.kitchen import project
from pantry.rules.menu import Recipe, RecipeKind, Service, ServiceState, Serving
from pantry.rules.recipes import direct_needs

_USE = text(
    "SELECT b.item, m.at, m.quantity FROM movement m"
    " JOIN batch b ON b.house = m.house AND b.id = m.batch"
    " WHERE m.house = :house AND (m.target LIKE 'served:%' OR m.target = 'made_into')"
).columns(at=table(MovementRow).c.at.type)


def use_by_day(view: View) -> dict[str, dict[date, int]]:
    """What was eaten or made into something, by item and local day, in thousandths."""
    used: dict[str, dict[date, int]] = {}
    for item, at, quantity in view.connection.execute(_USE, {"house": view.id}):
        by_day = used.setdefault(item, {})
        day = local_date(at, view.zone)
        by_day[day] = by_day.get(day, 0) + quantity
    return used


def largest_needs(view: View) -> dict[str, int]:
    """The most that one service of an approved dish needs of each item, in thousandths.

    For the most covers that any table usually has; through preparations.
    """
    covers = max((table_.usual_covers or 0 for table_ in view.tables.values()), default=0)
    largest: dict[str, int] = {}
    for recipe in view.recipes.values():
        if recipe.offered and recipe.kind is RecipeKind.DISH and view.tables and covers:
            for item, quantity in _needs(view, recipe, covers).items():
                largest[item] = max(largest.get(item, 0), quantity)
    return largest


def _needs(view: View, recipe: Recipe, covers: int) -> dict[str, int]:
    """What a dish for so many wants, preparations taken apart as if none were there."""
    table_ = next(iter(view.tables))
    service = Service(
        id="",
        date=local_date(view.now, view.zone),
        meal="",
        table=table_,
        at=view.now,
        covers=covers,
        state=ServiceState.PROPOSED,
        servings=(Serving("", recipe.id),),
    )
    needs = direct_needs(service, view.recipes, view.items, view.tables, view.zone)
    bare = replace(view.kitchen, sources={}, fixed={})
    found: dict[str, int] = {}
    for of_item in project(needs, bare, view.now).needs.values():
        for need in of_item:
            found[need.item] = found.get(need.item, 0) + need.quantity
    return found


def longest_leads(view: View) -> dict[str, Span]:
    """The longest lead of an approved recipe that uses each item, through preparations."""
    leads: dict[str, Span] = {}
    for recipe in view.recipes.values():
        if recipe.offered and recipe.kind is RecipeKind.DISH:
            _spread(view, recipe, recipe.lead, leads)
    return leads


def _spread(view: View, recipe: Recipe, lead: Span, leads: dict[str, Span]) -> None:
    for line in recipe.ingredients:
        known = leads.get(line.item)
        if known is not None and _length(known) >= _length(lead):
            continue
        leads[line.item] = lead
        made_by = view.preparations.get(line.item)
        if made_by is not None:
            further = Span(lead.days + made_by.lead.days, lead.exact + made_by.lead.exact)
            _spread(view, made_by, further, leads)


def _length(span: Span) -> timedelta:
    return timedelta(days=span.days) + span.exact
