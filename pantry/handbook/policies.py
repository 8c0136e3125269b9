"""The house's food-safety policies: lives, limits and times, each with its source (SL5).

A policy is data (`policies_uk.toml`, `policies_us.toml`). What is the same in all stands by itself:
how long frozen food keeps its quality in `policies_frozen.toml`, how probes and cold places are
checked in `policies_checks.toml`, how close a count is held in `policies_counting.toml`. Its
numbers have dotted keys, such as `receiving.poultry.accept`, `cooling.cooked.stage_1.within` or
`thawed.any`.

Temperatures are whole tenths of a degree Celsius, as thermometers show them: read exactly from
either scale and rounded half-even once, so that 70 °F on a label and 70 °F in the Food Code agree.
"""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from pantry.refusals import NotThere, declare

POLICY_UNKNOWN = declare("policy_unknown", "No food-safety policy has this name.")
POLICY_NUMBER_UNKNOWN = declare(
    "policy_number_unknown", "The food-safety policy has no number for this."
)

CAUTION = (
    "These limits are guidance. Local codes, the maker's label and licensed practice come first: "
    "when in doubt, ask them, and throw the food away."
)
"""What screens and reports show wherever a limit or a life is shown (SL5)."""

POLICIES = ("uk", "us")
"""The names of the policies that come with the program."""

_DAYS_IN_A_MONTH = 30


class Unit(StrEnum):
    """What a number of a policy counts."""

    TEMPERATURE = "temperature"
    DAYS = "days"
    HOURS = "hours"
    MINUTES = "minutes"
    GRAMS = "grams"
    PERCENT = "percent"


class Known(StrEnum):
    """How a number is known: read, remembered, practice without a source, or set by the house."""

    SEEN = "seen"
    MEMORY = "memory"
    COMMON_PRACTICE = "common_practice"
    HOUSE = "house"


class Stricter(StrEnum):
    """Which way is safer."""

    LOWER = "lower"
    HIGHER = "higher"
    NEITHER = "neither"


@dataclass(frozen=True, slots=True)
class Number:
    """One number of a policy.

    Attributes:
        amount: tenths of a degree Celsius, or whole days, hours, minutes, grams or percent.
        written: as its source writes it (`41 °F`, `6 months`).
        source: the source's name and the place in it.
    """

    amount: int
    unit: Unit
    written: str
    source: str
    edition: str
    known: Known
    stricter: Stricter = Stricter.LOWER

    @property
    def days(self) -> int | None:
        """The calendar days of a life counted in days; None: it counts something else."""
        return self.amount if self.unit is Unit.DAYS else None

    @property
    def hours(self) -> int | None:
        """The hours of a life counted in hours; None: it counts something else."""
        return self.amount if self.unit is Unit.HOURS else None


@dataclass(frozen=True, slots=True)
class Policy:
    """A named set of numbers.

    Attributes:
        title: what it follows, for people.
        thawing_counts: whether the time food takes to thaw counts against its life.
        numbers: every number by its dotted key.
    """

    name: str
    title: str
    thawing_counts: bool
    numbers: Mapping[str, Number]

    def number(self, key: str) -> Number:
        """The number of this key.

        Raises:
            NotThere: `policy_number_unknown`, with the keys beside it.
        """
        found = self.numbers.get(key)
        if found is None:
            raise self._no_number(key)
        return found

    def life(self, treatment: str, food: str) -> Number:
        """How long a food lives once `opened`, `prepared`, `thawed`, `vacuum` packed or `frozen`.

        A food without its own number has that of `any` food, where the policy knows one; the
        freezer knows none.

        Raises:
            NotThere: `policy_number_unknown`, with the foods that have a number.
        """
        found = self.numbers.get(f"{treatment}.{food}", self.numbers.get(f"{treatment}.any"))
        if found is None:
            raise self._no_number(f"{treatment}.{food}")
        return found

    def names(self, section: str) -> tuple[str, ...]:
        """What stands directly under a section: its foods, kinds or stages, in the file's order."""
        start = f"{section}."
        keys = (key for key in self.numbers if key.startswith(start))
        return tuple(dict.fromkeys(key.removeprefix(start).split(".")[0] for key in keys))

    def _no_number(self, key: str) -> NotThere:
        section = key.rpartition(".")[0]
        while section and not self.names(section):
            section = section.rpartition(".")[0]
        known = self.names(section) or tuple(dict.fromkeys(k.split(".")[0] for k in self.numbers))
        return NotThere(
            POLICY_NUMBER_UNKNOWN,
            f"The policy {self.name!r} has no number for {key!r}.",
            f"Choose one of: {', '.join(known)}.",
            value=key,
        )


@lru_cache(maxsize=16)
def policy(name: str) -> Policy:
    """The policy of this name (`uk`, `us`; also `England`, `FDA`, whatever the case and spacing).

    Raises:
        NotThere: `policy_unknown`, with the names.
    """
    asked = "".join(letter for letter in name.casefold() if letter.isalnum())
    for each in POLICIES:
        data = _read(f"policies_{each}.toml")
        if asked in {"".join(c for c in word if c.isalnum()) for word in (each, *data["also"])}:
            return _policy_of(data)
    raise NotThere(
        POLICY_UNKNOWN,
        f"There is no food-safety policy called {name!r}.",
        f"Choose one of: {', '.join(POLICIES)}.",
        value=name,
    )


def tenths(degrees: Fraction, *, fahrenheit: bool = False) -> int:
    """Degrees as whole tenths of a degree Celsius, rounded half-even (MS1)."""
    celsius = (degrees - 32) * Fraction(5, 9) if fahrenheit else degrees
    return round(celsius * 10)


def _policy_of(data: Mapping[str, Any]) -> Policy:
    numbers = dict(_numbers(data, data["sources"]))
    for file in ("policies_frozen.toml", "policies_checks.toml", "policies_counting.toml"):
        joining = _read(file)
        numbers.update(_numbers(joining, joining["sources"]))
    return Policy(data["name"], data["title"], data["thawing_counts"], MappingProxyType(numbers))


def _numbers(
    table: Mapping[str, Any], sources: Mapping[str, Any], above: str = ""
) -> Iterator[tuple[str, Number]]:
    """Every number in a table and the tables under it, with its dotted key."""
    for key, entry in table.items():
        if not isinstance(entry, Mapping) or (not above and key == "sources"):
            continue
        if "value" in entry:
            yield above + key, _number_of(entry, sources[entry["source"]])
        else:
            yield from _numbers(entry, sources, f"{above}{key}.")


def _number_of(entry: Mapping[str, Any], source: Mapping[str, str]) -> Number:
    amount, unit, written = _counted(entry["value"], entry["unit"])
    return Number(
        amount,
        unit,
        written,
        f"{source['name']}, {entry['section']}",
        source["edition"],
        Known(entry["known"]),
        Stricter(entry.get("stricter", Stricter.LOWER)),
    )


def _counted(value: int, unit: str) -> tuple[int, Unit, str]:
    """What the file writes, in the unit that is computed with and as people read it."""
    if unit in ("C", "F"):
        amount = tenths(Fraction(value), fahrenheit=unit == "F")
        return amount, Unit.TEMPERATURE, f"{value} °{unit}".replace("-", "−")
    written = f"{value} {unit}" if value != 1 else f"1 {unit.removesuffix('s')}"
    if unit == "months":
        return value * _DAYS_IN_A_MONTH, Unit.DAYS, written
    return value, Unit(unit), written


@lru_cache(maxsize=8)
def _read(file: str) -> dict[str, Any]:
    return tomllib.loads(files(__package__).joinpath(file).read_text("utf-8"))
