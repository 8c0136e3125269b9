"""Rows about what was lost."""

from typing import Annotated

from msgspec import Meta

from pantry.reports.shapes.written import Day, Instant, Money, Number, Quantity, Shape


class LostPart(Shape, frozen=True):
    """One record of what was lost; of whom is not said, or less would be recorded."""

    command: str
    at: Instant
    batch: str
    label: str
    quantity: Quantity
    value: Money
    photos: list[str]


class WasteRow(Shape, frozen=True):
    """What was lost of an item in a week, for one reason, from one place, to one destination.

    `monday` begins the week (ISO 8601), by the house's days; `area` is null for what had left its
    storage area. `weight` is null where nobody knows what it weighs, `avoidable` where the reason
    is none of the known ones. `covers` were served in that week in all.
    """

    week: Annotated[str, Meta(pattern=r"^[0-9]{4}-W[0-9]{2}$")]
    monday: Day
    reason: str
    avoidable: bool | None
    item: str
    item_id: str
    area: str | None
    destination: str
    quantity: Quantity
    weight: Quantity | None
    value: Money
    times: Number
    covers: Number
    parts: list[LostPart]


class WasteWithoutBatchRow(Shape, frozen=True):
    """Food that was lost and that no batch is known of: it moved no stock and has no own cost.

    `what` is the item or the dish by its name, or words. Of a dish, `each` is plates. `weight` is
    null where nobody knows what it weighs.
    """

    week: Annotated[str, Meta(pattern=r"^[0-9]{4}-W[0-9]{2}$")]
    monday: Day
    at: Instant
    what: str
    item_id: str | None
    dish_id: str | None
    reason: str
    avoidable: bool | None
    destination: str
    quantity: Quantity
    weight: Quantity | None
    command: str
    photos: list[str]
