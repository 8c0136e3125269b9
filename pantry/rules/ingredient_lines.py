"""A line of somebody else's recipe: how much, of which item, and how sure that is.

Our own grammar reads the amount, and an item is only what the words of the line name exactly. All
else is doubtful, with what it could be, and waits for a person: nothing is guessed (MS2, MS3).
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction

from pantry.refusals import Refusal
from pantry.rules.amounts import LONGEST_TEXT, Amount, UnitSystem, read_amount
from pantry.rules.measure import in_base_units
from pantry.rules.stock import Item
from pantry.rules.units import Dimension, factor_of

LONGEST_LINE = 300
"""Characters of a line; what is longer is no ingredient."""

_LONGEST_AMOUNT = 9
_MOST_CANDIDATES = 6

_BRACKETS = re.compile(r"[(\[][^)\]]*[)\]]")
_BULLET = re.compile(r"^[\s•*·–—-]+(?=\S)")
_WORD = re.compile(r"[^\W\d_]+", re.UNICODE)

_HARMLESS = frozenset(
    [
        "chopped",
        "finely",
        "roughly",
        "coarsely",
        "thinly",
        "thickly",
        "sliced",
        "diced",
        "minced",
        "sifted",
        "softened",
        "melted",
        "beaten",
        "lightly",
        "grated",
        "crushed",
        "crumbled",
        "torn",
        "halved",
        "quartered",
        "cubed",
        "shredded",
        "whisked",
        "warmed",
        "chilled",
        "at",
        "room",
        "temperature",
        "to",
        "taste",
        "serve",
        "for",
        "freshly",
        "ground",
        "into",
        "small",
        "large",
        "pieces",
    ]
)
"""What is done to a thing after it was weighed, as far as nobody can mean anything else by it."""

_JOINS = frozenset({"of", "the", "a", "an"})


class Sureness(StrEnum):
    """How sure a line is; only a sure one needs no decision."""

    SURE = "sure"
    DOUBTFUL = "doubtful"
    UNKNOWN = "unknown"


class Doubt(StrEnum):
    """Why a line waits for a person."""

    ITEM_NOT_NAMED = "item_not_named"
    NO_AMOUNT = "no_amount"
    NOT_MEASURABLE = "not_measurable"
    SIZE_OF_UNIT = "size_of_unit"
    BRACKETS = "brackets"
    NOTE = "note"
    TOO_LONG = "too_long"


@dataclass(frozen=True, slots=True)
class ReadLine:
    """What was read of a line.

    Attributes:
        written: the line as it came.
        amount: the words of it that are the amount; empty: none.
        measured: g, ml or each that these words mean by themselves; None: not known.
        in_item: base units of the item that they come to; None: not known.
        item: the id of the item that the line names; None: a person has to say.
        candidates: ids of what it could be, the likeliest first.
        note: what else stands in the line.
        doubts: why it is not sure; none: it is.
    """

    written: str
    amount: str = ""
    measured: tuple[Fraction, Dimension] | None = None
    in_item: Fraction | None = None
    item: str | None = None
    candidates: tuple[str, ...] = ()
    note: str = ""
    doubts: tuple[Doubt, ...] = ()

    @property
    def sureness(self) -> Sureness:
        """Whether it can be taken as it is, has to be decided, or names nothing that is known."""
        if self.item is None and not self.candidates:
            return Sureness.UNKNOWN
        return Sureness.DOUBTFUL if self.doubts else Sureness.SURE


@dataclass(frozen=True)
class Shelf:
    """The items a house has, as lines are read against them.

    Attributes:
        items: by id.
        words: base units in one tin, bunch or clove of an item, by its id.
        decimal_mark: the house's; None: what only it could decide is refused.
    """

    items: Mapping[str, Item]
    words: Mapping[str, Mapping[str, Fraction]] = field(default_factory=dict)
    decimal_mark: str | None = None


def read_line(text: str, shelf: Shelf, system: UnitSystem, *, system_said: bool) -> ReadLine:
    """What a line says; nothing is raised, since any text may stand in somebody else's recipe.

    Args:
        text: such as `1 1/2 cups plain flour, sifted`.
        shelf: the items of the house.
        system: whose cups, pints and spoons.
        system_said: whether somebody has said so; else what depends on it is doubtful.
    """
    written = " ".join(text.split())
    if len(written) > LONGEST_LINE:
        return ReadLine(written[:LONGEST_LINE], doubts=(Doubt.TOO_LONG,))
    brackets = " ".join(part[1:-1].strip() for part in _BRACKETS.findall(written))
    plain = " ".join(_BULLET.sub("", _BRACKETS.sub(" ", written)).split())
    amount, read, rest = _amount_of(plain, shelf, system)
    item, beside, candidates = _item_of(rest, shelf)
    note = ", ".join(part for part in (beside, brackets) if part)
    line = ReadLine(
        written=written,
        amount=amount,
        measured=_by_itself(read),
        in_item=_in_item(read, item, shelf),
        item=item,
        candidates=candidates,
        note=note,
    )
    doubts = tuple(_doubts(line, shelf, brackets, read, system_said=system_said))
    return replace(line, doubts=doubts)


def _amount_of(text: str, shelf: Shelf, system: UnitSystem) -> tuple[str, Amount | None, str]:
    """The longest beginning that is an amount, what it says, and the rest of the line."""
    words = text.split()
    for count in range(min(len(words), _LONGEST_AMOUNT), 0, -1):
        beginning = " ".join(words[:count])
        if len(beginning) > LONGEST_TEXT:
            continue
        try:
            read = read_amount(beginning, system, decimal_mark=shelf.decimal_mark)
        except Refusal:
            continue
        return beginning, read, " ".join(words[count:])
    return "", None, text


def _item_of(rest: str, shelf: Shelf) -> tuple[str | None, str, tuple[str, ...]]:
    """The item whose name these words are, what stands beside it, and what else it could be."""
    before, _, beside = rest.partition(",")
    for words, note in ((rest, ""), (before, beside.strip())):
        named = [item.id for item in shelf.items.values() if _key(item.name) == _key(words)]
        if len(named) == 1 and _key(words):
            return named[0], note, (named[0],)
    return None, beside.strip(), _candidates(before, shelf.items.values())


def _candidates(words: str, items: Iterable[Item]) -> tuple[str, ...]:
    """Items that share a word with the line, those that share most of their own first."""
    wanted = _key(words)
    found = []
    for item in items:
        key = _key(item.name)
        shared = len(key & wanted)
        if shared:
            found.append((-Fraction(shared, len(key)), -shared, item.name, item.id))
    return tuple(each[-1] for each in sorted(found)[:_MOST_CANDIDATES])


def _key(words: str) -> frozenset[str]:
    """The words of a name whatever their order, case and number."""
    found = (word.casefold() for word in _WORD.findall(words))
    return frozenset(_singular(word) for word in found if word not in _JOINS)


def _singular(word: str) -> str:
    for ending, instead in (("ies", "y"), ("oes", "o"), ("ses", "s"), ("s", "")):
        if len(word) > len(ending) + 2 and word.endswith(ending) and not word.endswith("ss"):
            return word[: -len(ending)] + instead
    return word


def _by_itself(read: Amount | None) -> tuple[Fraction, Dimension] | None:
    """What an amount is in g, ml or each, where no item is needed to know it."""
    if read is None or read.dimension is Dimension.WORD:
        return None
    return read.value * factor_of(read.unit), read.dimension


def _in_item(read: Amount | None, item: str | None, shelf: Shelf) -> Fraction | None:
    if read is None or item is None or not shelf.items[item].measured:
        return None
    thing = shelf.items[item]
    try:
        return in_base_units(
            read,
            thing.base_unit,
            density=thing.density,
            piece_weight=thing.piece_weight,
            words=shelf.words.get(item, {}),
            item_name=thing.name,
        )
    except Refusal:
        return None


def _doubts(
    line: ReadLine, shelf: Shelf, brackets: str, read: Amount | None, *, system_said: bool
) -> Iterable[Doubt]:
    counted = line.item is None or shelf.items[line.item].measured
    if line.item is None:
        yield Doubt.ITEM_NOT_NAMED
    if counted and not line.amount:
        yield Doubt.NO_AMOUNT
    elif counted and line.item and not line.in_item:
        yield Doubt.NOT_MEASURABLE
    if counted and read and not system_said and _depends_on_system(line.amount):
        yield Doubt.SIZE_OF_UNIT
    if re.search(r"\d", brackets):
        yield Doubt.BRACKETS
    if {word.casefold() for word in _WORD.findall(line.note)} - _HARMLESS:
        yield Doubt.NOTE


def _depends_on_system(amount: str) -> bool:
    """Whether an amount is another one in another country's cups, pints or spoons."""
    found: set[Fraction | None] = set()
    for system in UnitSystem:
        try:
            read = read_amount(amount, system)
        except Refusal:
            found.add(None)
        else:
            found.add(read.value * factor_of(read.unit))
    return len(found) > 1
