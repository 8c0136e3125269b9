"""How single things are written wherever they stand in a row."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

from pantry.rules.stock import BaseUnit, DateKind

_INSTANT = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z$"
_DAY = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"

Instant = Annotated[str, Meta(pattern=_INSTANT, extra_json_schema={"format": "date-time"})]
"""RFC 3339 in UTC, whole seconds."""

Day = Annotated[str, Meta(pattern=_DAY, extra_json_schema={"format": "date"})]
"""A civil date, ISO 8601."""

Duration = Annotated[str, Meta(pattern=r"^-?P", extra_json_schema={"format": "duration"})]
"""ISO 8601: `P3D` nominal days, `PT72H` exact time."""

Exact = Annotated[str, Meta(pattern=r"^[0-9]+(/[1-9][0-9]*)?$")]
"""An exact number: whole, or a fraction such as `103/100`."""

Number = Annotated[int, Meta(ge=0)]
"""How many."""

Role = Literal["porter", "chef", "manager", "approver"]
"""What somebody is in the house."""

Owner = Literal["porter", "chef", "manager"]
"""The role that settles a question."""

Link = Literal["scanned", "assumed"]
"""Whether a batch was scanned or assumed by first expired, first out."""


class Shape(Struct, frozen=True, forbid_unknown_fields=True):
    """Something with exactly these keys."""


class Quantity(Shape, frozen=True):
    """A quantity of an item in its base unit: decimal text, no exponent, no superfluous zeros."""

    value: Annotated[str, Meta(pattern=r"^-?[0-9]+(\.[0-9]{1,3})?$")]
    unit: BaseUnit


class Money(Shape, frozen=True):
    """Whole minor units of a currency (ISO 4217)."""

    minor: int
    currency: str


class DateMark(Shape, frozen=True):
    """The date on a pack; null where the mark has none."""

    kind: DateKind
    date: Day | None
