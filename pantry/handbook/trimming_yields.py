"""What is left of a food once it is trimmed, as a handbook has it; a house's own comes first."""

import re
import tomllib
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class TrimmingYield:
    """One food of the handbook.

    Attributes:
        kept: edible part / as-bought quantity.
        lost: what is taken off.
        source: the handbook, with its number of the food.
    """

    kept: Fraction
    lost: str
    source: str


def trimming_yield(name: str) -> TrimmingYield | None:
    """The handbook's yield of a food of exactly this name; None: it has none, and none is guessed.

    A part of a name would find the wrong food: spring onions are no onions.
    """
    return _by_name().get(_plain(name))


@cache
def _by_name() -> dict[str, TrimmingYield]:
    text = files("pantry.handbook").joinpath("trimming_yields.toml").read_text(encoding="utf-8")
    book = tomllib.loads(text)
    return {
        name: TrimmingYield(
            Fraction(food["kept"], 100), food["lost"], f"{book['source']}, {food['ndb']}"
        )
        for food in book["food"]
        for name in food["names"]
    }


def _plain(name: str) -> str:
    return " ".join(re.findall(r"[a-z]+", name.casefold()))
