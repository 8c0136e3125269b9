"""What the codes on a label carry.

The pack's own number with its date and lot, where all of that is known and the pack is still
sealed: as GS1 element strings (GS1 General Specifications, sections 3.2, 3.4, 3.4.6) and as a GS1
Digital Link. Everything else carries the batch's label, alone and as a link into the house. An
opened, frozen or thawed batch never carries its pack's date again: it has another now.
"""

import re
from dataclasses import dataclass
from urllib.parse import quote

from pantry.rules.codes.house_link import house_link
from pantry.rules.stock import DateKind, DateMark

_LOT = re.compile(r"[!\"%&'()*+,\-./0-9:;<=>?A-Z_a-z]{1,20}")
"""AI 10: up to 20 characters of GS1's set 82 (GS1 General Specifications, figure 7.11-1)."""

_DATED = {DateKind.USE_BY: "17", DateKind.BEST_BEFORE: "15"}


@dataclass(frozen=True, slots=True)
class Product:
    """A sealed pack's own number (14 digits), date mark and lot."""

    gtin: str
    mark: DateMark
    lot: str


@dataclass(frozen=True, slots=True)
class LabelCodes:
    """What is printed: bars with the label and, where they have room, with the product; a square.

    Attributes:
        bars: what a Code 128 carries.
        product_bars: what a GS1-128 carries instead, without its first FNC1; None: no product.
        square: what the QR code carries.
    """

    bars: str
    product_bars: str | None
    square: str


def codes_of(label: str, product: Product | None, address: str) -> LabelCodes:
    """The codes of a label; `address` of the house may be empty, where it has none."""
    if product is None or not _LOT.fullmatch(product.lot):
        return LabelCodes(label, None, house_link(address, label) if address else label)
    dated = _dated(product)
    elements = "".join(f"{ai}{value}" for ai, value in dated)
    return LabelCodes(
        bars=label,
        product_bars=f"01{product.gtin}{elements}10{product.lot}",
        square=_digital_link(product, dated, address or "https://id.gs1.org"),
    )


def _dated(product: Product) -> list[tuple[str, str]]:
    ai, day = _DATED.get(product.mark.kind), product.mark.date
    return [] if ai is None or day is None else [(ai, f"{day:%y%m%d}")]


def _digital_link(product: Product, dated: list[tuple[str, str]], address: str) -> str:
    """GS1 Digital Link Standard: URI Syntax: key and lot in the path, the date in the query."""
    query = "&".join(f"{ai}={value}" for ai, value in dated)
    path = f"{address.rstrip('/')}/01/{product.gtin}/10/{quote(product.lot, safe='')}"
    return f"{path}?{query}" if query else path
