"""The accounts a batch's quantity can stand on (LG1); for every batch they sum to zero.

An account is text: a kind, and where the kind has places a colon and the place (`area:cold-room`,
`hold:cold-room`, `kitchen:2027-03-13/dinner/family`).
"""

SUPPLIER = "supplier"
GARDEN = "garden"
OPENING_STOCK = "opening_stock"
EMERGENCY = "emergency"
"""The kind of account of the emergency meal; it stands in a storage area like anything else."""
MADE_INTO = "made_into"
WASTE = "waste"
COUNT_DIFFERENCE = "count_difference"
OFF_MENU = "off-menu"
"""Stands for the service where no menu asked for what was eaten (LG6)."""


def area(place: str) -> str:
    """A storage area: what stands there may be used."""
    return f"area:{place}"


def hold(place: str) -> str:
    """On hold in a storage area: not used until a person decides."""
    return f"hold:{place}"


def emergency(place: str) -> str:
    """Kept in a storage area for the day everything fails."""
    return f"{EMERGENCY}:{place}"


def kitchen(purpose: str) -> str:
    """Taken out for a service or a preparation."""
    return f"kitchen:{purpose}"


def served(service: str) -> str:
    """Served at a service, or `OFF_MENU`."""
    return f"served:{service}"


def transit(house: str) -> str:
    """Left for another house, not yet received there; nobody's available stock."""
    return f"transit:{house}"


def kind(account: str) -> str:
    """The kind of an account."""
    return account.partition(":")[0]


def place(account: str) -> str:
    """The place of an account; empty where its kind has none."""
    return account.partition(":")[2]


PHYSICAL = frozenset({"area", "hold", EMERGENCY, "kitchen"})
"""Kinds of account that stand in the house, and so cannot hold less than nothing."""


ORIGINS = frozenset({SUPPLIER, GARDEN, MADE_INTO})
"""Where something comes from that was not there before."""


def is_usable(account: str) -> bool:
    """Whether what stands there may be promised: on a shelf, or taken out for a preparation."""
    return kind(account) == "area" or (kind(account) == "kitchen" and "/" not in place(account))


def is_service(account: str) -> bool:
    """Whether what stands there was taken out for a service, not for a preparation."""
    return kind(account) == "kitchen" and "/" in place(account)
