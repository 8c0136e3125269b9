"""Rows of the order desk: orders as they stand, prices of packs, the week's budget."""

from typing import Literal

from pantry.reports.shapes.written import Day, Instant, Money, Number, Quantity, Shape
from pantry.rules.deadlines import Alert
from pantry.rules.supply import HowSent, OrderGiven, Substitution


class OrderedLine(Shape, frozen=True):
    """A line of an order, at the present price; `free_from` are allergens it must be without."""

    item: str
    item_id: str
    pack: str
    pack_id: str
    packs: Number
    quantity: Quantity
    counted: bool
    received: Quantity
    price: Money
    cost: Money
    free_from: list[str]


class FreeLine(Shape, frozen=True):
    """What is ordered that is no item, in words."""

    words: str
    amount: str | None
    asked: str | None


class Sending(Shape, frozen=True):
    """That an order was given to its supplier; `stands` where nobody amended it since."""

    command: str
    how: HowSent
    to_whom: str
    words: str | None
    person: str
    at: Instant
    stands: bool


class AnsweredLine(Shape, frozen=True):
    """What the supplier said of a line; `price` null where it is what it was."""

    item: str
    pack: str
    ordered: Number
    packs: Number
    instead: str | None
    instead_packs: Number | None
    price_before: Money
    price: Money | None
    words: str | None


class SupplierAnswer(Shape, frozen=True):
    """What the supplier said of an order; `moved_from` where it comes at another time."""

    command: str
    said_by: str | None
    words: str | None
    moved_from: Instant | None
    person: str
    at: Instant
    lines: list[AnsweredLine]


class OrderRow(Shape, frozen=True):
    """An order: what is on it, how it was sent, what the supplier said.

    `cutoff` null: it comes at a time at which the supplier's calendar has no delivery. `text` is
    the order as it is sent to the supplier, whose `email` and terms stand beside it.
    """

    order: str
    supplier: str
    supplier_id: str
    version: Number
    state: Literal["open", "received", "cancelled"]
    reason: str | None
    delivery: Instant
    cutoff: Instant | None
    lines: list[OrderedLine]
    free: list[FreeLine]
    goods: Money
    charge: Money
    minimum: Money
    substitution: Substitution | None
    standing: bool
    sent: list[Sending]
    answers: list[SupplierAnswer]
    text: str
    email: str | None
    order_given: OrderGiven | None
    order_words: str | None


class PriceChange(Shape, frozen=True):
    """That a pack cost something else from an instant on."""

    at: Instant
    before: Money
    price: Money


class PriceRow(Shape, frozen=True):
    """What a supplier sells, in what pack, at what price; its changes, the oldest first.

    `dearer_permille`: how much dearer the last change made it, in thousandths; negative: cheaper.
    """

    supplier: str
    supplier_id: str
    item: str
    item_id: str
    pack: str
    pack_id: str
    quantity: Quantity
    counted: bool
    price: Money
    version: Number
    dearer_permille: int | None
    changes: list[PriceChange]


class BudgetRow(Shape, frozen=True):
    """A week from Monday to Sunday, and what the deliveries of it cost, charges included.

    `unpriced` is how many of its lines have no price; `version` is that of the budget.
    """

    week: Day
    orders: Number
    ordered: Money
    unpriced: Number
    budget: Money | None
    version: Number


class ReorderRow(Shape, frozen=True):
    """A line that is to be ordered, on one delivery; where no delivery can make it, null.

    `charge` and `minimum` are those of the delivery; none of them where `order` is placed for it.
    """

    order_by: Instant | None
    alert: Alert
    supplier: str | None
    delivery: Instant | None
    item: str
    packs: Number
    pack: str | None
    net: Quantity
    cost: Money
    because: list[str]
    wanted_by: Instant
    at_risk: bool
    price: Money | None
    order: str | None
    charge: Money
    minimum: Money
