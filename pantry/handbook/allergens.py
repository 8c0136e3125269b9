"""Allergens: the legal lists, what belongs to what, and the words people write (`allergens.toml`).

A name is read whatever its case and spacing. What is in no list is kept as it was written, so that
a kiwi or a misspelt nut is never dropped. The lists say what the law wants declared: local codes,
the label in the hand and a doctor's advice come first.
"""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from pantry.refusals import NotThere, declare

ALLERGEN_LIST_UNKNOWN = declare("allergen_list_unknown", "No allergen list has this name.")


@dataclass(frozen=True, slots=True)
class Family:
    """One line of a legal list.

    Attributes:
        name: as that list calls it (`tree nuts`).
        allergen: our name for the whole of it (`nuts`).
        members: the only kinds of it that the list names; empty: every kind.
    """

    name: str
    allergen: str
    members: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AllergenList:
    """What one law wants declared, in its own order, with its source."""

    name: str
    title: str
    source: str
    families: tuple[Family, ...]


@dataclass(frozen=True, slots=True)
class _Book:
    """The data file, read: words to names, names to their families and kinds, lists by name."""

    named: Mapping[str, str]
    within: Mapping[str, frozenset[str]]
    kinds: Mapping[str, frozenset[str]]
    lists: Mapping[str, AllergenList]


def allergen_named(word: str) -> str:
    """Our one name for an allergen (`Soya` is `soybeans`); other words stay, in lower case."""
    plain = _plain(word)
    return _book().named.get(plain, plain)


def is_listed(word: str) -> bool:
    """Whether the handbook knows this word as an allergen or another name of one."""
    return _plain(word) in _book().named


def families_of(name: str) -> frozenset[str]:
    """The allergen of this name and every family it is a kind of (`spelt`: wheat, cereals)."""
    return _book().within.get(name, frozenset((name,)))


def kinds_of(name: str) -> frozenset[str]:
    """The allergen of this name and every kind of it (`nuts`: almond, hazelnut and so on)."""
    return _book().kinds.get(name, frozenset((name,)))


def allergen_list(name: str) -> AllergenList:
    """The legal list of this name: `eu14` (also `EU 14`, `uk`) or `us9`.

    Raises:
        NotThere: `allergen_list_unknown`.
    """
    lists = _book().lists
    known = lists.get("".join(letter for letter in name.casefold() if letter.isalnum()))
    if known is None:
        names = ", ".join(sorted({each.name for each in lists.values()}))
        raise NotThere(
            ALLERGEN_LIST_UNKNOWN,
            f"There is no allergen list called {name!r}.",
            f"Choose one of: {names}.",
            value=name,
        )
    return known


def family_on(word: str, allergens: AllergenList) -> str | None:
    """The line of this list that an allergen falls under, by the list's own name; None: none.

    A mussel is a mollusc in the EU and nothing on the list of the United States.
    """
    name = allergen_named(word)
    families = families_of(name)
    for family in allergens.families:
        if name == family.allergen or families.intersection(family.members or (family.allergen,)):
            return family.name
    return None


@lru_cache(maxsize=1)
def _book() -> _Book:
    data = tomllib.loads(files(__package__).joinpath("allergens.toml").read_text("utf-8"))
    sources: Mapping[str, str] = data["sources"]
    parents = {entry["name"]: tuple(entry.get("within", ())) for entry in data["allergen"]}
    within = {name: _upward(name, parents) for name in parents}
    return _Book(
        named={
            _plain(word): entry["name"]
            for entry in data["allergen"]
            for word in (entry["name"], *entry.get("also", ()))
        },
        within=within,
        kinds={
            name: frozenset(kind for kind, families in within.items() if name in families)
            for name in parents
        },
        lists={
            word: _list_of(entry, sources[entry["source"]])
            for entry in data["list"]
            for word in (entry["name"], *entry["also"])
        },
    )


def _list_of(entry: Mapping[str, Any], source: str) -> AllergenList:
    families = tuple(
        Family(line["name"], line["allergen"], tuple(line.get("members", ())))
        for line in entry["families"]
    )
    return AllergenList(entry["name"], entry["title"], source, families)


def _upward(name: str, parents: Mapping[str, Iterable[str]]) -> frozenset[str]:
    """The name and everything above it."""
    found = {name}
    for parent in parents[name]:
        found |= _upward(parent, parents)
    return frozenset(found)


def _plain(word: str) -> str:
    return " ".join(word.casefold().split())
