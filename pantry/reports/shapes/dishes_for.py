"""Rows of what each dish would come to at a meal that is being thought of."""

from typing import Literal

from pantry.reports.shapes.conflicts import MenuConflict
from pantry.reports.shapes.written import Day, Instant, Quantity, Shape
from pantry.rules.stock import DateKind

Covering = Literal["covered", "to_buy", "too_late", "cannot_be_had", "unclear"]


class DishLacks(Shape, frozen=True):
    """What a dish would be short of; `order_by` null: nobody sells it in time."""

    item: str
    quantity: Quantity
    order_by: Instant | None


class DishUses(Shape, frozen=True):
    """What stands in the house, would die within a week after the meal, and would be used.

    `until` is the first end among its batches, and `date_mark` what that one's pack says.
    """

    item: str
    quantity: Quantity
    until: Instant
    date_mark: DateKind


class DishFromGarden(Shape, frozen=True):
    """What would come from the garden; `left` is all that no chosen menu takes of that harvest."""

    item: str
    quantity: Quantity
    left: Quantity
    ready: Instant | None


class DishForRow(Shape, frozen=True):
    """A dish, or a variant of it, at a meal that is being thought of.

    `choose_by` null: never; `early`: before the household's usual notice; `past_best`: what
    it would use that is past its best by then. `last_served` is by that
    table. `problem` says why a dish is unclear.
    """

    dish: str
    name: str
    variant: str | None
    covering: Covering
    choose_by: Instant | None
    early: bool
    lacking: list[DishLacks]
    dies: list[DishUses]
    past_best: list[str]
    garden: list[DishFromGarden]
    problem: str | None
    against: list[MenuConflict]
    unknown: bool
    in_season: bool
    last_served: Day | None
    approved: bool
