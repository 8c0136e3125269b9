"""Decisions: taken on a version of what stands, and a conflict if that has moved (SY3)."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.alert_decisions import SeeToAlert, SetDigest, SetOwnLetters
from pantry.commands.decision import Decision
from pantry.commands.device_decisions import EnrolDevice, RevokeDevice
from pantry.commands.invoice_decisions import RecordInvoice, SettleInvoice, WithdrawInvoice
from pantry.commands.order_decisions import (
    AmendOrder,
    CancelOrder,
    PlaceOrder,
    RecordConfirmation,
    SendOrder,
    SetBudget,
    SetStandingOrder,
    SetTerms,
)
from pantry.commands.parts import (
    ChosenPart,
    ClosurePart,
    CoursePart,
    DeliveryRulePart,
    HolidaysPart,
    MoneyPart,
    Number,
    ServicePart,
    Which,
    Written,
)
from pantry.commands.presence_decisions import EndStay, SayAway, SayStay, SetRota
from pantry.commands.recipe_decisions import (
    PutAwayRecipe,
    RenameRecipe,
    SetSubstitutes,
    WriteRecipe,
)
from pantry.commands.sheet_decisions import AnswerMenu, SendSheet, SetAnswersFor, WithdrawSheet


class AddGuest(Decision, frozen=True, kw_only=True):
    """Somebody joins a table, with what they cannot eat, beside what is known of them already.

    `instead`: it takes the place of all that is known of them at that table.
    """

    person: str
    table: str
    cannot_eat: list[str]
    first: str | None = None
    last: str | None = None
    instead: bool = False


class ApproveRecipe(Decision, frozen=True, kw_only=True):
    """A recipe may be chosen from now on, or no longer."""

    recipe: str
    approved: bool = True


class CallOffDelivery(Decision, frozen=True, kw_only=True):
    """A supplier does not come on a date: the boat does not sail; or comes on another instead."""

    supplier: str
    date: str
    reason: str
    instead: str | None = None


class ChangeCovers(Decision, frozen=True, kw_only=True):
    """More or fewer people eat."""

    service: Which
    covers: Number


class ChangeProduct(Decision, frozen=True, kw_only=True):
    """A supplier's pack is another product now, with its own allergens."""

    pack: str
    gtin: str | None = None
    contains: list[str] | None = None
    may_contain: list[str] | None = None


class Confirm(Decision, frozen=True, kw_only=True):
    """The household chose; `overrides` names whose constraint is set aside knowingly."""

    service: Which
    dishes: list[ChosenPart]
    covers: Number | None = None
    overrides: tuple[str, ...] = ()


class Correct(Decision, frozen=True, kw_only=True):
    """An earlier fact is taken back by movements that name those they reverse (LG4)."""

    command: str
    reason: str


class Hold(Decision, frozen=True, kw_only=True):
    """What stands of a batch is not to be used until somebody decides."""

    batch: str
    reason: str


class ImportBook(Decision, frozen=True, kw_only=True):
    """A house book's sheets, as rows of text by column."""

    sheets: dict[str, list[dict[str, str]]]


class MoveService(Decision, frozen=True, kw_only=True):
    """A meal is had at another time, on another day or at another table, with the same dishes."""

    service: Which
    to: ServicePart
    overrides: tuple[str, ...] = ()


class Pin(Decision, frozen=True, kw_only=True):
    """The chef says which batch a service gets of its item; `quantity` nothing unpins."""

    service: Which
    batch: str
    quantity: Written


class Propose(Decision, frozen=True, kw_only=True):
    """A service's menu, with alternatives by course."""

    service: ServicePart
    courses: list[CoursePart]


class Recall(Decision, frozen=True, kw_only=True):
    """A lot is recalled: its batches are not to be used, whatever they were promised to."""

    lot: str
    reason: str
    item: str | None = None


class RecordCredit(Decision, frozen=True, kw_only=True):
    """The supplier's credit note has come, or the credit is written off for a reason."""

    credit: str
    amount: MoneyPart | None = None
    note: str | None = None
    reason: str | None = None


class Release(Decision, frozen=True, kw_only=True):
    """What is on hold of a batch may be used after all."""

    batch: str
    reason: str


class ReserveLabels(Decision, frozen=True, kw_only=True):
    """So many numbered labels are to be printed, with numbers that nobody else prints."""

    count: Annotated[int, Meta(ge=1, le=1000)]


class SetAside(Decision, frozen=True, kw_only=True):
    """So much of a batch is the emergency meal, or no longer."""

    batch: str
    quantity: Written
    area: str
    kept: bool = True


class SetCalendar(Decision, frozen=True, kw_only=True):
    """A supplier's deliveries, closures and holidays are these now; what is left out stays.

    `zone` is the IANA name of the zone of its wall times; empty: the house's.
    """

    supplier: str
    deliveries: list[DeliveryRulePart] | None = None
    closures: list[ClosurePart] | None = None
    holidays: HolidaysPart | None = None
    zone: str | None = None


class SetPar(Decision, frozen=True, kw_only=True):
    """An item's floor and the level an order brings it back to."""

    item: str
    floor: Written | None = None
    order_up_to: Written | None = None


class SetPolicy(Decision, frozen=True, kw_only=True):
    """A number of the food-safety policy is set otherwise; looser only with a reason (SL5)."""

    name: str
    value: Annotated[int, Meta(ge=-100_000, le=100_000)]
    reason: str


class Settle(Decision, frozen=True, kw_only=True):
    """A question is answered."""

    question: str
    answer: str


class SwapDish(Decision, frozen=True, kw_only=True):
    """A confirmed dish gives way to another."""

    service: Which
    dish: str
    by: ChosenPart
    overrides: tuple[str, ...] = ()


class TakeOff(Decision, frozen=True, kw_only=True):
    """A service does not take place."""

    service: Which
    reason: str


class TickOff(Decision, frozen=True, kw_only=True):
    """The order desk has seen to what the back door asked for."""

    asked: str


DECISIONS: dict[str, type[Decision]] = {
    "add_guest": AddGuest,
    "amend_order": AmendOrder,
    "answer_menu": AnswerMenu,
    "approve_recipe": ApproveRecipe,
    "call_off_delivery": CallOffDelivery,
    "cancel_order": CancelOrder,
    "change_covers": ChangeCovers,
    "change_product": ChangeProduct,
    "confirm": Confirm,
    "correct": Correct,
    "end_stay": EndStay,
    "enrol_device": EnrolDevice,
    "hold": Hold,
    "import_book": ImportBook,
    "move_service": MoveService,
    "pin": Pin,
    "place_order": PlaceOrder,
    "propose": Propose,
    "put_away_recipe": PutAwayRecipe,
    "recall": Recall,
    "record_confirmation": RecordConfirmation,
    "record_credit": RecordCredit,
    "record_invoice": RecordInvoice,
    "release": Release,
    "rename_recipe": RenameRecipe,
    "reserve_labels": ReserveLabels,
    "revoke_device": RevokeDevice,
    "say_away": SayAway,
    "say_stay": SayStay,
    "see_to_alert": SeeToAlert,
    "send_order": SendOrder,
    "send_sheet": SendSheet,
    "set_answers_for": SetAnswersFor,
    "set_aside": SetAside,
    "set_budget": SetBudget,
    "set_calendar": SetCalendar,
    "set_digest": SetDigest,
    "set_own_letters": SetOwnLetters,
    "set_par": SetPar,
    "set_policy": SetPolicy,
    "set_rota": SetRota,
    "set_standing_order": SetStandingOrder,
    "set_substitutes": SetSubstitutes,
    "set_terms": SetTerms,
    "settle": Settle,
    "settle_invoice": SettleInvoice,
    "swap_dish": SwapDish,
    "take_off": TakeOff,
    "tick_off": TickOff,
    "withdraw_invoice": WithdrawInvoice,
    "withdraw_sheet": WithdrawSheet,
    "write_recipe": WriteRecipe,
}
