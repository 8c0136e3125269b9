"""Rows of what has to be done about the plan's deadlines, by when."""

from typing import Literal

from pantry.reports.shapes.envelope import Report
from pantry.reports.shapes.standing_orders import NobodyThere
from pantry.reports.shapes.ways_out import WayOut
from pantry.reports.shapes.written import Instant, Number, Quantity, Shape
from pantry.rules.supply import OrderGiven

Stage = Literal["open", "last_call", "missed"]
"""How far an alert has risen."""


class AlertLine(Shape, frozen=True):
    """An item that is to be ordered, or was missed; `packs` is 0 then."""

    item: str
    lacking: Quantity
    pack: str | None
    packs: Number
    wanted_by: Instant
    because: list[str]
    at_risk: bool


class SeesTo(Shape, frozen=True):
    """Who sees to it, since when, and by which command that was said."""

    command: str
    person: str
    at: Instant


class HowToOrder(Shape, frozen=True):
    """How a supplier takes orders: the way, in whose words, and the address for letters."""

    way: OrderGiven | None
    words: str | None
    email: str | None


class AlertRow(Shape, frozen=True):
    """One supplier's delivery, or an item that nobody brings: supplier and instants are null.

    `nobody`: it is a standing order that would come to an empty house, to be stopped by then.
    """

    alert: str
    stage: Stage
    supplier: str | None
    delivery: Instant | None
    order_by: Instant | None
    last_call: Instant | None
    raised_at: Instant | None
    seen_to: SeesTo | None
    order_given: HowToOrder | None
    lines: list[AlertLine]
    nobody: NobodyThere | None
    ways_out: list[WayOut]


class AlertsReport(Report[AlertRow], frozen=True):
    """The alerts, and at what hour of the house the day's letter goes out; empty: none does.

    `letters_to` names who is told by letter where the house has a mail server, `no_letters_to` who
    has declined.
    """

    digest_at: str
    letters_to: list[str]
    no_letters_to: list[str]
