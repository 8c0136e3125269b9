"""One row of the days ahead, as a line."""

from collections.abc import Callable

from pantry.reports.report import Row
from pantry.terminal.printing import listed
from pantry.terminal.words import Words, many

TITLES = {
    "delivery": "comes",
    "cut_off": "order by",
    "choose_by": "choose by",
    "pull": "pull",
    "make": "make",
    "service": "meals",
    "dies": "dies",
}
"""What a row is, in the order of a kitchen's day."""

_MIDNIGHT = "23:59"
"""The last minute of a day; what ends with it needs no time."""


def line(words: Words, row: Row) -> str:
    """A row in one short line, without its day.

    `16:50 Tolsaig Creamery, 3 items for Sat 13 Mar 06:45`, `19:30 dinner, family (4, proposed)`,
    `Double cream B-0004`, which dies with its day.
    """
    at, which = words.time(row["at"]), _WHICH[row["what"]](words, row)
    return which if at == _MIDNIGHT else f"{at} {which}"


def pulled(words: Words, row: Row) -> str:
    """`800 g Venison shoulder B-0241 for Thu 11 Mar dinner, family`."""
    amount = words.amount(row["quantity"])
    return f"{amount} {row['item']} {row['label']} for {words.service(row['service'])}"


def made(words: Words, row: Row) -> str:
    """`525 ml Béchamel for Macaroni cheese`."""
    return f"{words.amount(row['quantity'])} {row['item']} for {row['dish']}"


def _cut_off(words: Words, row: Row) -> str:
    items, delivery = many(row["items"], "item"), words.moment(row["delivery"])
    return f"{row['supplier']}, {items} for {delivery}"


def _to_choose(words: Words, row: Row) -> str:
    return f"{listed(row['dishes'])} ({words.service(row['service'])})"


def _service(_words: Words, row: Row) -> str:
    return f"{row['meal']}, {row['table']} ({_covers(row)})"


def _covers(row: Row) -> str:
    """`4`, `4, proposed`, `8, 2 items short`."""
    state = [] if row["state"] == "confirmed" else [row["state"]]
    short = [f"{many(row['short'], 'item')} short"] if row["short"] else []
    return ", ".join([str(row["covers"]), *state, *short])


_WHICH: dict[str, Callable[[Words, Row], str]] = {
    "delivery": lambda _words, row: str(row["supplier"]),
    "cut_off": _cut_off,
    "choose_by": _to_choose,
    "pull": pulled,
    "make": made,
    "service": _service,
    "dies": lambda _words, row: f"{row['item']} {row['label']}",
}
