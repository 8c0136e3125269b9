"""What is left to do where no delivery can make it any more, each in one sentence."""

from collections.abc import Mapping, Sequence
from typing import Protocol

from pantry.reports.report import Row

_DISHES = 3


class Says(Protocol):
    """Who says amounts and moments, on a terminal or in a letter."""

    def amount(self, quantity: Mapping[str, str] | None) -> str:
        """`1.25 kg`."""

    def moment(self, instant: str | None) -> str:
        """`Fri 12 Mar 22:00`."""


def ways_out(words: Says, ways: Sequence[Row]) -> list[str]:
    """A sentence for each way out; other dishes of the same course share one for each dish."""
    said = [_way(words, way) for way in ways if way["kind"] != "another_dish"]
    others: dict[str, list[str]] = {}
    for way in ways:
        if way["kind"] == "another_dish":
            others.setdefault(way["dish"], []).append(way["instead"])
    for dish, names in others.items():
        more = len(names) - _DISHES
        some = [*names[:_DISHES], *([f"{more} other dishes"] if more > 0 else [])]
        said.append(f"{_either(some)} in place of {dish}")
    return said


def _either(names: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    *first, last = names
    return f"{', '.join(first)} or {last}" if first else last


def _way(words: Says, way: Row) -> str:
    """One way out."""
    match way["kind"]:
        case "another_supplier":
            return _buy(words, way["buy"])
        case "substitute":
            when = f" ({way['when']})" if way["when"] else ""
            more = f"; {_buy(words, way['buy'])}" if way["buy"] else ""
            return f"{words.amount(way['quantity'])} {way['item']} in its place{when}{more}"
        case "variant":
            more = "".join(f"; {_buy(words, each)}" for each in way["buy"])
            return f"{way['dish']} {way['variant']}{more}"
        case "fewer_portions":
            return f"{way['portions']} portions of {way['dish']}"
        case _:
            agreed = f": {_either(way['shops'])}" if way["shops"] else ""
            what = f"{words.amount(way['quantity'])} {way['item']}"
            return f"somebody goes to the shop for {what}{agreed}"


def _buy(words: Says, buy: Row) -> str:
    risk = ", which may not come" if buy["at_risk"] else ""
    return (
        f"{buy['packs']} x {buy['pack']} {buy['item']} of {buy['supplier']} "
        f"by {words.moment(buy['order_by'])}{risk}"
    )
