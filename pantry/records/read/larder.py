"""What everything in the house is made of, for allergens (AL3)."""

import json
from collections.abc import Iterable, Mapping

from sqlalchemy import Connection

from pantry.records.rows import every
from pantry.records.tables import PackRow
from pantry.rules.allergens import Larder, together
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
    for row in every(connection, PackRow, house=house):
        if row.contains is not None and row.item in declared:
            declared[row.item].append(product(row))
    return Larder(
        declared={item: together(parts) for item, parts in declared.items()},
        names={item.id: item.name for item in items.values()},
        preparations={recipe.makes: recipe for recipe in recipes if recipe.makes},
    )


def product(row: PackRow) -> Declared:
    """What a pack's own label declares."""
    return Declared(
        contains=frozenset(json.loads(row.contains or "[]")),
        may_contain=frozenset(json.loads(row.may_contain or "[]")),
    )
