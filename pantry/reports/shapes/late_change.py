"""Rows of what a late change would do."""

from pantry.reports.shapes.written import Instant, Quantity, Shape
from pantry.rules.late_change import Effect


class LateChangeRow(Shape, frozen=True):
    """One effect of a change that is not made yet.

    `service`, `dish` and `mend_until` say who is short and until when it can still be ordered;
    `batch`, `label` and the dates what is spare or set aside; `when` the day on which something is
    made, or from which what is on its way is there.
    """

    effect: Effect
    item: str
    quantity: Quantity
    service: str | None
    dish: str | None
    mend_until: Instant | None
    batch: str | None
    label: str | None
    usable_until: Instant | None
    good_until: Instant | None
    when: Instant | None
