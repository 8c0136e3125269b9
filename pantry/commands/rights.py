"""Who may do what and see what: one matrix of roles, as data.

The person who approves menus chooses; who stands at the door receives; what costs or binds the
house is the manager's, what touches safety the chef's. Common practice, no source; a house that
has entered no people yet is run from its own machine with every right.
"""

from collections.abc import Iterable, Mapping
from typing import Any

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
_PORTER = frozenset({"porter"})
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
    "recall": _KITCHEN,
    "receive": _ALL,
    "record_confirmation": _KITCHEN,
    "record_credit": _MANAGER,
    "release": _CHEF,
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
    "set_aside": _KITCHEN,
    "set_budget": _MANAGER,
    "set_calendar": _MANAGER,
    "set_digest": _MANAGER,
    "set_level": _ALL,
    "set_par": _KITCHEN,
    "set_policy": _KITCHEN,
    "set_rota": _MENU,
    "set_substitutes": _KITCHEN,
    "set_terms": _MANAGER,
    "settle": _ALL,
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
    "stay-change": _MENU,
    "stock": _ALL,
    "suppliers": _KITCHEN,
    "temperatures": _ALL,
    "trace": _ALL,
    "use-first": _ALL,
    "waste": _KITCHEN,
    "waste-without-batch": _KITCHEN,
    "wrong-places": _ALL,
}
"""Which report is told to which roles."""

HIDDEN: dict[str, dict[str, frozenset[str]]] = {
    "count-differences": {"value": _PORTER},
    "recipes": {"cost": frozenset({"approver"})},
    "stock": {"value": _PORTER},
}
"""By report, the columns that a role is not told: no costs and no prices at the back door, nor at
the table."""

OWN_ONLY: dict[str, tuple[str, frozenset[str]]] = {
    "morning": ("owner", _PORTER),
    "questions": ("owner", _PORTER),
}
"""By report, the column that names a role, and who is told only the rows of their own; a row that
names none is everybody's."""

UNTOLD: dict[str, tuple[tuple[str, str, frozenset[str]], ...]] = {
    "changes": (
        ("what", "away", _PORTER),
        ("what", "constraint", _PORTER),
        ("what", "stay", _PORTER),
        ("key", "allergen|", _PORTER | {"approver"}),
    ),
}
"""By report, a column, how its value begins, and the roles that are not told such a row: the key of
a constraint, and of a question about what somebody cannot eat, names a person (SY10)."""


NAMELESS: dict[str, frozenset[str]] = {"preparations": _PORTER}
"""By report, the roles that are told what somebody at a table cannot eat, but not whose that is."""


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


def as_told(role: str, report: str, rows: Iterable[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """The rows of a report as a role is told them, without what it is not to see."""
    hidden = {column for column, roles in HIDDEN.get(report, {}).items() if role in roles}
    told = [
        {name: value for name, value in row.items() if name not in hidden}
        for row in rows
        if _is_told(role, report, row)
    ]
    return [_nameless(row) for row in told] if role in NAMELESS.get(report, ()) else told


def _nameless(told: Any) -> Any:  # noqa: ANN401 - data as deep as the report made it
    """The same without the names of those who cannot eat something, however deep they stand."""
    if isinstance(told, Mapping):
        inner = {name: _nameless(value) for name, value in told.items()}
        return inner | {"person": None} if "cannot_eat" in inner else inner
    return [_nameless(each) for each in told] if isinstance(told, list) else told


def _is_told(role: str, report: str, row: Mapping[str, Any]) -> bool:
    if report in OWN_ONLY:
        column, only_own = OWN_ONLY[report]
        if role in only_own and row.get(column) not in (None, role):
            return False
    return not any(
        role in untold and row[column].startswith(begins)
        for column, begins, untold in UNTOLD.get(report, ())
    )


def commands_of(role: str) -> list[str]:
    """The kinds of commands that a role may give."""
    return sorted(kind for kind, roles in RIGHTS.items() if role in roles)
