"""The GS1 Application Identifiers: what each says, the shape of its data, what it travels with.

The table beside this module carries its source and licence: the GS1 Barcode Syntax Dictionary,
GS1 AISBL, Apache License 2.0. Its notation for the data is kept, because it is exact:
`N6,yymmd0` six digits that are a date, `X..20` one to twenty characters, `[N6]` six digits or none.
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import NotRequired, TypedDict

PART = re.compile(r"(\[?)([NXYZ])(\.\.)?([0-9]+)\]?((?:,[a-z0-9]+)*)")


@dataclass(frozen=True, slots=True)
class Part:
    """One component of the data of an identifier.

    Attributes:
        characters: N digits, X the GS1 set of 82, Y the set of 39, Z base64url.
        shortest: characters at the least, where the part is there at all.
        longest: characters at the most.
        optional: whether it may be missing, with everything after it.
        checks: names of what else must hold, as the dictionary names them (`csum`, `yymmd0`).
    """

    characters: str
    shortest: int
    longest: int
    optional: bool
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ApplicationIdentifier:
    """What a scan may carry under one number.

    Attributes:
        ai: two to four digits.
        title: the dictionary's short title.
        parts: the components of the data, in order.
        fixed_length: characters of the data where its end needs no separator; None elsewhere.
        attribute: whether it may stand in the query of a GS1 Digital Link.
        needs: alternatives, each a group of identifiers or beginnings of them (`31`) that must all
            be on the pack; empty where it needs none.
        never: identifiers or beginnings of them that contradict it.
        qualifiers: for a key of a GS1 Digital Link, the sequences that may follow it; None for what
            is no key.
    """

    ai: str
    title: str
    parts: tuple[Part, ...]
    fixed_length: int | None
    attribute: bool
    needs: tuple[tuple[str, ...], ...]
    never: tuple[str, ...]
    qualifiers: tuple[tuple[str, ...], ...] | None


class _Row(TypedDict):
    ai: str
    title: str
    data: str
    fixed: bool
    attribute: bool
    needs: NotRequired[str]
    never: NotRequired[str]
    qualifiers: NotRequired[str]


@cache
def application_identifiers() -> Mapping[str, ApplicationIdentifier]:
    """Every identifier by its number; none is the beginning of another."""
    file = resources.files("pantry.handbook") / "application_identifiers.json"
    rows: list[_Row] = json.loads(file.read_text(encoding="utf-8"))["identifiers"]
    return MappingProxyType({ai: _identifier(ai, row) for row in rows for ai in _numbers(row)})


def _numbers(row: _Row) -> Iterator[str]:
    first, _, last = row["ai"].partition("-")
    for number in range(int(first), int(last or first) + 1):
        yield str(number).zfill(len(first))


def _identifier(ai: str, row: _Row) -> ApplicationIdentifier:
    parts = tuple(_part(text) for text in row["data"].split())
    return ApplicationIdentifier(
        ai=ai,
        title=row["title"],
        parts=parts,
        fixed_length=sum(part.longest for part in parts) if row["fixed"] else None,
        attribute=row["attribute"],
        needs=_groups(row.get("needs", ""), ",", "+"),
        never=tuple(_beginning(text) for text in row.get("never", "").split(",") if text),
        qualifiers=_groups(row["qualifiers"], "|", ",") if "qualifiers" in row else None,
    )


def _part(text: str) -> Part:
    found = PART.fullmatch(text)
    if found is None:
        raise ValueError(f"The table of Application Identifiers has a part nobody knows: {text}")
    bracket, characters, upto, length, checks = found.groups()
    shortest = 1 if upto else int(length)
    return Part(characters, shortest, int(length), bool(bracket), tuple(checks.split(",")[1:]))


def _groups(text: str, between: str, within: str) -> tuple[tuple[str, ...], ...]:
    groups = (group.split(within) for group in text.split(between) if group)
    return tuple(tuple(_beginning(one) for one in group) for group in groups)


def _beginning(pattern: str) -> str:
    """`31nn` stands for every identifier that begins with 31."""
    return pattern.rstrip("n")
