"""What each command does, as the oracle understands it.

A verb checks what must be there, changes nothing, and gives back what follows if it is applied.
"""

from __future__ import annotations

from collections.abc import Callable, Container
from typing import TYPE_CHECKING

from tests.simulation.oracle_ledger import thousandths
from tests.simulation.oracle_terms import (
    AREAS,
    BARLEY_A_PORTION,
    FOR_MANAGERS,
    NOT_FOR_PORTERS,
    ROLE_OF,
    UNIT_OF,
    Cannot,
    Moved,
    Version,
)

if TYPE_CHECKING:
    from tests.simulation.oracle import Oracle

Follow = Callable[[], None]


def check_rights(oracle: Oracle, command: dict) -> None:
    """Whether the person, and the device, may give such a command."""
    kind, role = command["kind"], ROLE_OF.get(command["person"])
    if command.get("device") in oracle.revoked or role is None:
        raise Cannot
    if (role == "porter" and kind in NOT_FOR_PORTERS) or (
        role != "manager" and kind in FOR_MANAGERS
    ):
        raise Cannot


def _check_base(command: dict, stands: Version) -> None:
    base = command.get("base")
    if base is None and command.get("device") is None:
        return
    if base is None or base not in (stands.number, stands.by):
        raise Moved


def _known(name: str, among: Container[str]) -> str:
    if name not in among:
        raise Cannot
    return name


def _area(name: str) -> str:
    return "area:" + _known(name, AREAS)


# Facts


def _receive(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    _known(body["item"], UNIT_OF)
    area, quantity = _area(body["area"]), thousandths(body["quantity"])
    if body["batch"] in oracle.homes or body.get("label") in oracle.labels:
        raise Cannot
    post = oracle.posts(command, (body["batch"], "supplier", area, quantity))

    def follow() -> None:
        oracle.homes[body["batch"]] = area
        if "label" in body:
            oracle.labels.add(body["label"])
        post()

    return follow


def _waste(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    batch = _known(body["batch"], oracle.homes)
    area, quantity = _area(body["area"]), thousandths(body["quantity"])
    return oracle.posts(command, (batch, area, "waste", quantity))


def _use(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    batch = _known(body["batch"], oracle.homes)
    quantity = thousandths(body["quantity"])
    return oracle.posts(command, (batch, oracle.homes[batch], "served:off-menu", quantity))


def _move(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    batch = _known(body["batch"], oracle.homes)
    source, target = _area(body["from_area"]), _area(body["area"])
    return oracle.posts(command, (batch, source, target, thousandths(body["quantity"])))


def _take_out(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    batch = _known(body["batch"], oracle.homes)
    kitchen, quantity = "kitchen:" + body["preparation"], thousandths(body["quantity"])
    return oracle.posts(command, (batch, _area(body["area"]), kitchen, quantity))


def _open(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    parent, child = _known(body["batch"], oracle.homes), body["child"]
    home, quantity = oracle.homes[parent], thousandths(body["quantity"])
    post = oracle.posts(
        command, (parent, home, "made_into", quantity), (child, "made_into", home, quantity)
    )

    def follow() -> None:
        oracle.homes[child] = home
        post()

    return follow


def _count(oracle: Oracle, command: dict) -> Follow:
    area = _area(command["body"]["area"])
    lines = [
        (_known(line["batch"], oracle.homes), None, area, thousandths(line["quantity"]))
        for line in command["body"]["lines"]
    ]
    return oracle.posts(command, *lines)


def _set_level(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    item = _known(body["item"], UNIT_OF)
    return lambda: oracle.levels.update({item: body["level"]})


def _serve(oracle: Oracle, command: dict) -> Follow:
    service = _known(command["body"]["service"], oracle.services)
    stands = oracle.services[service]
    if stands.state != "confirmed":
        raise Cannot
    eaten = stands.covers * BARLEY_A_PORTION
    post = oracle.posts(command, ("barley-1", "area:pantry", f"served:{service}", eaten))

    def follow() -> None:
        _move_on(stands, command, state="served")
        post()

    return follow


# Decisions


def _move_on(stands: Version, command: dict, **to: object) -> None:
    stands.number += 1
    stands.by = command["id"]
    for name, value in to.items():
        setattr(stands, name, value)


def _set_par(oracle: Oracle, command: dict) -> Follow:
    body = command["body"]
    stands = oracle.items[_known(body["item"], UNIT_OF)]
    _check_base(command, stands)
    if thousandths(body["order_up_to"]) < thousandths(body["floor"]):
        raise Cannot
    return lambda: _move_on(stands, command)


def _decided(oracle: Oracle, command: dict, states: tuple[str, ...], **to: object) -> Follow:
    stands = oracle.services[_known(_service(command), oracle.services)]
    _check_base(command, stands)
    if stands.state not in states:
        raise Cannot
    return lambda: _move_on(stands, command, **to)


def _service(command: dict) -> str:
    part = command["body"]["service"]
    return part if isinstance(part, str) else f"{part['date']}/{part['meal']}/{part['table']}"


def _propose(oracle: Oracle, command: dict) -> Follow:
    service = _service(command)
    to = {"state": "proposed", "covers": command["body"]["service"]["covers"]}
    if service in oracle.services:
        return _decided(oracle, command, ("proposed", "taken_off"), **to)
    return lambda: oracle.services.update({service: Version(1, command["id"], **to)})


def _confirm(oracle: Oracle, command: dict) -> Follow:
    return _decided(oracle, command, ("proposed", "confirmed"), state="confirmed")


def _change_covers(oracle: Oracle, command: dict) -> Follow:
    return _decided(oracle, command, ("proposed", "confirmed"), covers=command["body"]["covers"])


def _take_off(oracle: Oracle, command: dict) -> Follow:
    return _decided(oracle, command, ("proposed", "confirmed"), state="taken_off")


def _correct(oracle: Oracle, command: dict) -> Follow:
    wrong = _known(command["body"]["command"], oracle.applied)
    if wrong in oracle.taken_back:
        raise Cannot

    def follow() -> None:
        oracle.taken_back.add(wrong)
        oracle.ledger.take_back(wrong)

    return follow


def _enrol_device(oracle: Oracle, command: dict) -> Follow:
    device = command["body"]["device"]
    if device in oracle.devices:
        raise Cannot
    return lambda: oracle.devices.add(device)


def _revoke_device(oracle: Oracle, command: dict) -> Follow:
    device = _known(command["body"]["device"], oracle.devices)
    return lambda: oracle.revoked.add(device)


def _settle(oracle: Oracle, command: dict) -> Follow:
    return lambda: oracle.settled.add((command["body"]["question"], command["base"]))


VERBS: dict[str, Callable[[Oracle, dict], Follow]] = {
    "change_covers": _change_covers,
    "confirm": _confirm,
    "correct": _correct,
    "count": _count,
    "enrol_device": _enrol_device,
    "move": _move,
    "open": _open,
    "propose": _propose,
    "receive": _receive,
    "revoke_device": _revoke_device,
    "serve": _serve,
    "set_level": _set_level,
    "set_par": _set_par,
    "settle": _settle,
    "take_off": _take_off,
    "take_out": _take_out,
    "use": _use,
    "waste": _waste,
}
