"""Rows about labels."""

from pantry.reports.shapes.written import Instant, Quantity, Shape


class LabelRow(Shape, frozen=True):
    """A batch, and whether it should have a label printed.

    `done` is the kind of the command that made it, null where nobody knows; `at` when that was;
    `dates` what its label says of its dates.
    """

    item: str
    item_id: str
    batch: str
    label: str
    numbered: list[str]
    area: str
    on_hand: Quantity
    done: str | None
    at: Instant
    dates: list[str]
    printed_at: Instant | None
    wants: bool
