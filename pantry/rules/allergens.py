"""Allergens: what flows into what (AL3).

Everything carries *contains / may contain / free of*, and what is in none of these is unknown:
unknown is not free. These rules only pass on what was declared; the label in the hand comes first,
as do local codes, the cook's own care against cross-contact, and the advice of a doctor.
"""

from collections import defaultdict, deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property, lru_cache

from pantry.handbook.allergens import (
    AllergenList,
    allergen_named,
    families_of,
    is_listed,
    kinds_of,
)
from pantry.rules.menu import Recipe
from pantry.rules.stock import Declared


class Certainty(StrEnum):
    """What is known of an allergen in something, the worst first."""

    CONTAINS = "contains"
    MAY_CONTAIN = "may_contain"
    UNKNOWN = "unknown"
    FREE_OF = "free_of"


WORST_FIRST = tuple(Certainty)
_NOTHING_KNOWN = Declared()


@dataclass(frozen=True)
class Larder:
    """What everything in a kitchen is made of, as far as it is known.

    Attributes:
        declared: of each item, by its id: its own, or that of the product or batch to be used.
        names: of each item, by its id, as people call it.
        preparations: the recipe of each preparation, by the id of the item it makes.
        substitutes: the item that takes an item's place, by the id of the item that is lacking.
    """

    declared: Mapping[str, Declared]
    names: Mapping[str, str]
    preparations: Mapping[str, Recipe]
    substitutes: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def ids_named(self) -> Mapping[str, frozenset[str]]:
        """The ids of the items of each name, in lower case."""
        found: dict[str, set[str]] = defaultdict(set)
        for item, name in self.names.items():
            found[allergen_named(name)].add(item)
        return {name: frozenset(ids) for name, ids in found.items()}


@dataclass(frozen=True, slots=True)
class Made:
    """Where a batch came from.

    Attributes:
        item: what the batch is one of.
        parents: the batches it was made, opened, thawed or decanted from.
        recipe: what it was made by; None: it is part of its parents and nothing else.
    """

    item: str
    parents: tuple[str, ...] = ()
    recipe: Recipe | None = None


_UNRECORDED = Made(item="")


def certainty_of(declared: Declared, allergen: str) -> Certainty:
    """What a declaration says of one allergen, by any of its names.

    A kind counts for its family (almond is a nut). A family that is named whole may be any of its
    kinds. What is free of a family is free of its kinds, never the other way round, and only where
    nothing else in the declaration speaks against it.
    """
    name = allergen_named(allergen)
    kinds, families = kinds_of(name), families_of(name)
    contains, may_contain = _named(declared.contains), _named(declared.may_contain)
    if contains & kinds:
        return Certainty.CONTAINS
    if may_contain & kinds:
        return Certainty.MAY_CONTAIN
    present = contains | may_contain
    if any(not kinds_of(each) & present for each in _named(declared.free_of) & families):
        return Certainty.FREE_OF
    return Certainty.MAY_CONTAIN if present & families else Certainty.UNKNOWN


def by_list(declared: Declared, allergens: AllergenList) -> dict[str, Certainty]:
    """What is known of each allergen of a legal list, by that list's names and in its order."""
    return {
        family.name: Certainty.CONTAINS
        if family.allergen in _named(declared.contains)
        else _worst(certainty_of(declared, each) for each in family.members or (family.allergen,))
        for family in allergens.families
    }


def of_label(
    contains: frozenset[str], may_contain: frozenset[str], allergens: AllergenList
) -> Declared:
    """What is known of something whose label was read and declares this much (AL3).

    It is free of whatever else that legal list could name. With a word on no list (a misspelt nut,
    a kiwi) nothing is taken to be free of anything: unknown is not free.
    """
    known = Declared(contains, may_contain - contains)
    if not all(is_listed(word) for word in contains | may_contain):
        return known
    free_of = frozenset(
        name
        for family in allergens.families
        for name in (family.allergen, *family.members)
        if certainty_of(known, name) is Certainty.UNKNOWN
    )
    return Declared(known.contains, known.may_contain, free_of)


def together(parts: Iterable[Declared]) -> Declared:
    """What is known of something made of all of these: the worst of each, free only if all are.

    Nothing at all is not free of anything: it is unknown.
    """
    each = tuple(parts)
    contains = frozenset[str]().union(*(_named(part.contains) for part in each))
    may_contain = frozenset[str]().union(*(_named(part.may_contain) for part in each))
    free_of = frozenset[str]().union(*(_named(part.free_of) for part in each))
    return Declared(
        contains,
        may_contain - contains,
        frozenset(
            name
            for name in free_of
            if all(certainty_of(part, name) is Certainty.FREE_OF for part in each)
        ),
    )


def declared_of(item: str, larder: Larder) -> Declared:
    """What is known of an item by itself; nothing where it has no entry."""
    return larder.declared.get(item, _NOTHING_KNOWN)


def reached(recipe: Recipe, larder: Larder) -> Iterator[tuple[str, ...]]:
    """The shortest chain to every item that a dish is made of, however deep.

    Where an item has a substitute, the substitute is followed instead. Below a substitute both are:
    it may be made of the very thing whose place it takes (ghee for butter), or be made already.
    """
    waiting: deque[tuple[tuple[str, ...], Recipe, bool]] = deque([((recipe.id,), recipe, False)])
    followed, found = set[tuple[str, bool]](), set[str]()
    while waiting:
        chain, cooked, below = waiting.popleft()
        for line in cooked.ingredients:
            for item, is_below in _taken_for(line.item, larder, below=below):
                if (item, is_below) in followed:
                    continue
                followed.add((item, is_below))
                if item in larder.preparations:
                    made_by = larder.preparations[item]
                    waiting.append(((*chain, item), made_by, is_below))
                if item not in found:
                    found.add(item)
                    yield (*chain, item)


def is_simple(item: str, larder: Larder) -> bool:
    """Whether an item is not made of others, as far as anybody wrote down."""
    made_by = larder.preparations.get(item)
    return made_by is None or not made_by.ingredients


def of_recipe(recipe: Recipe, larder: Larder) -> Declared:
    """What is known of a dish or preparation, through its preparations and substitutes (AL3).

    Ingredients that nobody counts are ingredients. For a variant give the recipe with it. What a
    preparation itself declares is added; it is free only of what its ingredients are free of.
    """
    items = [chain[-1] for chain in reached(recipe, larder)]
    own = [recipe.makes] if recipe.makes else []
    return _known_of(
        (item for item in items if is_simple(item, larder)),
        (item for item in (*own, *items) if not is_simple(item, larder)),
        larder,
    )


def of_batch(
    batch: str, made: Mapping[str, Made], declared: Mapping[str, Declared], larder: Larder
) -> Declared:
    """What is known of a batch from its parents, and theirs (AL3).

    An ingredient of which no batch was recorded, as of all that nobody counts, is taken from the
    recipe that was cooked. A preparation of unrecorded origin has what its recipe has, and is free
    of nothing.

    Args:
        batch: its id.
        made: where each batch came from, by its id.
        declared: of each batch whose product says more than its item does, by its id.
        larder: what is known of items and recipes.
    """
    parts: list[Declared] = []
    added: list[Declared] = []
    waiting, seen = [batch], {batch}
    while waiting:
        one = waiting.pop()
        origin = made.get(one, _UNRECORDED)
        own = declared.get(one, declared_of(origin.item, larder))
        (added if origin.parents or origin.recipe else parts).append(own)
        parts.extend(_without_batch(origin, made, larder))
        added.extend(_as_now_made(origin, larder))
        waiting.extend(parent for parent in origin.parents if parent not in seen)
        seen.update(origin.parents)
    return _adding(together(parts), added)


def _taken_for(item: str, larder: Larder, *, below: bool) -> tuple[tuple[str, bool], ...]:
    """What goes in where a recipe names an item, and whether that is a substitute or below one."""
    substitute = larder.substitutes.get(item)
    if substitute is None:
        return ((item, below),)
    return ((substitute, True), (item, True)) if below else ((substitute, True),)


def _without_batch(origin: Made, made: Mapping[str, Made], larder: Larder) -> Iterator[Declared]:
    """What is known of the ingredients cooked of which no parent batch was recorded."""
    recorded = {made.get(parent, _UNRECORDED).item for parent in origin.parents}
    for line in origin.recipe.ingredients if origin.recipe else ():
        made_by = larder.preparations.get(line.item)
        if line.item in recorded:
            continue
        yield of_recipe(made_by, larder) if made_by else declared_of(line.item, larder)


def _as_now_made(origin: Made, larder: Larder) -> Iterator[Declared]:
    """What is known of a preparation's recipe, for a batch of it that nobody recorded making."""
    made_by = larder.preparations.get(origin.item)
    if made_by and not origin.parents and not origin.recipe:
        yield of_recipe(made_by, larder)


def _known_of(simple: Iterable[str], composed: Iterable[str], larder: Larder) -> Declared:
    known = together(declared_of(item, larder) for item in simple)
    return _adding(known, (declared_of(item, larder) for item in composed))


def _adding(known: Declared, added: Iterable[Declared]) -> Declared:
    """The same, with everything that others contain or may contain added."""
    others = together(added)
    present = others.contains | others.may_contain
    contains = known.contains | others.contains
    return Declared(
        contains,
        (known.may_contain | others.may_contain) - contains,
        frozenset(
            name for name in known.free_of if not (kinds_of(name) | families_of(name)) & present
        ),
    )


def _worst(each: Iterable[Certainty]) -> Certainty:
    return min(each, key=WORST_FIRST.index)


@lru_cache(maxsize=4096)
def _named(words: frozenset[str]) -> frozenset[str]:
    """The words of a declaration by our one name for each."""
    return frozenset(allergen_named(word) for word in words)
