"""Rows of everything that is stocked; no price stands here (SY10)."""

from typing import Literal

from pantry.reports.shapes.written import Duration, Exact, Number, Quantity, Shape
from pantry.rules.stock import BaseUnit


class ItemPack(Shape, frozen=True):
    """An item as a supplier sells it."""

    id: str
    pack: str
    supplier: str
    supplier_id: str
    quantity: Quantity
    gtin: str | None


class ItemLives(Shape, frozen=True):
    """How long an item keeps, by what the house said of it or else by its policy (SL3, SL5).

    Opened: days with the day of opening as day 1, or hours; neither: opening changes nothing.
    Frozen: days of quality. Thawed: hours from the end of thawing. `thaw_time` is how long it thaws
    however much there is of it; null: by the house's step of weight.
    """

    opened_days: Number | None
    opened_hours: Number | None
    frozen_days: Number | None
    thawed_hours: Number
    thaw_time: Duration | None


class ItemRow(Shape, frozen=True):
    """An item; `level` is of what nobody counts. What is `unknown` is not free (AL3)."""

    id: str
    item: str
    version: int
    unit: BaseUnit
    group: str
    area: str | None
    area_id: str | None
    counted: bool
    level: Literal["plenty", "low", "out"] | None
    food: str | None
    in_pieces: bool
    high_risk: bool
    whole: bool
    gtin: str | None
    density_g_per_ml: Exact | None
    piece_weight_g: Exact | None
    contains: list[str]
    may_contain: list[str]
    unknown: list[str]
    lives: ItemLives
    packs: list[ItemPack]
