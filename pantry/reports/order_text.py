"""An order in words, as its supplier reads it: sent by mail or message, and printed."""

import re
from collections.abc import Iterator
from datetime import datetime

from pantry.handbook.allergens import is_listed
from pantry.reports.report import Row
from pantry.reports.view import View

_ASK_FIRST = (
    "Please send no other product in place of one that is ordered without asking us first: "
    "its allergens may differ."
)
_INSTEAD = {
    "ask_first": _ASK_FIRST,
    "never": (
        "Please send no other product in place of one that is ordered: as agreed, it goes back "
        "with the driver."
    ),
    "allowed": (
        "As agreed, you may send a like product in place of one that is not to be had. Say on the "
        "delivery note what it replaces: its allergens may differ, and the kitchen looks at it "
        "before it is used."
    ),
}
"""By what was agreed: a substitution is decided in the kitchen, never by silence."""

_FREE = re.compile(r"(\w+)[ -]free\b|\bfree (?:from|of) (\w+)", re.IGNORECASE)


def free_from(*names: str) -> list[str]:
    """The allergens that a product is asked for without, by how it is called: `Gluten-free flour`.

    What an item's label happens not to name is no such wish; a word on no list is none either.
    """
    words = [one or other for name in names for one, other in _FREE.findall(name)]
    return list(dict.fromkeys(word.lower() for word in words if is_listed(word)))


def day(at: datetime) -> str:
    """`Friday 12 March 2027, 14:00`, of an instant in the zone it is to be said in."""
    return f"{at:%A} {at.day} {at:%B %Y}, {at:%H:%M}"


def order_text(view: View, row: Row, delivery: datetime) -> str:
    """A whole order: of whom, for when, what, what must be heeded, and our reference."""
    lines = [
        f"Order of {view.house.name}, our reference {row['order']}",
        f"To {row['supplier']}",
        f"For delivery on {day(delivery.astimezone(view.zone))}",
        "",
        *(f"{line['packs']} x {line['pack']}: {line['item']}" for line in row["lines"]),
        *(in_words(line) for line in row["free"]),
        "",
        *heeded(row),
        "Please confirm it, and tell us at once what will be short or comes at another price.",
    ]
    return "\n".join(lines) + "\n"


def in_words(line: Row) -> str:
    """A free line: `3 small tubs: goat curd`."""
    return f"{line['amount']}: {line['words']}" if line["amount"] else str(line["words"])


def heeded(row: Row) -> Iterator[str]:
    """What the supplier has to heed: what must be free of what, and what may be replaced."""
    for line in row["lines"]:
        if line["free_from"]:
            free = " and of ".join(line["free_from"])
            yield f"{line['item']} must be free of {free}: the label decides, not the name."
    yield _INSTEAD.get(row["substitution"] or "", _ASK_FIRST)
