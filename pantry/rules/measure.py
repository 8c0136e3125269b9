"""Quantities: exact amounts become whole thousandths of an item's base unit, once (MS1, MS3).

What people write is read by `pantry/rules/amounts.py`, its numbers by `pantry/rules/numbers.py`,
its units by `pantry/rules/units.py`. Here an amount meets the facts of an item. From the rounding
on, sums are whole numbers and exact.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from pantry.refusals import MissingFact, UnreadableInput, declare
from pantry.rules.amounts import (
    MOST_THOUSANDTHS,
    Amount,
    Packed,
    UnitSystem,
    read_amount,
    read_packs,
    too_large,
)
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.units import Dimension, dimension_of, factor_of, unit_called, unit_coded

__all__ = [
    "Amount",
    "Packed",
    "Quantity",
    "UnitSystem",
    "any_quantity",
    "convert",
    "in_base_units",
    "quantity_from_json",
    "read_amount",
    "read_packs",
    "read_quantity",
    "show",
    "to_thousandths",
]

DENSITY_MISSING = declare("density_missing", "The item has no density.")
PIECE_WEIGHT_MISSING = declare("piece_weight_missing", "The item has no piece weight.")
WORD_SIZE_MISSING = declare("word_size_missing", "How much a tin, bunch or clove is, is not known.")
FACT_NOT_POSITIVE = declare("fact_not_positive", "A density, weight or size is not above nothing.")
QUANTITY_MALFORMED = declare("quantity_malformed", "The quantity is no decimal text with a unit.")

_NO_WORDS: Mapping[str, Fraction] = {}
_DECIMAL = re.compile(r"[0-9]{1,15}(\.[0-9]{1,15})?")
_LARGE = {BaseUnit.G: "kg", BaseUnit.ML: "l"}
_BASE = {
    Dimension.MASS: BaseUnit.G,
    Dimension.VOLUME: BaseUnit.ML,
    Dimension.COUNT: BaseUnit.EACH,
}


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity as it is kept: whole thousandths of a base unit."""

    thousandths: int
    unit: BaseUnit

    def as_json(self) -> dict[str, str]:
        """`{"value": "1250", "unit": "g"}`: decimal text, no exponent, no superfluous zeros."""
        return {"value": _decimal(self.thousandths, 3), "unit": self.unit.value}


def in_base_units(
    amount: Amount,
    base_unit: BaseUnit,
    *,
    density: Fraction | None = None,
    piece_weight: Fraction | None = None,
    words: Mapping[str, Fraction] = _NO_WORDS,
    item_name: str = "the item",
) -> Fraction:
    """The amount in g, ml or each of one item, exactly (MS3).

    Args:
        amount: as read.
        base_unit: what the item is measured in.
        density: g per ml, between mass and volume.
        piece_weight: g per each, between count and mass.
        words: base units in one tin, bunch or clove of the item.
        item_name: for the refusal's sentence.

    Raises:
        MissingFact: `density_missing`, `piece_weight_missing`, `word_size_missing`.
        UnreadableInput: `fact_not_positive`.
    """
    if amount.dimension is Dimension.WORD:
        size, fact = words.get(amount.unit), f"size of one {amount.unit}"
        return amount.value * _known(size, WORD_SIZE_MISSING, fact, item_name)
    value = amount.value * factor_of(amount.unit)
    if amount.dimension is dimension_of(base_unit):
        return value

    def grams_in_one(dimension: Dimension) -> Fraction:
        if dimension is Dimension.VOLUME:
            return _known(density, DENSITY_MISSING, "density", item_name)
        if dimension is Dimension.COUNT:
            return _known(piece_weight, PIECE_WEIGHT_MISSING, "piece weight", item_name)
        return Fraction(1)

    return value * grams_in_one(amount.dimension) / grams_in_one(dimension_of(base_unit))


def to_thousandths(exact: Fraction) -> int:
    """Whole thousandths of base units, rounded half-even: the one rounding, on entry (MS1).

    Raises:
        UnreadableInput: `amount_too_large`.
    """
    thousandths = round(exact * 1000)
    if thousandths > MOST_THOUSANDTHS:
        raise too_large(str(exact))
    return thousandths


def read_quantity(
    text: str,
    item: Item,
    system: UnitSystem,
    *,
    decimal_mark: str | None = None,
    words: Mapping[str, Fraction] = _NO_WORDS,
) -> int:
    """What a person wrote, in thousandths of the item's base unit.

    An item that is not counted has no quantity: 0, and its words (`to taste`) block nothing (MS3).

    Raises:
        UnreadableInput: as `read_amount` and `in_base_units`.
        MissingFact: as `in_base_units`.
    """
    if not item.measured:
        return 0
    return _of_item(read_amount(text, system, decimal_mark=decimal_mark), item, words)


def quantity_from_json(quantity: Mapping[str, object], item: Item) -> int:
    """`{"value": "1.250", "unit": "kg"}` in thousandths of the item's base unit.

    The value is decimal text with a point; the unit is a code of the units' table. An item that is
    not counted has no quantity: 0.

    Raises:
        UnreadableInput: `quantity_malformed`, `unit_unknown`, `amount_too_large`.
        MissingFact: as `in_base_units`.
    """
    if not item.measured:
        return 0
    return _of_item(_amount_from_json(quantity), item, _NO_WORDS)


def any_quantity(
    written: str | Mapping[str, object], system: UnitSystem, *, decimal_mark: str | None = None
) -> Quantity:
    """A quantity of no item in particular, in the base unit of whatever it is written in.

    A bare number is pieces.

    Raises:
        UnreadableInput: as `read_quantity` and `quantity_from_json`.
        MissingFact: `word_size_missing`: how much a tin or a bunch is, only an item knows.
    """
    if isinstance(written, str):
        amount = read_amount(written, system, decimal_mark=decimal_mark)
    else:
        amount = _amount_from_json(written)
    unit = _BASE.get(amount.dimension, BaseUnit.EACH)
    return Quantity(to_thousandths(in_base_units(amount, unit)), unit)


def _amount_from_json(quantity: Mapping[str, object]) -> Amount:
    value, unit = quantity.get("value"), quantity.get("unit")
    two_texts = isinstance(value, str) and isinstance(unit, str) and len(quantity) == 2
    if not (two_texts and _DECIMAL.fullmatch(str(value))):
        raise UnreadableInput(
            QUANTITY_MALFORMED,
            f"{dict(quantity)!r} is no quantity.",
            'Give decimal text and a unit, such as {"value": "1.250", "unit": "kg"}.',
            value=str(dict(quantity)),
        )
    return Amount(Fraction(str(value)), unit_coded(str(unit)).code)


def show(thousandths: int, unit: BaseUnit, *, decimal_mark: str = ".") -> str:
    """A quantity for people: `1.25 kg`, `350 g`, `1.5 l`, `3`.

    From 1 kg or 1 l to the whole gram or millilitre, from 10 to the tenth, below that and for
    pieces in full.
    """
    if unit is BaseUnit.EACH:
        return _decimal(thousandths, 3).replace(".", decimal_mark)
    size = abs(thousandths)
    step = 1 if size < 10_000 else 100 if size < 999_950 else 1000
    rounded = round(Fraction(thousandths, step)) * step
    large = step == 1000
    text = _decimal(rounded, 6 if large else 3).replace(".", decimal_mark)
    return f"{text} {_LARGE[unit] if large else unit.value}"


def convert(
    text: str,
    *,
    system: UnitSystem,
    to: str | None = None,
    density: Fraction | None = None,
    piece_weight: Fraction | None = None,
    decimal_mark: str | None = None,
) -> dict[str, str]:
    """What a person wrote as `{"value": ..., "unit": ...}`, in its base unit or in the unit `to`.

    The amount is rounded once, to thousandths of the base unit of `to`, and then shown in `to` with
    as many decimals as one of those thousandths can tell apart.

    Raises:
        UnreadableInput: as `read_amount` and `in_base_units`.
        MissingFact: as `in_base_units`.
    """
    amount = read_amount(text, system, decimal_mark=decimal_mark)
    default = _BASE.get(amount.dimension, BaseUnit.EACH).value
    unit = unit_coded(unit_called(to, system) if to else default)
    exact = in_base_units(amount, _BASE[unit.dimension], density=density, piece_weight=piece_weight)
    thousandths_in_one = unit.factor * 1000
    places = len(str(int(thousandths_in_one))) - 1
    shown = round(to_thousandths(exact) * 10**places / thousandths_in_one)
    return {"value": _decimal(shown, places), "unit": unit.code}


def _of_item(amount: Amount, item: Item, words: Mapping[str, Fraction]) -> int:
    exact = in_base_units(
        amount,
        item.base_unit,
        density=item.density,
        piece_weight=item.piece_weight,
        words=words,
        item_name=item.name,
    )
    return to_thousandths(exact)


def _known(size: Fraction | None, code: str, fact: str, item_name: str) -> Fraction:
    """The fact of the item, or its refusal by name: never a guess (MS3)."""
    if size is None:
        raise MissingFact(
            code,
            f"The {fact} of {item_name} is not known.",
            f"Enter the {fact} of {item_name}, or write the amount in the unit it is kept in.",
            value=item_name,
        )
    if size <= 0:
        raise UnreadableInput(
            FACT_NOT_POSITIVE,
            f"The {fact} of {item_name} is {size}.",
            "Enter a number above nothing.",
            value=str(size),
        )
    return size


def _decimal(scaled: int, places: int) -> str:
    """A whole number of 10^-places as decimal text, exactly, without superfluous zeros."""
    digits = str(abs(scaled)).rjust(places + 1, "0")
    whole, part = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"
