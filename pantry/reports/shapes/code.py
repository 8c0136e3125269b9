"""The row of a scanned code: what it says, and what in the house carries it."""

from typing import Literal

from msgspec import field

from pantry.reports.shapes.written import DateMark, Day, Number, Quantity, Shape


class CodeMeasure(Shape, frozen=True):
    """A net weight or volume as the code states it."""

    value: str
    unit: Literal["kg", "l", "lb", "fl oz", "qt", "gal"]


class CodePrice(Shape, frozen=True):
    """A price; where the code gives no currency, `price_decimals` says what `minor` counts."""

    minor: int
    currency: str | None


class CodeHarvest(Shape, frozen=True):
    """The first and the last day of a harvest."""

    from_: Day = field(name="from")
    to: Day


class CodeStoreNumber(Shape, frozen=True):
    """A number that a shop or a country made for itself."""

    number: str
    item: str | None


class CodeElement(Shape, frozen=True):
    """One element of a code, by its Application Identifier."""

    ai: str
    value: str


class CodeRead(Shape, frozen=True):
    """What a code says; null where it says nothing."""

    gtin: str | None
    lot: str | None
    date_mark: DateMark | None
    quantity: CodeMeasure | None
    count: Number | None
    serial: str | None
    variant: str | None
    sscc: str | None
    content_gtin: str | None
    harvested: CodeHarvest | None
    price: CodePrice | None
    symbology: str | None
    warnings: list[str]
    time: str | None
    price_decimals: Number | None
    best_before: Day | None
    sell_by: Day | None
    produced: Day | None
    packed: Day | None
    frozen: Day | None
    label: str | None
    store_number: CodeStoreNumber | None
    elements: list[CodeElement]
    unread: list[str]


class CodeMatch(Shape, frozen=True):
    """What carries a code; null what does not belong to its kind."""

    kind: Literal["pack", "item", "batch"]
    id: str
    item: str
    item_id: str
    pack: str | None
    pack_id: str | None
    supplier: str | None
    quantity: Quantity | None
    label: str | None


class CodeRow(Shape, frozen=True):
    """A code, read and looked up."""

    read: CodeRead
    matches: list[CodeMatch]
