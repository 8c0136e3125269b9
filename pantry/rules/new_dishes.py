"""Which dishes are new to a table, so that their recipe is shown before they are chosen.

The approval of a recipe says that the household has seen it, and goes when the dish has become
another. Where the records of a table reach back a year, they speak too: what it was never served
in all that time is new to it, whatever was approved once. Common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from pantry.rules.menu import Recipe

MEMORY = timedelta(days=365)
"""So far back the records must reach before *never served* says anything."""


@dataclass(frozen=True, slots=True)
class Served:
    """What the records say of what was served.

    Attributes:
        last: by dish and table, when it was last served there.
        first: by table, when anything was first served there.
    """

    last: Mapping[str, Mapping[str, date]]
    first: Mapping[str, date]


def is_new(dish: Recipe, table: str, served: Served, today: date) -> bool:
    """Whether a dish is new to a table."""
    if not dish.approved:
        return True
    first = served.first.get(table)
    remembers = first is not None and today - first >= MEMORY
    return remembers and table not in served.last.get(dish.id, {})


def lacks(dish: Recipe, method: str) -> tuple[str, ...]:
    """What of a dish's recipe is missing, in words, before it can be shown."""
    return (
        *(() if dish.ingredients else ("its ingredients",)),
        *(() if method.strip() else ("its method",)),
    )
