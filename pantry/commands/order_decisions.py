"""The decisions of the order desk: placing, amending, sending, and what the supplier answered."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.decision import Decision
from pantry.commands.parts import MoneyPart, Number, OrderLinePart, Part
from pantry.rules.supply import HowSent, OrderGiven, Substitution

Words = Annotated[str, Meta(min_length=1, max_length=200)]
"""Something said in words."""


class FreeLinePart(Part, frozen=True):
    """Something ordered that is no item, in words; `asked` is what the back door asked for."""

    words: Words
    amount: Annotated[str, Meta(max_length=60)] | None = None
    asked: str | None = None


FreeLines = Annotated[list[FreeLinePart], Meta(max_length=60)]
"""What is ordered beside the items of the house."""


class AmendOrder(Decision, frozen=True, kw_only=True):
    """An open order's lines are these now; `agreed` where the supplier takes it after the cut-off.

    `free` left out: its free lines stay as they are.
    """

    order: str
    lines: list[OrderLinePart]
    free: FreeLines | None = None
    agreed: bool = False


class CancelOrder(Decision, frozen=True, kw_only=True):
    """An open order is not to come."""

    order: str
    reason: str


class PlaceOrder(Decision, frozen=True, kw_only=True):
    """An order for one delivery; `agreed` where the supplier takes it after the cut-off."""

    supplier: str
    delivery: str
    lines: list[OrderLinePart]
    free: FreeLines | None = None
    agreed: bool = False


class InsteadPackPart(Part, frozen=True):
    """What a supplier sends in place of what it has not."""

    item: str
    pack: str
    packs: Annotated[int, Meta(ge=1, le=100_000)]


class AnsweredLinePart(Part, frozen=True):
    """What a supplier said of one line of an order.

    `packs` left out: all of them come; `price` is that of one pack from now on.
    """

    item: str
    pack: str
    packs: Number | None = None
    price: MoneyPart | None = None
    instead: InsteadPackPart | None = None
    words: Words | None = None


class RecordConfirmation(Decision, frozen=True, kw_only=True):
    """What a supplier said of an order; a line that is not named is not answered yet.

    `delivery` is the day or the instant at which it comes, where that is another.
    """

    order: str
    lines: Annotated[list[AnsweredLinePart], Meta(max_length=200)]
    delivery: str | None = None
    said_by: Words | None = None
    words: Words | None = None


class SendOrder(Decision, frozen=True, kw_only=True):
    """An order as it stands was given to its supplier."""

    order: str
    how: HowSent
    to_whom: Words
    words: Words | None = None


class SetBudget(Decision, frozen=True, kw_only=True):
    """What the house means to spend on deliveries in a week; left out: it has no budget."""

    amount: MoneyPart | None = None


class StandingLinePart(OrderLinePart, frozen=True):
    """So many packs that come on a weekday, by its English name."""

    weekday: str


class StandingFreePart(Part, frozen=True):
    """Something that is no item and comes on a weekday, in words."""

    weekday: str
    words: Words
    amount: Annotated[str, Meta(max_length=60)] | None = None


class SetStandingOrder(Decision, frozen=True, kw_only=True):
    """What a supplier brings of itself is all this now; nothing at all: it ends.

    `when_empty`: it comes for an empty house, too.
    """

    supplier: str
    lines: Annotated[list[StandingLinePart], Meta(max_length=200)]
    free: Annotated[list[StandingFreePart], Meta(max_length=60)] | None = None
    when_empty: bool = False


class SetTerms(Decision, frozen=True, kw_only=True):
    """A supplier's terms are all these now; what is left out it has not.

    `may_fail`: one delivery earlier is planned for; of a hundred deliveries `fails_percent` do not
    come. `send_minutes`: so long before the cut-off an order is given at the latest.
    """

    supplier: str
    email: Annotated[str, Meta(max_length=254)] | None = None
    minimum: MoneyPart | None = None
    charge: MoneyPart | None = None
    may_fail: bool = False
    fails_percent: Annotated[int, Meta(ge=0, le=100)] | None = None
    send_minutes: Annotated[int, Meta(ge=0, le=10_080)] = 0
    order_given: OrderGiven | None = None
    order_words: Words | None = None
    substitution: Substitution | None = None
    fallback_shop: Words | None = None
