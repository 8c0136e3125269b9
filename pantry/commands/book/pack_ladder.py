"""A pack's ladder: what it holds in all, and what one unopened unit inside it holds.

The column `quantity` says how much there is, the name of the pack often how it is divided (`case of
6 x 750 ml`). Where both say it, they have to agree.
"""

from dataclasses import dataclass
from fractions import Fraction

from pantry.commands.book import amounts
from pantry.commands.book.reading import Line
from pantry.refusals import MissingFact, Refusal, declare
from pantry.rules.amounts import Packed, read_packs
from pantry.rules.measure import in_base_units, to_thousandths
from pantry.rules.stock import Item
from pantry.rules.units import Dimension, factor_of

PACK_DISAGREES = declare("pack_disagrees", "A pack's name and its quantity say different things.")

_TOLERANCE = Fraction(1, 100)
"""A name rounds (`1 lb jar` of 454 g); common practice, no source."""


@dataclass(frozen=True, slots=True)
class Ladder:
    """What a pack holds, and one unit inside it, in thousandths of the item's base unit."""

    quantity: int
    sealed_quantity: int


def read_ladder(line: Line, item: Item) -> Ladder:
    """The ladder of a row of `packs`.

    A name in other dimensions than the quantity (`one loaf of 800 g` of an item counted in pieces,
    `large bunch`) says nothing about it.
    """
    written = amounts.packed(line, "quantity", line.reading.unit_system)
    exact = _in_all(line, item, written)
    quantity = amounts.thousandths(line, "quantity", exact, least=1 if item.measured else 0)
    units = units_in(written)
    named = _named(line, written)
    if named:
        if not _agree(written, named):
            _disagree(line)
        elif units == 1:
            units = units_in(named)
        elif units_in(named) not in (1, units):
            _disagree(line)
    return Ladder(quantity, to_thousandths(exact / units))


def _in_all(line: Line, item: Item, written: Packed) -> Fraction:
    """What it holds in base units; of what nobody counts, nothing where a fact is missing (MS3)."""
    if item.measured:
        return amounts.of_item(line, "quantity", written.total, item)
    try:
        return in_base_units(
            written.total, item.base_unit, density=item.density, piece_weight=item.piece_weight
        )
    except MissingFact:
        return Fraction(0)


def units_in(packed: Packed) -> Fraction:
    """How many unopened units a pack holds; 1 where it is one."""
    if not packed.inner.value:
        return Fraction(1)
    units = packed.total.value / packed.inner.value
    return units if units.denominator == 1 else Fraction(1)


def _named(line: Line, written: Packed) -> Packed | None:
    """What the pack's name says in the dimension of the quantity; None: nothing."""
    try:
        named = read_packs(
            line.text("pack"),
            line.reading.unit_system,
            decimal_mark=line.reading.decimal_mark,
        )
    except Refusal:
        return None  # most names are words; only the quantity has to be an amount
    same = named.total.dimension is written.total.dimension is not Dimension.WORD
    return named if same and written.total.value else None


def _agree(written: Packed, named: Packed) -> bool:
    one = written.total.value * factor_of(written.total.unit)
    other = named.total.value * factor_of(named.total.unit)
    return abs(one - other) <= _TOLERANCE * one


def _disagree(line: Line) -> None:
    line.fault(
        "quantity",
        PACK_DISAGREES,
        f"The pack is called {line.text('pack')!r} and its quantity is {line.text('quantity')!r}.",
        "Make the two agree, such as case of 6 x 750 ml and 6 x 750 ml or 4.5 l.",
    )
