"""What a row of the plan follows from: whole thousandths of base units, minor units (PL7)."""

from pantry.reports.shapes.written import Day, Duration, Instant, Number, Shape

Given = tuple[str, Number]
"""A source or a need by its id, and thousandths."""


class DerivedNeed(Shape, frozen=True):
    """What one dish of one service wants of one item."""

    id: str
    service: str
    dish: str
    item: str
    quantity: Number
    wanted_by: Instant
    until: Instant
    rank: int
    via: str
    last_order_by: Instant | None


class DerivedLine(Shape, frozen=True):
    """What one need has to do with a row."""

    need: DerivedNeed
    given: list[Given]
    lacking: Number
    covered: Number
    counts: bool


class DerivedPack(Shape, frozen=True):
    """The pack that is bought."""

    id: str
    supplier: str
    item: str
    name: str
    quantity: Number
    sealed_quantity: Number
    price: Number
    life_on_arrival_days: Number | None
    gtin: str | None


class DerivedDelivery(Shape, frozen=True):
    """The delivery that brings it."""

    id: str
    supplier: str
    at: Instant
    cutoff: Instant
    order_by: Instant


class DerivedOffer(Shape, frozen=True):
    """The pack on the delivery."""

    pack: DerivedPack
    delivery: DerivedDelivery
    usable_until: Instant | None
    at_risk: bool


class DerivedLot(Shape, frozen=True):
    """So many packs on one delivery."""

    offer: DerivedOffer
    packs: Number


class DerivedReckoned(Shape, frozen=True):
    """What par's levels follow from: those set, and how many are there on each day it lasts for."""

    usual: Number
    at_one_table: Number
    floor: Number
    order_up_to: Number | None
    days: list[tuple[Day, Number]]


class DerivedPar(Shape, frozen=True):
    """What par wants; `lot` is null where no delivery can be ordered.

    `reckoned`: null where the levels are those that are set.
    """

    lot: DerivedLot | None
    at: Instant
    floor: Number
    order_up_to: Number | None
    free: list[Given]
    over: Number
    lowest: int
    quantity: Number
    reckoned: DerivedReckoned | None


class Derivation(Shape, frozen=True):
    """The inputs of one row of the plan; what of a delivery is null where there is none."""

    rules: list[str]
    lines: list[DerivedLine]
    par: DerivedPar | None
    daily: list[Given]
    used_up: Number
    menu_packs: Number
    par_packs: Number
    daily_packs: Number
    pack_quantity: Number
    price: Number
    at: Instant | None
    cutoff: Instant | None
    send: Duration
    margin: Duration
    usable_until: Instant | None
    opened: bool
