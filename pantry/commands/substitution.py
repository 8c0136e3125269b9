"""Another thing came than was ordered: what of it a person must know who decides whether it may.

Only what was declared is compared; the label in the hand and the advice of a doctor come first.
"""

from pantry.handbook.allergens import allergen_list
from pantry.records.books import Books
from pantry.records.read.larder import larder
from pantry.records.tables import ItemRow
from pantry.rules.allergens import WORST_FIRST, Certainty, by_list, declared_of

_SAYS = {
    Certainty.CONTAINS: "it contains",
    Certainty.MAY_CONTAIN: "it may contain",
    Certainty.UNKNOWN: "nobody knows whether it is free of",
}


def differences(books: Books, came: ItemRow, ordered: ItemRow) -> list[str]:
    """That it came instead, and every allergen of which less is known to be absent (AL3)."""
    known = larder(books.connection, books.id, books.items, books.recipes.values())
    listing = allergen_list(books.house.allergen_list)
    before = by_list(declared_of(ordered.id, known), listing)
    after = by_list(declared_of(came.id, known), listing)
    said = [f"It came instead of {ordered.name}."]
    for certainty, says in _SAYS.items():
        worse = [
            name
            for name, found in after.items()
            if found is certainty and WORST_FIRST.index(found) < WORST_FIRST.index(before[name])
        ]
        if worse:
            said.append(f"Unlike {ordered.name}, {says} {', '.join(worse)}: read the label.")
    return said
