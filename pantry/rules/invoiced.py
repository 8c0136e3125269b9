"""What a supplier bills, what came, and what was agreed: the parts of matching an invoice.

Money is in minor units. Quantities are thousandths of an item's base unit; of what nobody counts,
thousandths of a pack.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

PriceFrom = Literal["confirmed", "ordered", "last_price"]
"""Where an agreed price is from: the supplier's answer, the order, or what it cost last."""

ChargeFor = Literal["delivery", "minimum", "tax", "other"]
"""What a line in words is for; `minimum`: that the order was below the supplier's minimum."""

DifferenceKind = Literal[
    "price",
    "not_received",
    "more_than_received",
    "not_billed",
    "charge",
    "minimum",
    "in_words",
    "credit_left",
    "credit_other",
    "credit_unknown",
]
"""What an invoice differs in from what was ordered, came, and is owed."""

SHORT: frozenset[DifferenceKind] = frozenset({"not_received", "more_than_received"})
"""What is billed and did not come."""


@dataclass(frozen=True, slots=True)
class Came:
    """What came of one line of an order, or without one, as far as nobody has billed it.

    Attributes:
        source: `ORDER|PACK`; of what came in place of another thing, or unordered, its batch.
        order: the order with which it came, if any.
        came: so much was taken in.
        missing: so much of what was ordered was not.
        price: agreed for one pack.
        of_pack: how much one pack is.
        receipts: the commands that received or refused it.
    """

    source: str
    order: str | None
    item: str
    pack: str | None
    came: int
    missing: int
    price: int
    price_from: PriceFrom
    of_pack: int
    receipts: tuple[str, ...] = ()

    def value(self, quantity: int) -> Fraction:
        """What so much of it comes to at the agreed price."""
        return Fraction(quantity * self.price, self.of_pack)


@dataclass(frozen=True, slots=True)
class BilledGoods:
    """A line of an invoice for so many packs of an item; `price` is what a pack cost last."""

    line: int
    item: str
    pack: str
    packs: int
    quantity: int
    amount: int
    price: int
    of_pack: int


@dataclass(frozen=True, slots=True)
class BilledInWords:
    """A line of an invoice for no item: delivery, tax, a charge, something ordered in words."""

    line: int
    charge_for: ChargeFor
    words: str
    amount: int


@dataclass(frozen=True, slots=True)
class TakenOff:
    """What the supplier took off the invoice; `credit` None: nobody knew that it was owed."""

    line: int
    credit: str | None
    amount: int


@dataclass(frozen=True, slots=True)
class Invoice:
    """An invoice as it was printed."""

    goods: tuple[BilledGoods, ...] = ()
    in_words: tuple[BilledInWords, ...] = ()
    taken_off: tuple[TakenOff, ...] = ()

    @property
    def total(self) -> int:
        """What it comes to: its lines less what was taken off."""
        goods = sum(line.amount for line in self.goods)
        others = sum(line.amount for line in self.in_words)
        return goods + others - sum(line.amount for line in self.taken_off)


@dataclass(frozen=True, slots=True)
class Agreed:
    """What was agreed on beside the goods.

    Attributes:
        charge: for the deliveries that are billed here for the first time.
        below_minimum: by how much what was ordered for them is under the supplier's minimum.
        words: what was ordered in words, as `slug` writes it.
    """

    charge: int = 0
    below_minimum: int = 0
    words: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing in which an invoice is not as agreed: what is billed, less what it is held against.

    Attributes:
        key: what it is called on its invoice; the same as long as invoice and orders are.
        line: the line of the invoice, from 0; None: the invoice has none for it.
        quantity: how much did not come, or was not billed.
        price: agreed for one pack, and where that is from.
        source: the line of an order or the batch that it is about, as `Came.source`.
        orders: the orders it was held against.
        receipts: the commands of the back door that say what came.
        credit: the credit that it is about.
    """

    key: str
    kind: DifferenceKind
    billed: int
    held_against: int
    line: int | None = None
    item: str | None = None
    quantity: int | None = None
    price: int | None = None
    price_from: PriceFrom | None = None
    source: str | None = None
    orders: tuple[str, ...] = ()
    receipts: tuple[str, ...] = ()
    credit: str | None = None

    @property
    def amount(self) -> int:
        """How much more is billed than agreed; negative: less."""
        return self.billed - self.held_against


@dataclass(frozen=True, slots=True)
class Taken:
    """What an invoice bills of one source: so much of what came, so much of what did not."""

    came: int = 0
    missing: int = 0


@dataclass(frozen=True, slots=True)
class Matched:
    """What an invoice should come to, and each difference to what it does.

    `should_be` and the amounts of the differences are the total of the invoice, exactly.
    """

    should_be: int
    differences: tuple[Difference, ...]
    taken: Mapping[str, Taken]
