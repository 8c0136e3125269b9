"""Whom an item that does not come, or is not there, leaves without, and their ways out (PL5)."""

from pantry.reports.coverage_rows import Projected
from pantry.reports.report import Row, amount, instant


def lacking(found: Projected, item: str) -> list[Row]:
    """What every confirmed service lacks of an item, the soonest first, with the ways out."""
    return [
        {
            "service": need.service,
            "dish": found.view.recipes[need.dish].name,
            "lacking": amount(short, found.view.items[item]),
            "wanted_by": instant(need.wanted_by),
            "ways_out": found.ways_out.of_need(need, short),
        }
        for need in sorted(found.confirmed_needs, key=lambda need: (need.wanted_by, need.id))
        if need.item == item and (short := found.confirmed_short.get(need.id, 0))
    ]
