"""The commands that are given at the door: an ordinary morning, and menus that are confirmed."""

import random
import sqlite3
import uuid
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

from founding import CHEF, DEVICES, LARDER, orders
from scenario import NOW, Scenario

from pantry.rules.house_time import write_instant
from pantry.rules.menu import ServiceState

Command = dict[str, Any]

MIX = {"receive": 30, "take_out": 25, "move": 15, "open": 15, "waste": 15}
"""In a hundred; an estimate of a porter's and a cook's morning, no source."""

_PROMISED = (
    "SELECT p.batch, p.service, p.quantity FROM promised p"
    " JOIN need n ON n.house = p.house AND n.id = p.need AND n.via = ''"
    " GROUP BY p.batch ORDER BY p.service, p.batch"
)
_STANDING = (
    "SELECT b.id, b.quantity FROM batch b WHERE b.state = 'sealed'"
    " AND b.id NOT IN (SELECT batch FROM promised) ORDER BY b.id"
)


def morning(file: Path, scenario: Scenario, count: int, seed: int) -> list[Command]:
    """So many facts, in the proportions of `MIX`, each about a batch of its own."""
    rng = random.Random(f"{seed}/morning")
    with closing(sqlite3.connect(file)) as database:
        promised = iter(database.execute(_PROMISED).fetchall())
        standing = database.execute(_STANDING).fetchall()
    rng.shuffle(standing)
    unpromised = iter(standing)
    lines = iter([(order, pack) for order, packs in orders(scenario).items() for pack in packs])
    units = {item.id: item.base_unit.value for item in scenario.items.values()}
    item_of = {batch.id: batch.item for batch in scenario.batches}
    numbers = dict.fromkeys(DEVICES, 0)
    commands = []
    for kind in rng.choices(list(MIX), list(MIX.values()), k=count):
        match kind:
            case "receive":
                order, pack = next(lines)
                body = _receive(rng, order, pack, units[pack.item])
            case "take_out":
                batch, service, quantity = next(promised)
                body = {"service": service} | _part(batch, quantity, units[item_of[batch]])
            case _:
                batch, quantity = next(unpromised)
                body = _part(batch, quantity // 2, units[item_of[batch]]) | _beside(rng, kind)
        device = DEVICES[len(commands) % len(DEVICES)]
        numbers[device] += 1
        commands.append(_command(rng, kind, body, device=device, n=numbers[device]))
    return commands


def confirmations(scenario: Scenario, seed: int) -> Iterator[Command]:
    """One for each proposed service: all its dishes are chosen."""
    rng = random.Random(f"{seed}/confirmations")
    for service in scenario.services:
        if service.state is ServiceState.PROPOSED:
            dishes = [{"dish": serving.dish} for serving in service.servings]
            body = {"service": service.id, "dishes": dishes, "base": 1}
            yield _command(rng, "confirm", body)


def _command(rng: random.Random, kind: str, body: dict[str, Any], **outbox: Any) -> Command:
    return {
        "id": str(uuid.UUID(int=rng.getrandbits(128), version=4)),
        "kind": kind,
        "at": write_instant(NOW),
        "person": CHEF,
        "body": body,
        **outbox,
    }


def _part(batch: str, thousandths: int, unit: str) -> dict[str, Any]:
    value = f"{thousandths // 1000}.{thousandths % 1000:03}"
    return {"batch": batch, "quantity": {"value": value, "unit": unit}}


def _receive(rng: random.Random, order: str, pack: Any, unit: str) -> dict[str, Any]:
    batch = str(uuid.UUID(int=rng.getrandbits(128), version=4))
    return {
        "item": pack.item,
        "area": LARDER,
        "verdict": "accept",
        "date_mark": {"kind": "use_by", "date": f"2027-03-{rng.randint(12, 28)}"},
        "lot": f"L{rng.randint(1000, 9999)}",
        "order": order,
        "pack": pack.id,
        "packs": 1,
        "temperature_c": "3.5",
    } | _part(batch, pack.quantity, unit)


def _beside(rng: random.Random, kind: str) -> dict[str, Any]:
    """What a body says beside the batch and the quantity."""
    if kind == "move":
        return {"area": LARDER}
    if kind == "waste":
        return {"reason": "spoiled", "destination": "compost"}
    return {"child": str(uuid.UUID(int=rng.getrandbits(128), version=4))}
