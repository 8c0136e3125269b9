"""Rows about what stands in the wrong place."""

from pantry.reports.shapes.written import Quantity, Shape
from pantry.rules.stock import State
from pantry.rules.wrong_place import Wrong


class WrongPlaceRow(Shape, frozen=True):
    """So much of a batch in a storage area that it does not belong in, and where it is moved to."""

    wrong: Wrong
    item: str
    item_id: str
    batch: str
    label: str
    state: State
    area: str
    area_id: str
    quantity: Quantity
    into: str | None
    into_id: str | None
