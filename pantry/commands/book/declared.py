"""What a label declares, in the columns `contains` and `may_contain` of an item (AL3)."""

from pantry.commands.book.cells import listed
from pantry.commands.book.reading import Line
from pantry.handbook.allergens import allergen_list, allergen_named
from pantry.refusals import declare
from pantry.rules.allergens import of_label
from pantry.rules.stock import Declared

NOTHING_AND_MORE = declare("nothing_and_more", "A label declares nothing, and something beside it.")

_NOTHING = "none"


def read_declared(line: Line) -> Declared:
    """What an item is known to contain, to perhaps contain and to be free of.

    A filled `contains` is all that the label declares: the item is free of whatever else of the
    house's allergen list it could name, `none` of all of it. An empty one says that nobody knows.
    A word on no list (a misspelt nut, a kiwi) is kept as it is written, and then nothing is taken
    to be free of anything: unknown is not free.
    """
    contains, said = _words(line, "contains")
    may_contain, _ = _words(line, "may_contain")
    if not said:
        return Declared(contains, may_contain - contains)
    return of_label(contains, may_contain, allergen_list(line.reading.house.allergen_list))


def _words(line: Line, column: str) -> tuple[frozenset[str], bool]:
    """The allergens of a cell by our names, and whether the cell says anything."""
    words = [allergen_named(word) for word in listed(line.text(column))]
    named = frozenset(words) - {_NOTHING}
    if _NOTHING in words and named:
        line.fault(
            column,
            NOTHING_AND_MORE,
            f"{line.text(column)!r} says none, and names something.",
            "Write none alone, or only what the label declares.",
        )
    return named, bool(words)
