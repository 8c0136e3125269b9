"""How much a tin, bunch or bag of an item is: what its packs call so, if they all mean the same."""

from collections.abc import Iterable
from fractions import Fraction

from pantry.rules.supply import Pack
from pantry.rules.units import COUNTED_WORDS


def word_of(name: str) -> str | None:
    """The word that counts such packs: `tin` of `400 g tin`, `bunch` of `large bunch`; or None."""
    last = name.lower().split()[-1:] or [""]
    return COUNTED_WORDS.get(last[0])


def words_of(packs: Iterable[Pack]) -> dict[str, dict[str, Fraction]]:
    """Base units in one tin, bunch or bag, by the item's id and the word (MS3)."""
    sizes: dict[tuple[str, str], set[int]] = {}
    for pack in packs:
        word = word_of(pack.name)
        if word and pack.sealed_quantity:
            sizes.setdefault((pack.item, word), set()).add(pack.sealed_quantity)
    words: dict[str, dict[str, Fraction]] = {}
    for (item, word), found in sizes.items():
        if len(found) == 1:
            words.setdefault(item, {})[word] = Fraction(found.pop(), 1000)
    return words
