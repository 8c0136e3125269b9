"""What must be ordered by what hour, of whom, and why; and what cannot be had any more."""

from rich.console import Console

from pantry.reports.cut_offs import by_deadline
from pantry.reports.report import Row
from pantry.reports.ways_words import ways_out
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import Words

ALERTS = {
    "none": "not yet due",
    "open": "order now",
    "last_call": "last call",
    "missed": "too late",
}
"""How near the order-by is, in words."""

_STYLES = {"last_call": "bold", "open": "bold", "missed": "bold"}


def plan(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What cannot be had any more, then the orders by deadline."""
    if not rows:
        terminal.print("Everything is in the house or on its way: nothing is to be ordered.")
        return
    missed(terminal, words, [row for row in rows if row["alert"] == "missed"])
    for order in by_deadline(rows):
        _order(terminal, words, order)


def deadline(words: Words, order: list[Row]) -> str:
    """`Order by Fri 12 Mar 16:50 of Tolsaig Creamery, for Sat 13 Mar 06:45: order now`."""
    first = order[0]
    return (
        f"Order by {words.moment(first['order_by'])} of {first['supplier']}, "
        f"for {words.moment(first['delivery'])}: {ALERTS[first['alert']]}"
    )


def because(words: Words, row: Row) -> str:
    """The services, and `par` or `daily use`, that a row is for."""
    return "; ".join(words.service(reason) for reason in row["because"])


def missed(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What no delivery can make any more, with every way out."""
    if not rows:
        return
    terminal.print(plain("\nCannot be had any more in time: too late", "bold"))
    lines = table("Item", "Short>", "Wanted by|", "Because", "What is left to do")
    for row in rows:
        ways = ways_out(words, row["ways_out"])
        add(
            lines,
            row["item"],
            words.amount(row["net"]),
            words.moment(row["wanted_by"]),
            because(words, row),
            "\n".join(ways) or _nothing_left(row),
        )
    terminal.print(lines)


def _nothing_left(row: Row) -> str:
    """What to do where there is no way out: a menu can give way, par cannot."""
    if any("/" in reason for reason in row["because"]):
        return "nothing: choose another dish"
    return "use less of it, or go to a shop: no supplier brings it in the days ahead"


def _order(terminal: Console, words: Words, order: list[Row]) -> None:
    first = order[0]
    terminal.print(plain(f"\n{deadline(words, order)}", _STYLES.get(first["alert"], "")))
    lines = table("Packs>", "Pack", "Item", "Needed>", "Cost>", "Because")
    for row in order:
        add(
            lines,
            str(row["packs"]),
            row["pack"],
            row["item"] + (" (may not come)" if row["at_risk"] else ""),
            words.amount(row["net"]),
            words.money(row["cost"]),
            because(words, row),
        )
    terminal.print(lines)
