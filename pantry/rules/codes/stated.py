"""What a scan says of things that are stocked: the numbers it carries, and how much there is."""

from pantry.refusals import MissingFact
from pantry.rules.codes.scan import Scan
from pantry.rules.measure import UnitSystem, read_quantity
from pantry.rules.stock import Item

DIGITS = 14
"""A GTIN filled with zeros (GS1 General Specifications, section 3.3.2)."""


def numbers(scan: Scan) -> frozenset[str]:
    """The product's number, that of what is inside a unit, a shop's own; 14 digits each."""
    own = scan.store_number.number if scan.store_number else None
    named = (scan.gtin, scan.content_gtin, own)
    return frozenset(number.zfill(DIGITS) for number in named if number is not None)


def stated_quantity(scan: Scan, item: Item, each: int | None = None) -> int | None:
    """What a scan says there is of an item, in thousandths of its base unit; None: it does not.

    A weight or volume (AI 310n to 361n, or a shop's own number), whose gallons and ounces are those
    of the US; or else so many of what is inside a unit (AI 37); or else so many pieces (AI 30). It
    is None as well where nobody counts the item, and where the item's density or piece weight would
    be needed and is not known: it is never guessed (MS3).

    Args:
        scan: what was read.
        item: what it is of.
        each: what one of those inside holds, in thousandths; None: not known.

    Raises:
        UnreadableInput: `amount_too_large`.
    """
    if not item.measured:
        return None
    if scan.quantity is not None:
        return _in_base_unit(f"{scan.quantity.value} {scan.quantity.unit}", item)
    if scan.count is None:
        return None
    if scan.content_gtin is not None:
        return None if each is None else scan.count * each
    return _in_base_unit(str(scan.count), item)


def _in_base_unit(written: str, item: Item) -> int | None:
    try:
        return read_quantity(written, item, UnitSystem.US, decimal_mark=".")
    except MissingFact:
        return None
