"""What everything in the house is made of, for allergens (AL3)."""

import json
from collections.abc import Iterable, Mapping

from sqlalchemy import Connection

from pantry.handbook.allergens import AllergenList, allergen_list
from pantry.records.rows import every, one
from pantry.records.tables import HouseRow, PackRow
from pantry.rules.allergens import Larder, of_label, together
from pantry.rules.menu import Recipe
from pantry.rules.stock import Declared, Item


def larder(
    connection: Connection,
    house: str,
    items: Mapping[str, Item],
    recipes: Iterable[Recipe],
) -> Larder:
    """What each item is known to contain: its own declaration, and that of every product of it.

    A supplier's pack that is another product carries allergens of its own; until its batches are
    gone the item is as the worst of them.
    """
    declared = {item.id: [item.declared] for item in items.values()}
    allergens = allergen_list(one(connection, HouseRow, id=house).allergen_list)
    for row in every(connection, PackRow, house=house):
        if row.contains is not None and row.item in declared:
            declared[row.item].append(product(row, allergens))
    return Larder(
        declared={item: together(parts) for item, parts in declared.items()},
        names={item.id: item.name for item in items.values()},
        preparations={recipe.makes: recipe for recipe in recipes if recipe.makes},
    )


def product(row: PackRow, allergens: AllergenList) -> Declared:
    """What a pack's own label declares; one that names nothing may not have been read."""
    contains = frozenset(json.loads(row.contains or "[]"))
    may_contain = frozenset(json.loads(row.may_contain or "[]"))
    if not contains:
        return Declared(may_contain=may_contain)
    return of_label(contains, may_contain, allergens)
