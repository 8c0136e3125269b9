"""Who at a table cannot eat a dish, why, and what they can eat instead (AL3).

A constraint is a person's own word. These rules find what was declared and what is not known;
whoever serves still looks at the pack and asks. Local codes and medical advice come first.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from pantry.handbook.allergens import allergen_named, is_listed
from pantry.rules.allergens import (
    WORST_FIRST,
    Certainty,
    Larder,
    certainty_of,
    declared_of,
    is_simple,
    reached,
)
from pantry.rules.menu import Constraint, Recipe, RecipeKind
from pantry.rules.variants import with_variant


@dataclass(frozen=True, slots=True)
class Conflict:
    """A person at the table cannot eat something in a dish, or it is not known whether.

    Attributes:
        cannot_eat: the allergen or item, as the person's constraint says it.
        chain: how it gets there: the dish, the preparations by item id, the item.
    """

    person: str
    cannot_eat: str
    certainty: Certainty
    chain: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SafeDish:
    """A dish, in a variant or (None) as it stands, that a person can eat."""

    dish: str
    variant: str | None


def conflicts(
    constraints: Iterable[Constraint], dish: Recipe, table: str, on: date, larder: Larder
) -> tuple[Conflict, ...]:
    """Who at a table cannot eat a dish on a date, why, and through what; the worst first (AL3).

    A constraint names an allergen, by any of its names, or an item. A food on no allergen list
    that is an item (coriander) is found where that item is, and where something declares it; a word
    that is neither is unknown in everything, so that a misspelt allergen is never passed over.

    Args:
        constraints: of any person and table; those of this table in force on this date count.
        dish: as it is to be cooked, with its variant.
        table: its id.
        on: the date of the service; a constraint's own dates are inclusive.
        larder: what everything is made of.
    """
    here = [each for each in constraints if each.table == table and _in_force(each, on)]
    if not here:
        return ()
    chains = tuple(reached(dish, larder)) or ((dish.id,),)
    found = (
        Conflict(each.person, word, _certainty(word, chain, larder), chain)
        for each in here
        for word in sorted(each.cannot_eat)
        for chain in chains
    )
    return tuple(
        sorted(
            (each for each in found if each.certainty is not Certainty.FREE_OF),
            key=lambda each: WORST_FIRST.index(each.certainty),
        )
    )


def safe_alternatives(
    person: str,
    constraints: Sequence[Constraint],
    dish: Recipe,
    others: Iterable[Recipe],
    *,
    table: str,
    on: date,
    larder: Larder,
) -> tuple[SafeDish, ...]:
    """What a person can eat instead: the same dish in another variant first, then other dishes.

    Args:
        person: whose constraints count.
        constraints: of any person and table; give all, for the person may have more than one.
        dish: as it stands, without a variant.
        others: further recipes, the most welcome first; only what is offered counts.
        table: its id.
        on: the date of the service.
        larder: what everything is made of.
    """
    own = tuple(each for each in constraints if each.person == person)
    served = (each for each in others if each.kind is RecipeKind.DISH and each.offered)
    dishes = (dish, *(each for each in served if each.id != dish.id))
    return tuple(
        SafeDish(each.id, variant)
        for each in dishes
        for variant in (None, *(name for name, _ in each.variants))
        if not conflicts(own, with_variant(each, variant), table, on, larder)
    )


def _in_force(constraint: Constraint, on: date) -> bool:
    first, last = constraint.first, constraint.last
    return (first is None or first <= on) and (last is None or on <= last)


def _certainty(word: str, chain: tuple[str, ...], larder: Larder) -> Certainty:
    """What is known of a word that somebody cannot eat, in the last thing of a chain."""
    item, named = chain[-1], larder.ids_named.get(allergen_named(word), frozenset())
    if item == word or item in named:
        return Certainty.CONTAINS
    known = certainty_of(declared_of(item, larder), word)
    if known is Certainty.UNKNOWN and not is_simple(item, larder):
        return Certainty.FREE_OF  # what it is made of speaks for it
    is_bought = item in larder.names and item not in larder.preparations
    names_an_item = not is_listed(word) and (named or word in larder.names)
    if known is Certainty.UNKNOWN and names_an_item and is_bought:
        return Certainty.FREE_OF
    return known
