"""What the log of a history says of requests and replies, shortly."""

import json

from tests.simulation.desk import Desk
from tests.simulation.phone import Phone


def name_of(giver: Phone | Desk) -> str:
    return "desk" if isinstance(giver, Desk) else giver.name


def brief(command: dict) -> str:
    return f"{command.get('n', '')}:{command['kind']}"


def shortly(command: dict) -> str:
    base = f" on {command['base']}" if "base" in command else ""
    body = json.dumps(command["body"], separators=(",", ":"))
    return f"{command['id'][-6:]} {brief(command)}{base} {body} at {command['at'][11:19]}"


def answered(reply: dict | None) -> str:
    if reply is None:
        return "nothing is kept"
    if "answers" in reply:
        outcomes = [f"{a['outcome']}@{a['position']}" for a in reply["answers"]]
        return f"{outcomes} changes to {reply['cursor']}, backed up {reply['backed_up']}"
    if "gathered" in reply:
        return f"gathered {len(reply['gathered'])}"
    return f"epoch {reply['epoch']}"
