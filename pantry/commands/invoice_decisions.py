"""The decisions on suppliers' invoices: recording, settling what differs, withdrawing."""

from typing import Annotated, Literal

from msgspec import Meta

from pantry.commands.decision import Decision
from pantry.commands.order_decisions import Words
from pantry.commands.parts import MoneyPart, Number, Part
from pantry.rules.invoiced import ChargeFor


class InvoiceLinePart(Part, frozen=True):
    """A line of an invoice: packs of an item, or something else in words; `amount` is the line's.

    `charge_for` says what a line in words is for.
    """

    amount: MoneyPart
    item: str | None = None
    pack: str | None = None
    packs: Number | None = None
    text: Words | None = None
    charge_for: ChargeFor = "other"


class TakenOffPart(Part, frozen=True):
    """What the supplier took off; `credit` where one was expected, `note` as it is printed."""

    amount: MoneyPart
    credit: str | None = None
    note: Words | None = None


class RecordInvoice(Decision, frozen=True, kw_only=True):
    """A supplier's invoice as it is printed; its lines less `credits` are its `total`.

    `orders`: those it is for; left out: all of that supplier's that came by its date and that no
    invoice is for yet.
    """

    supplier: str
    number: Words
    date: str
    lines: Annotated[list[InvoiceLinePart], Meta(min_length=1, max_length=200)]
    total: MoneyPart
    credits: Annotated[tuple[TakenOffPart, ...], Meta(max_length=60)] = ()
    orders: Annotated[list[str], Meta(max_length=60)] | None = None


class AgreedPart(Part, frozen=True):
    """What is agreed of one difference: it is paid as it is, or a credit is asked for."""

    difference: str
    agreed: Literal["paid", "credit"]
    words: Words | None = None


class SettleInvoice(Decision, frozen=True, kw_only=True):
    """What is agreed of differences of an invoice."""

    invoice: str
    differences: Annotated[list[AgreedPart], Meta(min_length=1, max_length=200)]


class WithdrawInvoice(Decision, frozen=True, kw_only=True):
    """An invoice does not count: it was recorded wrong, or the supplier took it back."""

    invoice: str
    reason: str
