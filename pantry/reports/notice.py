"""Bought in or kept in: is the notice long enough to buy an item once the menu is chosen (PL6)?"""

from collections.abc import Mapping
from datetime import date, timedelta

from pantry.reports.report import Row, amount
from pantry.reports.use_so_far import largest_needs, longest_leads, use_by_day
from pantry.reports.view import View
from pantry.rules.house_time import Span, days_of, local_date, write_span
from pantry.rules.notice import Notice, ServedMeal, Verdict, longest, served_meals
from pantry.rules.notice import notice as notice_of
from pantry.rules.par import Levels, proposed_levels, replenishment
from pantry.rules.stock import Item
from pantry.rules.supply import Pack

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def notice(view: View) -> list[Row]:
    """A row for each item that is measured and bought, by name.

    `needed` is null where no supplier can bring it in time for any meal. Floor and level are
    proposals for what is kept in: they order nothing until a person or a sheet sets them.
    """
    used, largest = use_by_day(view), largest_needs(view)
    rows = []
    for found in notices(view):
        item = view.items[found.item]
        levels = None
        if found.verdict is Verdict.KEPT_IN:
            levels = _levels(view, item, used.get(item.id, {}), largest.get(item.id, 0))
        rows.append(_row(found, item, levels))
    return rows


def notices(view: View) -> list[Notice]:
    """The answer for every item that is measured, and bought or used by a recipe, by name."""
    meals, leads, sold = served_meals(view.services, view.zone), longest_leads(view), _sold(view)
    wanted = [
        item
        for item in view.items.values()
        if item.measured
        and item.id not in view.preparations
        and (item.id in sold or item.id in leads)
    ]
    return [
        _notice(view, item, sold.get(item.id, []), meals, leads.get(item.id, Span()))
        for item in sorted(wanted, key=lambda item: item.name)
    ]


def needed_by_menu(view: View) -> str | None:
    """What notice the menu really needs, as an ISO 8601 duration."""
    found = longest(notices(view))
    return None if found is None else write_span(Span(exact=found))


def _sold(view: View) -> dict[str, list[Pack]]:
    sold: dict[str, list[Pack]] = {}
    for pack in view.packs:
        sold.setdefault(pack.item, []).append(pack)
    return sold


def _notice(
    view: View, item: Item, packs: list[Pack], meals: tuple[ServedMeal, ...], lead: Span
) -> Notice:
    sellers = [view.suppliers[name] for name in sorted({pack.supplier for pack in packs})]
    return notice_of(item.id, packs, sellers, meals, lead=lead, house=view.house, now=view.now)


def _levels(view: View, item: Item, used: Mapping[date, int], largest: int) -> Levels:
    """Proposed par from use since the first recorded day, and from the approved dishes."""
    today = local_date(view.now, view.zone)
    first = min(used, default=today)
    series = [used.get(day, 0) for day in days_of(first, today - timedelta(days=1))]
    packs = [pack for pack in view.packs if pack.item == item.id]
    restocked = replenishment(item.id, packs, view.suppliers.values())
    return proposed_levels(series, restocked, largest)


def _row(found: Notice, item: Item, levels: Levels | None) -> Row:
    return {
        "item": item.name,
        "needed": None if found.needed is None else write_span(Span(exact=found.needed)),
        "verdict": found.verdict.value,
        "fails": [
            {
                "weekday": WEEKDAYS[fail.weekday],
                "meal": fail.meal,
                "by": None if fail.by is None else write_span(Span(exact=fail.by)),
            }
            for fail in found.fails
        ],
        "floor": None if levels is None else amount(levels.floor, item),
        "order_up_to": None if levels is None else amount(levels.order_up_to, item),
    }
