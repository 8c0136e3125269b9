"""What the oracle knows of the house and its commands, written down a second time."""

from dataclasses import dataclass

FACTS = {"receive", "waste", "use", "move", "open", "take_out", "count", "set_level", "serve"}
UNIT_OF = {"whole-milk": "ml", "plain-flour": "g", "barley": "g", "salt": "g"}
AREAS = {"cold-room", "dairy", "pantry", "loft"}
ROLE_OF = {"Nele Orme": "chef", "Ivo Tarn": "porter", "Ruth Calder": "manager"}
NOT_FOR_PORTERS = {"set_par", "propose", "confirm", "change_covers", "take_off", "serve"}
FOR_MANAGERS = {"enrol_device", "revoke_device"}
BARLEY_A_PORTION = 50_000


class Cannot(Exception):  # noqa: N818 - it is no error: a fact is kept, a decision refused
    """It cannot be applied."""


class Moved(Exception):  # noqa: N818 - it is no error: a decision is a conflict
    """What it was decided on is no longer what stands."""


@dataclass
class Version:
    """What decisions are taken on: its number, and the command that gave it."""

    number: int = 1
    by: str = ""
    state: str = ""
    covers: int = 0
