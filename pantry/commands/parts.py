"""The parts that bodies of commands share."""

from typing import Annotated, Literal

from msgspec import Meta, Struct

_MOST = 10**15

Number = Annotated[int, Meta(ge=0, le=100_000)]
"""How many, at a house: nobody or more, and no more than any house ever has."""


Celsius = str | float
"""Degrees Celsius as data or as people write them; `41 F` is read too."""


class Part(Struct, frozen=True, forbid_unknown_fields=True):
    """A part of a body: frozen, and an unknown field in it is a fault."""


class Fact(Part, frozen=True):
    """What physically happened."""


Photo = Annotated[str, Meta(pattern=r"^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$")]
"""The id of one picture, as whoever took it gave it."""

Photos = Annotated[list[Photo], Meta(max_length=6)]
"""The ids of pictures taken with it; they are sent by themselves, and may arrive later."""


class QuantityPart(Part, frozen=True):
    """`{"value": "1.250", "unit": "kg"}`; `pieces` where the item is counted while weighed."""

    value: str
    unit: str
    pieces: str | None = None


Written = QuantityPart | str
"""A quantity as data, or as people write it (`1.25 kg`)."""


class MoneyPart(Part, frozen=True):
    """`{"minor": 450, "currency": "GBP"}`."""

    minor: Annotated[int, Meta(ge=0, le=_MOST)]
    currency: str


class DateMarkPart(Part, frozen=True):
    """The date on a pack; `date` is ISO 8601, a month or year alone where the mark has no day."""

    kind: Literal["use_by", "best_before", "none"]
    date: str | None = None


class BoughtPart(Part, frozen=True):
    """So much of an item bought in a shop; without an area it goes where the item belongs."""

    batch: str
    item: str
    quantity: Written
    area: str | None = None
    date_mark: DateMarkPart | None = None
    lot: str | None = None
    cost: MoneyPart | None = None
    label: str | None = None


class InsteadPart(Part, frozen=True):
    """The item that was ordered, where another came; `replaces` where it is awaited no more."""

    item: str
    pack: str | None = None
    replaces: bool = False


class ServicePart(Part, frozen=True):
    """Which service: one meal on one date for one table."""

    date: str
    meal: str
    table: str
    time: str | None = None
    covers: Number | None = None


Which = ServicePart | str
"""A service as its parts, or as `DATE/MEAL/TABLE`."""


class UsedPart(Part, frozen=True):
    """So much of one batch that went into something made."""

    batch: str
    quantity: Written


class ByProductPart(Part, frozen=True):
    """So much of an item that making something left beside it: bones, whites, peel.

    It came `of` a batch that went in; where nobody says which, of all of them.
    """

    item: str
    quantity: Written
    child: str
    area: str | None = None
    of: str | None = None
    label: str | None = None


class CountedPart(Part, frozen=True):
    """What was counted of a batch, or of an item whatever the batch.

    `taken_out` answers beforehand where what is missing has gone: to the kitchen, or not. `second`
    is false of a first count, which does not decide where it is far off and matters; true of a
    second one. Without it the count decides. `reason` says why it differs.
    """

    quantity: Written
    batch: str | None = None
    item: str | None = None
    taken_out: bool | None = None
    second: bool | None = None
    reason: str | None = None


class ProposedPart(Part, frozen=True):
    """A dish that is proposed, with its variant and portions where they matter."""

    dish: str
    variant: str | None = None
    portions: Number | None = None


class CoursePart(Part, frozen=True):
    """One course with its alternatives."""

    course: str
    dishes: list[ProposedPart | str]


class ChosenPart(Part, frozen=True):
    """A dish that was chosen; `portions` left out means one for each cover."""

    dish: str
    variant: str | None = None
    portions: Number | None = None
    course: str | None = None


class ServedPart(Part, frozen=True):
    """So many portions of a dish that were really served; 0 where it was not served at all."""

    dish: str
    portions: Number
    variant: str | None = None


class OrderLinePart(Part, frozen=True):
    """So many packs of an item."""

    item: str
    pack: str
    packs: Number


class DeliveryRulePart(Part, frozen=True):
    """One delivery of a supplier's week, in local wall time."""

    weekday: str
    time: str
    cutoff_days_before: Number
    cutoff_time: str


class ClosurePart(Part, frozen=True):
    """An exception of a supplier's calendar; through `until`, as out of season."""

    date: str
    what: Literal["no_delivery", "no_orders"]
    instead: str | None = None
    until: str | None = None
    reason: str | None = None


class HolidaysPart(Part, frozen=True):
    """The public holidays a supplier keeps, and what becomes of a delivery on one.

    `country` is ISO 3166-1 (`GB`), `subdivision` ISO 3166-2 without it (`SCT`); no country: the
    supplier keeps none.
    """

    country: str | None = None
    subdivision: str | None = None
    delivery: Literal["falls_away", "day_before", "day_after"] = "falls_away"
    orders_taken: bool = False
