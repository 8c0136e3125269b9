"""What a row of the sheet `suppliers` says of the calendar and the terms; empty: as it was."""

from collections.abc import Callable
from typing import Any, get_args
from zoneinfo import ZoneInfo

from pantry.commands.book import cells
from pantry.commands.book.reading import Line
from pantry.commands.set_calendar import holiday_columns
from pantry.refusals import Refusal
from pantry.rules.house_time import zone
from pantry.rules.public_holidays import HolidayDelivery, HolidayRule
from pantry.rules.supply import OrderGiven, Substitution

_READERS: dict[str, Callable[[str], Any]] = {
    "time_zone": lambda text: zone(text).key,
    "on_holiday": cells.one_of(*HolidayDelivery),
    "holiday_orders": cells.yes_no,
    "fails_percent": cells.whole(0, 100),
    "order_given": cells.one_of(*get_args(OrderGiven)),
    "order_words": str,
    "substitution": cells.one_of(*get_args(Substitution)),
    "fallback_shop": str,
}
_STORED = {"time_zone": "zone", "on_holiday": "holiday_delivery"}

TERMS = (
    "zone",
    "country",
    "subdivision",
    "holiday_delivery",
    "holiday_orders",
    "fails_percent",
    "order_given",
    "order_words",
    "substitution",
    "fallback_shop",
)
"""The columns of a supplier that stay as they were where the sheet does not say them."""


def read_terms(line: Line) -> dict[str, Any]:
    """What the row says, by the column it is stored in."""
    found: dict[str, Any] = {}
    for column, reader in _READERS.items():
        said = line.read(column, reader, None)
        if said is not None:
            found[_STORED.get(column, column)] = said
    country, subdivision = line.text("country"), line.text("subdivision")
    if country:
        try:
            found |= holiday_columns(country, subdivision)
        except Refusal as refusal:
            line.refused("country", refusal)
    elif subdivision:
        line.missing("country", "A part of a country needs the country.")
    return found


def own_zone(said: dict[str, Any], stood: ZoneInfo | None) -> ZoneInfo | None:
    """In whose wall time the calendar is."""
    return ZoneInfo(said["zone"]) if "zone" in said else stood


def own_holidays(said: dict[str, Any], stood: HolidayRule | None) -> HolidayRule | None:
    """The public holidays that are kept."""
    country = said.get("country", stood.country if stood else None)
    if country is None:
        return None
    subdivision = said.get("subdivision", stood.subdivision if stood else None)
    delivery = said.get("holiday_delivery", stood.delivery if stood else HolidayDelivery.FALLS_AWAY)
    taken = said.get("holiday_orders", stood.orders_taken if stood else False)
    return HolidayRule(country, subdivision, HolidayDelivery(delivery), taken)
