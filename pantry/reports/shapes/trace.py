"""Rows of where a lot came from and where it went, tagged by their direction."""

from msgspec import UNSET, UnsetType, field

from pantry.reports.shapes.written import Link, Quantity, Shape


class TraceEnd(Shape, frozen=True):
    """One end of a link, of one of three kinds.

    A batch (`batch`, `label`, `link`), an account of the ledger (`account` with its `supplier`,
    or with `service` and `link`), or where it still stands (`area`, `on_hold`).
    """

    quantity: Quantity
    batch: str | UnsetType = UNSET
    label: str | UnsetType = UNSET
    account: str | UnsetType = UNSET
    supplier: str | UnsetType | None = UNSET
    service: str | UnsetType | None = UNSET
    area: str | UnsetType = UNSET
    on_hold: bool | UnsetType = UNSET
    link: Link | UnsetType = UNSET


class TracedBatch(Shape, frozen=True, tag_field="direction"):
    """A batch that the lot touches."""

    item: str
    batch: str
    label: str
    lot: str | None
    link: Link


class TraceBack(TracedBatch, frozen=True, tag="back"):
    """What a batch came from."""

    from_: list[TraceEnd] = field(name="from")


class TraceForward(TracedBatch, frozen=True, tag="forward"):
    """Where a batch went."""

    to: list[TraceEnd]


class TraceBeside(TracedBatch, frozen=True, tag="beside"):
    """A batch of the same item that may have been mistaken for it."""

    to: list[TraceEnd]


TraceRow = TraceBack | TraceForward | TraceBeside
