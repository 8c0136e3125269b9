"""Amounts as people write them, read exactly: a number and a unit, ranges, packs (MS2).

An amount is `[number] [unit]`, or several of one kind, the larger unit first (`2 lb 4 oz`). Of a
range (`2-3`, `2 to 3`) the larger is planned for. A pack multiplies (`6 x 750 ml`, `750 ml x 6`,
`case of 6 x 750 ml`, `2 tins of 400 g`). Nothing is guessed: what does not fit is refused.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import prod

from pantry.refusals import UnreadableInput, declare
from pantry.rules.numbers import begins_with_figures, leading_number, plain, tokens_of
from pantry.rules.units import COUNTED_WORDS, Dimension, dimension_of, factor_of, unit_called

AMOUNT_UNREADABLE = declare("amount_unreadable", "The amount cannot be read.")
AMOUNT_NEGATIVE = declare("amount_negative", "The amount is below nothing.")
AMOUNT_TOO_LARGE = declare("amount_too_large", "The amount is more than a house can hold.")

MOST_THOUSANDTHS = 10**12
"""The largest quantity: a thousand tonnes, a million litres, a thousand million pieces."""

LONGEST_TEXT = 100
"""Characters of an amount; nobody writes a longer one."""

_MINUSES = ("-", "−", "–")
_TIMES = frozenset(["x", "×", "*", "✕"])
_AND = frozenset(["and", "&", "+", ","])
_TO = frozenset(["-", "–", "—", "to", "or"])


class _MisfitError(Exception):
    """The words and figures do not fit together as an amount."""


class UnitSystem(StrEnum):
    """Whose cup, pint, fluid ounce and spoon a recipe means."""

    US = "us"
    METRIC = "metric"
    IMPERIAL = "imperial"


@dataclass(frozen=True, slots=True)
class Amount:
    """What somebody wrote, exactly.

    Attributes:
        value: how many of the unit.
        unit: a unit's code (`kg`, `us_cup`), a counted word (`tin`), or empty for a bare number.
    """

    value: Fraction
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What it measures; a bare number counts."""
        return dimension_of(self.unit)


@dataclass(frozen=True, slots=True)
class Packed:
    """A pack: what it holds in all, and in one unopened unit inside it (one bottle of the case)."""

    total: Amount
    inner: Amount


def read_amount(text: str, system: UnitSystem, *, decimal_mark: str | None = None) -> Amount:
    """The amount that a person wrote; of a pack, all it holds.

    Args:
        text: such as `1 1/2 cups`, `½ l`, `2 lb 4 oz`, `3 tins`, `a bunch`, `6 x 750 ml`, `12`.
        system: whose cups, pints and spoons.
        decimal_mark: the house's, `.` or `,`; None: what only it could decide is refused.

    Raises:
        UnreadableInput: `amount_unreadable`, `amount_negative`, `amount_too_large`,
            `number_unreadable`, `number_ambiguous`, `unit_unknown`, `unit_ambiguous`,
            `unit_not_in_system`.
    """
    return read_packs(text, system, decimal_mark=decimal_mark).total


def read_packs(text: str, system: UnitSystem, *, decimal_mark: str | None = None) -> Packed:
    """What a pack holds in all and in one unit inside it.

    `case of 6 x 750 ml` holds 4500 ml in units of 750 ml; `25 kg sack` is one unit of 25 kg;
    `3 tins` are units of one tin; `12` is one unit of twelve, `12 x 1` twelve units of one.

    Raises:
        UnreadableInput: as `read_amount`.
    """
    if not text.strip() or len(text) > LONGEST_TEXT:
        raise _unreadable(text)
    if text.strip().startswith(_MINUSES):
        raise UnreadableInput(
            AMOUNT_NEGATIVE, f"{text!r} is below nothing.", "Give an amount above nothing.", text
        )
    try:
        total, inner = _pack(tokens_of(text), system, decimal_mark)
    except _MisfitError as misfit:
        raise _unreadable(text) from misfit
    if total.value * factor_of(total.unit) * 1000 > MOST_THOUSANDTHS:
        raise too_large(text)
    return Packed(total, inner)


def too_large(text: str) -> UnreadableInput:
    """The refusal of more than a house can hold."""
    return UnreadableInput(
        AMOUNT_TOO_LARGE,
        f"{text!r} is more than any house holds.",
        "Check the number and its unit.",
        value=text,
    )


def _pack(
    tokens: Sequence[str], system: UnitSystem, decimal_mark: str | None
) -> tuple[Amount, Amount]:
    """What a pack holds in all, and in one unit inside it."""
    packs, tokens = _containers(tokens, decimal_mark)
    amounts = [_upper(part, system, decimal_mark) for part in _multiplied(tokens)]
    inner = next((amount for amount in amounts if amount.unit), amounts[-1])
    times = [amount for amount in amounts if amount is not inner]
    if any(amount.unit or amount.value.denominator != 1 for amount in times):
        raise _MisfitError
    total = Amount(inner.value * packs * prod(amount.value for amount in times), inner.unit)
    if inner.dimension is Dimension.WORD:
        inner = Amount(min(inner.value, Fraction(1)), inner.unit)
    return total, inner


def _containers(tokens: Sequence[str], decimal_mark: str | None) -> tuple[Fraction, Sequence[str]]:
    """How many packs `2 cases of` or `case of 6 bottles of` come to, and what each holds."""
    packs = Fraction(1)
    while "of" in (words := [token.lower() for token in tokens]):
        end = words.index("of")
        *count, container = tokens[:end] or [""]
        if plain(container) not in COUNTED_WORDS:
            raise _MisfitError
        if count:
            number, rest = leading_number(count, decimal_mark)
            if rest:
                raise _MisfitError
            packs *= number
        tokens = tokens[end + 1 :]
    return packs, tokens


def _multiplied(tokens: Sequence[str]) -> list[Sequence[str]]:
    """The tokens between the times signs."""
    parts: list[list[str]] = [[]]
    for token in tokens:
        if token.lower() in _TIMES:
            parts.append([])
        else:
            parts[-1].append(token)
    return list(parts)


def _upper(tokens: Sequence[str], system: UnitSystem, decimal_mark: str | None) -> Amount:
    """The amount, or the larger end of a range, which is what is planned for."""
    lower, rest = _added_up(tokens, system, decimal_mark)
    if not rest:
        return lower
    if rest[0].lower() not in _TO:
        raise _MisfitError
    upper, rest = _added_up(rest[1:], system, decimal_mark)
    comparable = lower.unit in {"", upper.unit} or (
        lower.dimension is upper.dimension is not Dimension.WORD
    )
    lower_unit = lower.unit or upper.unit
    ascending = lower.value * factor_of(lower_unit) <= upper.value * factor_of(upper.unit)
    if rest or not comparable or not ascending:
        raise _MisfitError
    return upper


def _added_up(
    tokens: Sequence[str], system: UnitSystem, decimal_mark: str | None
) -> tuple[Amount, Sequence[str]]:
    """`2 lb 4 oz` as pounds, and the tokens after it."""
    first, rest = _single(tokens, system, decimal_mark)
    value, last = first.value, first
    while rest and (begins_with_figures(rest) or rest[0].lower() in _AND):
        part, rest = _single(rest[rest[0].lower() in _AND :], system, decimal_mark)
        measured = first.dimension in {Dimension.MASS, Dimension.VOLUME}
        smaller = factor_of(part.unit) < factor_of(last.unit)
        if not (measured and smaller and part.dimension is first.dimension):
            raise _MisfitError
        value += part.value * factor_of(part.unit) / factor_of(first.unit)
        last = part
    return Amount(value, first.unit), rest


def _single(
    tokens: Sequence[str], system: UnitSystem, decimal_mark: str | None
) -> tuple[Amount, Sequence[str]]:
    """One number with its unit, and the tokens after them."""
    number, rest = leading_number(tokens, decimal_mark)
    words = []
    for token in rest:
        if not token[0].isalpha() or token.lower() in _AND | _TO:
            break
        words.append(token.removesuffix("."))
    return Amount(number, _unit(words, system)), rest[len(words) :]


def _unit(words: Sequence[str], system: UnitSystem) -> str:
    """The unit of the words, which a container may follow (`400 g tin`, `25 kg sack`)."""
    if not words:
        return ""
    if len(words) > 1 and words[-1].lower() in COUNTED_WORDS:
        words = words[:-1]
    return unit_called(" ".join(words), system)


def _unreadable(text: str) -> UnreadableInput:
    return UnreadableInput(
        AMOUNT_UNREADABLE,
        f"{text!r} is no amount." if text.strip() else "The amount is missing.",
        "Write a number and a unit, such as 250 g, 1 1/2 cups, 2 lb 4 oz or 6 x 750 ml.",
        value=text,
    )
