"""Rows of the lists that a porter works through: what to pull, what to bring to the kitchen."""

from pantry.reports.shapes.written import Day, Instant, Quantity, Shape


class PullFor(Shape, frozen=True):
    """What so much of a batch is thawed for."""

    service: str
    dish: str
    quantity: Quantity
    wanted_by: Instant


class Pulled(Shape, frozen=True):
    """That it was taken out of the freezer: by which command, when, and the batch it became."""

    command: str
    at: Instant
    child: str
    label: str


class PullRow(Shape, frozen=True):
    """A batch to be taken out of a freezer; `take` is whole containers, `quantity` what is wanted.

    `thawed_at` and `usable_until` are as if it was taken out now, or as it was. `late`: it cannot
    be thawed in time any more. `not_before`: taken out sooner it would die before its service.
    """

    item: str
    item_id: str
    batch: str
    label: str
    quantity: Quantity
    take: Quantity
    container: Quantity | None
    area: str
    into: str | None
    out_by: Instant
    late: bool
    not_before: Instant | None
    thawed_at: Instant
    usable_until: Instant | None
    wanted: list[PullFor]
    done: Pulled | None


class OtherBatch(Shape, frozen=True):
    """Another batch of the same item that may be taken in its place."""

    batch: str
    label: str
    area: str | None
    left: Quantity
    usable_until: Instant | None


class Brought(Shape, frozen=True):
    """That it was brought to the kitchen: by which command, and when."""

    command: str
    at: Instant


class PickRow(Shape, frozen=True):
    """A batch to be brought to the kitchen for a service, or for what is made for it.

    `take` is what is brought of it: what is counted in pieces is brought in whole ones, as far as
    they are there, where `quantity` is what is wanted. `area` is null where it stands in the
    kitchen already.
    """

    service: str
    at: Instant
    day: Day
    meal: str
    table: str
    preparation: str | None
    wanted_by: Instant
    area: str | None
    batch: str
    label: str
    item: str
    item_id: str
    quantity: Quantity
    take: Quantity
    usable_until: Instant | None
    others: list[OtherBatch]
    done: Brought | None
