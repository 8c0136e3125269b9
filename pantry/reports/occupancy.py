"""How full the house is in the days ahead, and what brings back what was run down (PL6)."""

from datetime import timedelta

from pantry.reports.presence import people
from pantry.reports.report import Row, instant
from pantry.reports.view import LOOK_AHEAD, View
from pantry.rules.house_time import days_of, end_of_day, local_date, start_of_day
from pantry.rules.occupancy import Occupancy, Spell


def occupancy(view: View) -> Occupancy:
    """Who is in the house, against those for whom its levels are set."""
    covers = (table.usual_covers or 0 for table in view.tables.values())
    return Occupancy(view.house.people, max(covers, default=0), people(view))


def spells(view: View) -> list[Spell]:
    """The days ahead on which the house is empty or light, those alike taken together."""
    last = local_date(view.now + LOOK_AHEAD, view.zone)
    return occupancy(view).spells(days_of(local_date(view.now, view.zone), last))


def spell_of_item(view: View, spell: Spell, item: str) -> Row:
    """The spell, and the latest delivery that brings the item before more people are there.

    Both null where that is not within what is looked ahead, or nobody brings it before.
    """
    back = spell.last + timedelta(days=1)
    start, end = start_of_day(back, view.zone), end_of_day(back, view.zone)
    seen = back <= local_date(view.now + LOOK_AHEAD, view.zone)
    offers = view.market.offers(item, start, end) if seen else ()
    latest = max((offer.delivery for offer in offers), key=lambda each: each.at, default=None)
    return {
        "house": spell.fullness.value,
        "first": spell.first.isoformat(),
        "last": spell.last.isoformat(),
        "people": spell.people,
        "delivery": instant(latest.at) if latest else None,
        "order_by": instant(latest.order_by) if latest else None,
    }
