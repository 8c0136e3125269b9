"""Units that people may write, and what each is exactly (MS2).

The table is `pantry/handbook/units.json`. Nothing outside it is read as a unit. What one word means
in several countries (cup, pint, fluid ounce, tablespoon) follows the unit system; what nobody can
tell apart (`T`, `t`, `c`, `gr`, `MG`) is refused.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from pantry.refusals import UnreadableInput, declare

UNIT_UNKNOWN = declare("unit_unknown", "The unit is not one of those that are read.")
UNIT_AMBIGUOUS = declare("unit_ambiguous", "The unit can mean several things.")
UNIT_NOT_IN_SYSTEM = declare("unit_not_in_system", "The unit has no size in this unit system.")

_BOOK: Mapping[str, Any] = json.loads(
    files("pantry.handbook").joinpath("units.json").read_text(encoding="utf-8")
)


class Dimension(StrEnum):
    """What a unit measures; a counted word (tin, bunch) has a size only with an item."""

    MASS = "mass"
    VOLUME = "volume"
    COUNT = "count"
    WORD = "word"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measure.

    Attributes:
        code: how it is stored, such as `kg` or `us_cup`.
        factor: how many g, ml or each one of it is.
        definition: the same for the pint library, which `check_units` asks.
    """

    code: str
    dimension: Dimension
    factor: Fraction
    definition: str


UNITS: Mapping[str, Unit] = MappingProxyType(
    {
        code: Unit(code, Dimension(row["dimension"]), Fraction(row["factor"]), row["pint"])
        for code, row in _BOOK["units"].items()
    }
)
"""Every unit by its code."""

COUNTED_WORDS: Mapping[str, str] = MappingProxyType(
    {word: code for code, words in _BOOK["counted"].items() for word in words}
)
"""Every counted word, one or several of it, with the word it is stored as."""

_WORDS = {word: code for code, row in _BOOK["units"].items() for word in [code, *row["words"]]}
_BY_SYSTEM = {word: row for row in _BOOK["by_system"] for word in row["words"]}
_AMBIGUOUS = {word: row["todo"] for row in _BOOK["ambiguous"] for word in row["words"]}


def dimension_of(code: str) -> Dimension:
    """What the unit of an amount measures; no unit at all is a count."""
    if not code:
        return Dimension.COUNT
    return UNITS[code].dimension if code in UNITS else Dimension.WORD


def factor_of(code: str) -> Fraction:
    """How many g, ml or each one of it is; 1 for no unit and for a counted word."""
    return UNITS[code].factor if code in UNITS else Fraction(1)


def unit_called(text: str, system: str) -> str:
    """The code of the unit, or the counted word, that people write so in this unit system.

    Capitals make no difference, except where they would change the meaning.

    Args:
        text: words with one space between them and without the stops of abbreviations.
        system: `us`, `metric` or `imperial`.

    Raises:
        UnreadableInput: `unit_unknown`, `unit_ambiguous`, `unit_not_in_system`.
    """
    if text in _AMBIGUOUS:
        raise UnreadableInput(
            UNIT_AMBIGUOUS, f"{text!r} can mean several units.", _AMBIGUOUS[text], value=text
        )
    word = text.lower()
    if word in _BY_SYSTEM:
        return _in_system(word, system)
    code = _WORDS.get(word) or COUNTED_WORDS.get(word)
    if code is None:
        raise _unknown(text)
    return code


def unit_coded(code: str) -> Unit:
    """The unit of measure that is stored under this code.

    Raises:
        UnreadableInput: `unit_unknown`, for a counted word too.
    """
    if code not in UNITS:
        raise _unknown(code)
    return UNITS[code]


def check_units() -> tuple[str, ...]:
    """What the pint library, with exact fractions, says otherwise than the table; empty if nothing.

    Its parser sees only the table's own definitions, never what a person wrote.
    """
    import pint  # noqa: PLC0415 - loading it takes a fifth of a second, and only this needs it

    registry: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)
    base = {Dimension.MASS: "gram", Dimension.VOLUME: "milliliter", Dimension.COUNT: ""}
    faults = []
    for unit in UNITS.values():
        exact: Fraction = registry.Quantity(unit.definition).to(base[unit.dimension]).magnitude
        if exact != unit.factor:
            faults.append(f"{unit.code} is {unit.factor} in the table and {exact} by definition")
    return tuple(faults)


def _unknown(text: str) -> UnreadableInput:
    return UnreadableInput(
        UNIT_UNKNOWN,
        f"{text!r} is no unit that is read here.",
        "Write g, kg, ml, l, oz, lb, cup, pint, each or a word such as tin or bunch.",
        value=text,
    )


def _in_system(word: str, system: str) -> str:
    row = _BY_SYSTEM[word]
    if system not in row:
        known = sorted(set(row) - {"words"})
        raise UnreadableInput(
            UNIT_NOT_IN_SYSTEM,
            f"A {word} has no size in the {system} system.",
            f"Write it in ml or l, or say which, such as {known[0]} {word}.",
            value=word,
        )
    code: str = row[system]
    return code
