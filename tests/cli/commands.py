"""Commands as a script gives them, one a line."""

import json
from itertools import count
from uuid import UUID

_ids = count(1)


def new_id():
    return str(UUID(int=(0x7 << 76) | (0x2 << 62) | next(_ids)))


def command(kind, body, *, person="Cato Burn", **more):
    """A command with a new id, given at seven; a person of None is left out."""
    envelope = {"id": new_id(), "kind": kind, "at": "2027-03-10T07:00:00Z", "body": body}
    return envelope | ({} if person is None else {"person": person}) | more


def receive(label="N-0001", quantity="1 l", **more):
    """A delivery of cream, taken in."""
    body = {
        "batch": new_id(),
        "label": label,
        "item": "Double cream",
        "quantity": quantity,
        "area": "Cold room",
        "date_mark": {"kind": "use_by", "date": "2027-03-18"},
        "verdict": "accept",
    }
    return command("receive", body, **more)


def lines(*commands):
    """The text of a file of commands."""
    return "".join(f"{each if isinstance(each, str) else json.dumps(each)}\n" for each in commands)
