"""Who may do what: one matrix of roles, as data.

The person who approves menus chooses; who stands at the door receives; what costs or binds the
house is the manager's, what touches safety the chef's. Common practice, no source; a house that
has entered no people yet is run from its own machine with every right.
"""

from pantry.records.books import Books
from pantry.refusals import NotAllowed, declare

PERSON_UNKNOWN = declare("person_unknown", "Nobody of that name works in this house.")
ROLE_LACKING = declare("role_lacking", "The person's role does not include this command.")

_ALL = frozenset({"porter", "chef", "manager"})
_KITCHEN = frozenset({"chef", "manager"})
_MENU = frozenset({"chef", "manager", "approver"})
_CHEF = frozenset({"chef"})
_MANAGER = frozenset({"manager"})

RIGHTS: dict[str, frozenset[str]] = {
    "add_guest": _MENU,
    "amend_order": _KITCHEN,
    "approve_recipe": _MENU,
    "cancel_order": _KITCHEN,
    "change_covers": _MENU,
    "change_product": _KITCHEN,
    "confirm": _MENU,
    "correct": _ALL,
    "count": _ALL,
    "decant": _ALL,
    "enrol_device": _MANAGER,
    "freeze": _ALL,
    "harvest": _ALL,
    "hold": _ALL,
    "import_book": _MANAGER,
    "make": _KITCHEN | {"porter"},
    "move": _ALL,
    "open": _ALL,
    "pin": _CHEF,
    "place_order": _KITCHEN,
    "propose": _KITCHEN,
    "recall": _KITCHEN,
    "receive": _ALL,
    "release": _CHEF,
    "revoke_device": _MANAGER,
    "send_out": _ALL,
    "serve": _KITCHEN,
    "set_aside": _KITCHEN,
    "set_calendar": _MANAGER,
    "set_level": _ALL,
    "set_par": _KITCHEN,
    "set_policy": _KITCHEN,
    "settle": _ALL,
    "swap_dish": _MENU,
    "take_off": _MENU,
    "take_out": _ALL,
    "thaw": _ALL,
    "use": _ALL,
    "vacuum_pack": _ALL,
    "waste": _ALL,
}


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
