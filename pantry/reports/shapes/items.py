"""Rows of everything that is stocked; no price stands here (SY10)."""

from typing import Literal

from pantry.reports.shapes.written import Exact, Quantity, Shape
from pantry.rules.stock import BaseUnit


class ItemPack(Shape, frozen=True):
    """An item as a supplier sells it."""

    id: str
    pack: str
    supplier: str
    supplier_id: str
    quantity: Quantity
    gtin: str | None


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
    packs: list[ItemPack]
