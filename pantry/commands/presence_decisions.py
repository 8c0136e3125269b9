"""What is decided of who is in the house: stays, who eats elsewhere, rotas."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.decision import Decision
from pantry.commands.parts import Part

Heads = Annotated[int, Meta(ge=1, le=1_000)]
Who = Annotated[str, Meta(min_length=1, max_length=120)]
SaidBy = Annotated[str, Meta(max_length=80)]


class SayStay(Decision, frozen=True, kw_only=True):
    """Somebody comes to stay and eats at a table; said again under the same id, it is changed.

    `first_at` and `last_at` are the first and the last meal, or wall times such as 16:30; left out,
    whole days. `last` left out: until somebody says. `by` is who said it.
    """

    stay: Who
    who: Who
    table: str
    first: str
    heads: Heads = 1
    first_at: str | None = None
    last: str | None = None
    last_at: str | None = None
    by: SaidBy = ""


class EndStay(Decision, frozen=True, kw_only=True):
    """Whoever stays leaves on another day; without a day they do not come at all."""

    stay: Who
    last: str | None = None
    last_at: str | None = None
    by: SaidBy = ""


class SayAway(Decision, frozen=True, kw_only=True):
    """Somebody of a table eats elsewhere, at one meal or at all; `heads` 0: they eat here."""

    away: Who
    who: Who
    table: str
    first: str
    last: str | None = None
    meal: str | None = None
    heads: Annotated[int, Meta(ge=0, le=1_000)] = 1
    by: SaidBy = ""


class RotaPart(Part, frozen=True):
    """How many eat on a weekday, or as an exception on a date; `meal` left out: at every meal."""

    heads: Annotated[int, Meta(ge=0, le=1_000)]
    weekday: str | None = None
    date: str | None = None
    meal: str | None = None


class SetRota(Decision, frozen=True, kw_only=True):
    """How many of a table eat when, from now on; what no line names is as usual."""

    table: str
    lines: Annotated[list[RotaPart], Meta(max_length=400)]
    by: SaidBy = ""
