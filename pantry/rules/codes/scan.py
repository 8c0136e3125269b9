"""What one scan says, and the shape in which it is answered."""

from dataclasses import dataclass, replace
from datetime import date, time
from typing import Protocol

from pantry.rules.stock import DateMark


@dataclass(frozen=True, slots=True)
class Element:
    """One Application Identifier with its data, as it stood in the code."""

    ai: str
    value: str

    def as_json(self) -> dict[str, object]:
        """`{"ai": "10", "value": "LOT42A"}`."""
        return {"ai": self.ai, "value": self.value}


@dataclass(frozen=True, slots=True)
class Measure:
    """A net weight or volume: exact decimal text, and kg, l, lb, fl oz, qt or gal (US)."""

    value: str
    unit: str

    def as_json(self) -> dict[str, object]:
        """`{"value": "1.250", "unit": "kg"}`."""
        return {"value": self.value, "unit": self.unit}


@dataclass(frozen=True, slots=True)
class Price:
    """A price: `minor` divided by ten to the power of `decimals`.

    Where the currency is known, `minor` counts its minor unit (ISO 4217). Where the code gives
    none, `currency` is None and the decimals are those of the code.
    """

    minor: int
    currency: str | None
    decimals: int

    def as_json(self) -> dict[str, object]:
        """`{"minor": 1995, "currency": null}`; the decimals are answered beside it."""
        return {"minor": self.minor, "currency": self.currency}


@dataclass(frozen=True, slots=True)
class Harvest:
    """The first and the last day of a harvest; the same day twice where one is given."""

    first: date
    last: date

    def as_json(self) -> dict[str, object]:
        """`{"from": "2027-06-15", "to": "2027-06-16"}`."""
        return {"from": _iso(self.first), "to": _iso(self.last)}


@dataclass(frozen=True, slots=True)
class StoreItem:
    """A number that a shop or a country made for itself; `item` is None without a pattern."""

    number: str
    item: str | None

    def as_json(self) -> dict[str, object]:
        """`{"number": "2012301928752", "item": "01"}`."""
        return {"number": self.number, "item": self.item}


@dataclass(frozen=True, slots=True)
class Scan:
    """What one scan says; None where it says nothing.

    Attributes:
        gtin: 14 digits (AI 01 or 03, or a plain number filled with zeros); None for a number that
            changes with every weight, because it names no product.
        lot: AI 10.
        date_mark: use by (AI 17 and 7003, the earlier) or else best before (AI 15), a civil date.
        use_by_time: the wall time of AI 7003, local to the label; no zone is given.
        quantity: net weight or volume, metric before other units.
        count: pieces: AI 37 or else 30.
        serial: AI 21.
        variant: AI 20, or else the consumer product variant, AI 22.
        sscc: AI 00, 18 digits.
        content_gtin: AI 02, the product inside a logistic unit.
        harvested: AI 7007.
        price: AI 392n or 393n.
        symbology: the identifier in front of the scan, such as `]C1`.
        best_before, sell_by, produced, packed, frozen: AI 15, 16, 11 or else 8008, 13, 7006.
        label: a label of the house.
        store_number: a number of restricted circulation.
        elements: everything read, in order.
        unread: what stood under an Application Identifier nobody knows.
        warnings: codes, each once.
    """

    gtin: str | None = None
    lot: str | None = None
    date_mark: DateMark | None = None
    use_by_time: time | None = None
    quantity: Measure | None = None
    count: int | None = None
    serial: str | None = None
    variant: str | None = None
    sscc: str | None = None
    content_gtin: str | None = None
    harvested: Harvest | None = None
    price: Price | None = None
    symbology: str | None = None
    best_before: date | None = None
    sell_by: date | None = None
    produced: date | None = None
    packed: date | None = None
    frozen: date | None = None
    label: str | None = None
    store_number: StoreItem | None = None
    elements: tuple[Element, ...] = ()
    unread: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()

    def warned(self, *codes: str) -> "Scan":
        """The same scan with these warnings too."""
        return replace(self, warnings=tuple(dict.fromkeys(self.warnings + codes)))

    def as_json(self) -> dict[str, object]:
        """The answer of `read-code`: every key always there, None where nothing is known.

        `date_mark` {kind, date}, `time` beside it; `quantity` {value, unit}; `price` {minor,
        currency}, `price_decimals` beside it; `harvested` {from, to}; `store_number` {number,
        item}; `elements` [{ai, value}]; dates ISO 8601.
        """
        return {
            "gtin": self.gtin,
            "lot": self.lot,
            "date_mark": _mark(self.date_mark),
            "quantity": _part(self.quantity),
            "count": self.count,
            "serial": self.serial,
            "variant": self.variant,
            "sscc": self.sscc,
            "content_gtin": self.content_gtin,
            "harvested": _part(self.harvested),
            "price": _part(self.price),
            "symbology": self.symbology,
            "warnings": list(self.warnings),
            **self._beside(),
        }

    def _beside(self) -> dict[str, object]:
        return {
            "time": _iso(self.use_by_time),
            "price_decimals": None if self.price is None else self.price.decimals,
            "best_before": _iso(self.best_before),
            "sell_by": _iso(self.sell_by),
            "produced": _iso(self.produced),
            "packed": _iso(self.packed),
            "frozen": _iso(self.frozen),
            "label": self.label,
            "store_number": _part(self.store_number),
            "elements": [one.as_json() for one in self.elements],
            "unread": list(self.unread),
        }


class _Answerable(Protocol):
    def as_json(self) -> dict[str, object]: ...


def _part(part: _Answerable | None) -> dict[str, object] | None:
    return None if part is None else part.as_json()


def _iso(moment: date | time | None) -> str | None:
    if isinstance(moment, time):
        return moment.isoformat("minutes")
    return None if moment is None else moment.isoformat()


def _mark(mark: DateMark | None) -> dict[str, object] | None:
    return None if mark is None else {"kind": mark.kind.value, "date": _iso(mark.date)}
