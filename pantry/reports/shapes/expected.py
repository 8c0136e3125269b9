"""Rows of what is expected at the back door; no price stands here (SY10)."""

from msgspec import field

from pantry.reports.shapes.written import Instant, Number, Quantity, Shape
from pantry.rules.supply import Substitution


class WantedFor(Shape, frozen=True):
    """A service that is given of a line, and the last instant for which it wants it."""

    service: str
    until: Instant


class ExpectedLine(Shape, frozen=True):
    """A line of an open order; `for` names the services that are given of it."""

    item: str
    item_id: str
    pack: str
    pack_id: str
    packs: Number
    quantity: Quantity
    received: Quantity
    outstanding: Quantity
    area: str | None
    area_id: str | None
    gtin: str | None
    counted: bool
    high_risk: bool
    life_on_arrival_days: Number | None
    for_: list[str] = field(name="for")
    wanted: list[WantedFor]


class ExpectedRow(Shape, frozen=True):
    """An open order, by its delivery; `in_words` is what is ordered that is no item.

    `substitution`: what its supplier may send in place of what is ordered, where that is agreed.
    """

    order: str
    supplier: str
    supplier_id: str
    at: Instant
    version: int
    substitution: Substitution | None
    drivers: list[str]
    lines: list[ExpectedLine]
    in_words: list[str]
