"""Amounts in cells, as people write them, with the facts of their item (MS1-MS3)."""

from fractions import Fraction

from pantry.commands.book.reading import Line
from pantry.commands.naming import QUANTITY_NOTHING
from pantry.refusals import MissingFact, Refusal
from pantry.rules.measure import (
    Amount,
    Packed,
    UnitSystem,
    in_base_units,
    read_packs,
    to_thousandths,
)
from pantry.rules.money import read_money
from pantry.rules.stock import Item

_NOTHING = Packed(Amount(Fraction(0), ""), Amount(Fraction(0), ""))


def packed(line: Line, column: str, system: UnitSystem) -> Packed:
    """What a cell's amount holds in all and in one unit inside it, in the units it is written."""
    mark = line.reading.decimal_mark
    return line.read(column, lambda text: read_packs(text, system, decimal_mark=mark), _NOTHING)


def of_item(line: Line, column: str, amount: Amount, item: Item) -> Fraction:
    """An amount in base units of an item, exactly; a missing fact is a fault by name (MS3).

    What an item lacks that has a fault of its own is no second fault.
    """
    if not amount.value:
        return Fraction(0)
    try:
        return in_base_units(
            amount,
            item.base_unit,
            density=item.density,
            piece_weight=item.piece_weight,
            words=line.reading.words.get(item.id, {}),
            item_name=item.name,
        )
    except MissingFact as refusal:
        if item.id in line.reading.doubtful:
            line.faulty.add(column)
        else:
            line.refused(column, refusal)
    except Refusal as refusal:
        line.refused(column, refusal)
    return Fraction(0)


def exact(line: Line, column: str, item: Item, system: UnitSystem) -> Fraction:
    """A cell's amount in base units of an item, exactly."""
    return of_item(line, column, packed(line, column, system).total, item)


def thousandths(line: Line, column: str, amount: Fraction, *, least: int = 1) -> int:
    """An amount of base units in whole thousandths, rounded half-even once, at least `least`."""
    whole = line.read(column, lambda _: to_thousandths(amount), 0)
    if line.text(column) and whole < least and column not in line.faulty:
        line.fault(
            column,
            QUANTITY_NOTHING,
            f"{line.text(column)!r} comes to nothing.",
            "Write a quantity above nothing, or leave the row out.",
        )
    return whole


def quantity(line: Line, column: str, item: Item, *, least: int = 1) -> int:
    """A cell's amount in thousandths of the item's base unit."""
    amount = exact(line, column, item, line.reading.unit_system)
    return thousandths(line, column, amount, least=least)


def money(line: Line, column: str) -> int:
    """A cell's sum of money in minor units; nothing where the house's currency is a fault."""
    reading = line.reading
    if not reading.has_currency:
        return 0
    currency, mark = reading.house.currency, reading.decimal_mark
    return line.read(column, lambda text: read_money(text, currency, decimal_mark=mark), 0)
