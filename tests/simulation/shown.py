"""What a screen shows: the server's copy, and one's own commands that it does not contain (SY4)."""

import json
from collections.abc import Iterable

from tests.simulation.copies import Things
from tests.simulation.oracle_ledger import Shelf, thousandths
from tests.simulation.storage import Entry

_MILK_STANDS = "area:cold-room"
"""Milk is used and opened without saying where; it stands in one place only."""


def standing(things: Things) -> Shelf:
    """What the copy says stands in the house."""
    return {
        (key, account): quantity
        for (what, key), thing in things.items()
        if what == "batch"
        for account, quantity in thing["stands"].items()
        if account.startswith(("area:", "kitchen:"))
    }


def shown(things: Things, own: Iterable[Entry]) -> Shelf:
    """The copy with one's own commands on top, in their order, each once."""
    shelf = standing(things)
    batches = {key for what, key in things if what == "batch"}
    for entry in own:
        _put_on_top(shelf, batches, entry)
    return {key: quantity for key, quantity in shelf.items() if quantity}


def _put_on_top(shelf: Shelf, batches: set[str], entry: Entry) -> None:
    command = entry.command
    body, sign = command["body"], 1
    if entry.undone:
        command = json.loads(entry.undone)
        body, sign = command["body"], -1
    if command["kind"] == "receive":
        batches.add(body["batch"])
    if command["kind"] == "count":
        for line in body["lines"]:
            shelf[line["batch"], f"area:{body['area']}"] = thousandths(line["quantity"])
    elif body.get("batch") in batches:
        _add(shelf, command["kind"], body, sign * thousandths(body["quantity"]))
    if command["kind"] == "open" and body["batch"] in batches:
        batches.add(body["child"])


def _add(shelf: Shelf, kind: str, body: dict, quantity: int) -> None:
    batch, area = body["batch"], f"area:{body.get('area')}"
    moves = {
        "receive": {(batch, area): quantity},
        "waste": {(batch, area): -quantity},
        "use": {(batch, _MILK_STANDS): -quantity},
        "open": {(batch, _MILK_STANDS): -quantity, (body.get("child"), _MILK_STANDS): quantity},
        "move": {(batch, f"area:{body.get('from_area')}"): -quantity, (batch, area): quantity},
        "take_out": {
            (batch, area): -quantity,
            (batch, f"kitchen:{body.get('preparation')}"): quantity,
        },
    }
    for key, moved in moves[kind].items():
        shelf[key] = shelf.get(key, 0) + moved
