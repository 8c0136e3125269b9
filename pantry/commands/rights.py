"""Who may do what and see what: one matrix of roles, as data.

The person who approves menus chooses; who stands at the door receives; what costs or binds the
house is the manager's, what touches safety the chef's. Common practice, no source; a house that
has entered no people yet is run from its own machine with every right.
"""

from pantry.records.books import Books
from pantry.refusals import NotAllowed, declare

PERSON_UNKNOWN = declare("person_unknown", "Nobody of that name works in this house.")
ROLE_LACKING = declare("role_lacking", "The person's role does not include this command.")
REPORT_LACKING = declare("report_lacking", "The person's role does not include this report.")

_ALL = frozenset({"porter", "chef", "manager"})
_KITCHEN = frozenset({"chef", "manager"})
_MENU = frozenset({"chef", "manager", "approver"})
_CHEF = frozenset({"chef"})
_MANAGER = frozenset({"manager"})
_EVERYBODY = frozenset({"porter", "chef", "manager", "approver"})

RIGHTS: dict[str, frozenset[str]] = {
    "add_guest": _MENU,
    "amend_order": _KITCHEN,
    "answer_menu": _MENU,
    "approve_recipe": _MENU,
    "ask_for": _ALL,
    "bind_label": _ALL,
    "call_off_delivery": _KITCHEN,
    "cancel_order": _KITCHEN,
    "change_covers": _MENU,
    "change_product": _KITCHEN,
    "check_probe": _ALL,
    "clean": _ALL,
    "close_delivery": _ALL,
    "confirm": _MENU,
    "cool": _ALL,
    "correct": _EVERYBODY,
    "count": _ALL,
    "decant": _ALL,
    "end_stay": _MENU,
    "enrol_device": _MANAGER,
    "freeze": _ALL,
    "harvest": _ALL,
    "hold": _ALL,
    "import_book": _MANAGER,
    "left_over": _KITCHEN,
    "make": _KITCHEN | {"porter"},
    "move": _ALL,
    "move_service": _MENU,
    "open": _ALL,
    "pin": _CHEF,
    "place_order": _KITCHEN,
    "print_labels": _ALL,
    "propose": _KITCHEN,
    "put_away_recipe": _KITCHEN,
    "recall": _KITCHEN,
    "receive": _ALL,
    "record_confirmation": _KITCHEN,
    "record_credit": _MANAGER,
    "record_invoice": _KITCHEN,
    "release": _CHEF,
    "rename_recipe": _KITCHEN,
    "reserve_labels": _ALL,
    "revoke_device": _MANAGER,
    "run_out": _ALL,
    "say_away": _MENU,
    "say_stay": _MENU,
    "see_to_alert": _KITCHEN,
    "send_order": _KITCHEN,
    "send_out": _ALL,
    "send_sheet": _KITCHEN,
    "serve": _KITCHEN,
    "set_answers_for": _MANAGER,
    "set_aside": _KITCHEN,
    "set_budget": _MANAGER,
    "set_calendar": _MANAGER,
    "set_digest": _MANAGER,
    "set_level": _ALL,
    "set_own_letters": _KITCHEN,
    "set_par": _KITCHEN,
    "set_policy": _KITCHEN,
    "set_rota": _MENU,
    "set_standing_order": _KITCHEN,
    "set_substitutes": _KITCHEN,
    "set_terms": _MANAGER,
    "settle": _ALL,
    "settle_invoice": _KITCHEN,
    "shop_run": _ALL,
    "swap_dish": _MENU,
    "take_off": _MENU,
    "take_out": _ALL,
    "take_temperature": _ALL,
    "thaw": _ALL,
    "tick_off": _KITCHEN,
    "use": _ALL,
    "vacuum_pack": _ALL,
    "waste": _ALL,
    "waste_without_batch": _ALL,
    "withdraw_invoice": _KITCHEN,
    "withdraw_sheet": _KITCHEN,
    "write_recipe": _KITCHEN,
}

READS: dict[str, frozenset[str]] = {
    "alerts": _KITCHEN,
    "asked-for": _ALL,
    "awaited": _ALL,
    "budget": _KITCHEN,
    "changes": _EVERYBODY,
    "checks": _ALL,
    "code": _ALL,
    "count-differences": _ALL,
    "counts": _ALL,
    "cooling": _ALL,
    "coverage": _KITCHEN,
    "credits": _MANAGER,
    "days": _ALL,
    "devices": _MANAGER,
    "dishes": _MENU,
    "dishes-for": _KITCHEN,
    "expected": _ALL,
    "failed-places": _ALL,
    "house": _EVERYBODY,
    "instead": _MENU,
    "invoices": _KITCHEN,
    "items": _ALL,
    "labels": _ALL,
    "late-change": _KITCHEN,
    "longer-notice": _KITCHEN,
    "menus": _MENU,
    "morning": _ALL,
    "notice": _KITCHEN,
    "orders": _KITCHEN,
    "people": _MANAGER,
    "pick": _ALL,
    "plan": _KITCHEN,
    "preparations": _ALL,
    "presence": _MENU,
    "prices": _KITCHEN,
    "pull": _ALL,
    "questions": _ALL,
    "recipes": _MENU,
    "reorder": _KITCHEN,
    "served": _MENU,
    "serving": _KITCHEN,
    "sheets": _MENU,
    "shop-runs": _KITCHEN,
    "standing-orders": _KITCHEN,
    "stay-change": _MENU,
    "stock": _ALL,
    "supplier-record": _KITCHEN,
    "suppliers": _KITCHEN,
    "temperatures": _ALL,
    "trace": _ALL,
    "use-first": _ALL,
    "waste": _KITCHEN,
    "waste-without-batch": _KITCHEN,
    "wrong-places": _ALL,
}
"""Which report is told to which roles."""


def check(books: Books, kind: str, name: str) -> str:
    """The role in which a person gives a command.

    Raises:
        NotAllowed: `person_unknown`, `role_lacking`.
    """
    if not books.people:
        return "manager"
    role = next((row.role for row in books.people if name in (row.id, row.name)), None)
    if role is None:
        names = ", ".join(row.name for row in books.people)
        raise NotAllowed(
            PERSON_UNKNOWN,
            f"Nobody called {name!r} works in this house.",
            f"Name one of the people of the house: {names}.",
            value=name,
            field="person",
        )
    if role not in RIGHTS[kind]:
        raise NotAllowed(
            ROLE_LACKING,
            f"A {role} does not give the command {kind}.",
            "Ask a " + " or a ".join(sorted(RIGHTS[kind])) + ".",
            value=role,
            field="person",
        )
    return role


def check_reads(role: str, report: str) -> None:
    """See to it that a role is told a report.

    Raises:
        NotAllowed: `report_lacking`.
    """
    may = READS.get(report, _MANAGER)
    if role not in may:
        raise NotAllowed(
            REPORT_LACKING,
            f"A {role} is not told the report {report}.",
            "Ask a " + " or a ".join(sorted(may)) + ".",
            value=report,
        )


def commands_of(role: str) -> list[str]:
    """The kinds of commands that a role may give."""
    return sorted(kind for kind, roles in RIGHTS.items() if role in roles)
