"""Commands in lists through the one door, alone or as an outbox's exchange (SY1-SY5)."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from litestar import post
from msgspec.structs import replace
from sqlalchemy import Connection

from pantry.access import devices
from pantry.access.sessions import Signed
from pantry.commands import door, gathered
from pantry.commands.answers import Answer, problem
from pantry.commands.gathered import Holding
from pantry.commands.telling import as_told
from pantry.http.bodies import Change, Exchange, Exchanged, read
from pantry.http.diners import diners_of
from pantry.http.problems import UnreadableRequest
from pantry.http.served import Asking, Served, served
from pantry.http.who import HANDS_IN
from pantry.records.rows import one
from pantry.records.tables import HouseRow
from pantry.refusals import NotAllowed, declare
from pantry.reports.changes import changes
from pantry.reports.view import view
from pantry.rules.house_time import write_instant

PERSON_NOT_YOU = declare("person_not_you", "The command is another person's than who is signed in.")
DEVICE_UNSAID = declare("device_unsaid", "The request does not say whose outbox it is.")
DEVICE_NOT_YOURS = declare("device_not_yours", "The command is of another device's outbox.")
TOO_MANY_COMMANDS = declare("too_many_commands", "The list has more commands than are taken.")
PROTOCOL_UNKNOWN = declare("protocol_unknown", "The device speaks another protocol.")

TOGETHER = 500
"""So many commands at most are given as one list, and are durable together."""

PROTOCOL = 1


@post("/api/commands", status_code=200)
async def give_commands(request: Asking) -> list[Answer]:
    """Give a list of commands; each has its own answer, refused or not."""
    of, who = served(request), request.user
    given = await read(request, list[Any])
    _refuse_too_many(given)
    answers = await of.write(who.house, partial(give, of=of, who=who, given=given))
    of.news.ring()
    return answers


@post("/api/exchange", status_code=200, opt=HANDS_IN)
async def exchange(request: Asking) -> Exchanged:
    """Hand an outbox in and learn what has changed, after one durable commit (SY5)."""
    of, who, body = served(request), request.user, await read(request, Exchange)
    _refuse_too_many(body.commands)
    if body.protocol != PROTOCOL:
        raise UnreadableRequest(
            PROTOCOL_UNKNOWN,
            f"The device speaks protocol {body.protocol}, the server {PROTOCOL}.",
            "Load the program again; what waits on the device is kept.",
            value=str(body.protocol),
            field="protocol",
        )
    if body.held:
        _refuse_too_many(body.held.commands)
    work = partial(_exchange, of=of, who=who, body=body)
    if not (body.commands or body.held or await _tells_of_itself(of, who, body)):
        return await of.read(work)
    exchanged = await of.write(who.house, work)
    of.news.ring()
    return exchanged


async def _tells_of_itself(of: Served, who: Signed, body: Exchange) -> bool:
    """Whether the device says something of itself that is worth writing down (SY11)."""
    if who.device is None or body.made is None:
        return False
    told = partial(devices.is_news, device=who.device, made=body.made, now=of.clock())
    return await of.read(partial(told, house=who.house))


def _refuse_too_many(given: Sequence[object]) -> None:
    if len(given) > TOGETHER:
        raise UnreadableRequest(
            TOO_MANY_COMMANDS,
            f"The list has {len(given)} commands, and at most {TOGETHER} are taken at once.",
            "Send the first of them, then the rest.",
            value=str(len(given)),
        )


def _exchange(connection: Connection, of: Served, who: Signed, body: Exchange) -> Exchanged:
    """The answers, then what has changed since the cursor, unless it is another epoch's."""
    device = _device(body)
    if body.made is not None and who.device is not None:
        devices.heard(connection, who.house, who.device, body.made, of.clock())
    if body.held:
        _hand_in(connection, of, who, device, body.held)
    restored = gathered.stands(connection, who.house, device)
    epoch = one(connection, HouseRow, id=who.house).epoch
    waits = device is not None and (restored is not None or body.epoch not in ("", epoch))
    given = [] if waits else body.commands
    answers = give(connection, of, who, given) if given else []
    seen = view(connection, who.house, of.now())
    known = body.epoch in ("", epoch) and body.cursor <= seen.row.change
    since = body.cursor if known else 0
    # a device that was taken out hands in and is told nothing
    rows = changes(seen, since) if who.role else []
    return Exchanged(
        epoch=epoch,
        answers=answers,
        changes=[
            Change(**row) for row in as_told(who.role, "changes", rows, diners_of(connection, who))
        ],
        cursor=rows[-1]["number"] if rows else since,
        backed_up=seen.row.backed_up,
        server_time=write_instant(of.now()),
        restored=restored,
    )


def _device(body: Exchange) -> str | None:
    """Whose outbox it is, as it says itself or as its first command does."""
    first = body.commands[0] if body.commands else None
    said = body.device or (first.get("device") if isinstance(first, dict) else None)
    return said if isinstance(said, str) else None


def _hand_in(
    connection: Connection, of: Served, who: Signed, device: str | None, held: Holding
) -> None:
    """Gather what a device holds; nobody hands in a command in another person's name."""
    if device is None:
        raise UnreadableRequest(
            DEVICE_UNSAID,
            "The request does not say whose outbox is handed in.",
            "Send the device's id as `device`.",
            field="device",
        )
    keys = devices.with_a_key(connection, who.house)
    if device != who.device and (who.device is not None or device in keys):
        raise _another_outbox(device)
    for each in held.commands:
        if (other := _of_another(each.command, who, keys)) is not None:
            raise other
    in_name = [replace(each, command=_named(each.command, who, keys)) for each in held.commands]
    gathered.hand_in(connection, who.house, device, replace(held, commands=in_name), of.now())


def give(connection: Connection, of: Served, who: Signed, given: Sequence[object]) -> list[Answer]:
    """The answers of the door, and those to commands of others, in the order given."""
    keys = devices.with_a_key(connection, who.house)
    named = [_named(command, who, keys) for command in given]
    fit = [command for command in named if not isinstance(command, Answer)]
    return list(_in_order(named, door.apply(connection, who.house, fit, of.now()) if fit else []))


def _another_outbox(device: object) -> NotAllowed:
    return NotAllowed(
        DEVICE_NOT_YOURS,
        f"The command is of the outbox of {device}, which hands it in itself."
        if device
        else "The command is of no outbox, and all that is taken of this device is its outbox.",
        "Hand in this device's own outbox.",
        value=str(device or ""),
        field="device",
    )


def _in_order(named: Sequence[object], answers: Sequence[Answer]) -> Iterator[Answer]:
    """Where the door stopped, nothing behind is answered."""
    rest = iter(answers)
    for command in named:
        answer = command if isinstance(command, Answer) else next(rest, None)
        if answer is None:
            return
        yield answer


def _named(command: object, who: Signed, keys: Collection[str]) -> object:
    """The command in the name of who is signed in, or its refusal where it is another's."""
    if not isinstance(command, dict):
        return command
    if (refusal := _of_another(command, who, keys)) is not None:
        identity = command.get("id")
        said = identity if isinstance(identity, str) else None
        return Answer(said, "refused", None, problem(refusal))
    return command | {"person": who.person} if command.get("person", "") == "" else command


def _of_another(
    command: Mapping[str, Any], who: Signed, keys: Collection[str]
) -> NotAllowed | None:
    """Whose a command may not be; `keys` are the devices that speak for themselves.

    Of an outbox of its own the door knows who came in on the device.
    """
    person, device = command.get("person", ""), command.get("device")
    if device is not None and device == who.device:
        return None
    is_own = device is None and bool(who.role)
    is_anothers = isinstance(device, str) and device in keys
    if not is_own and (who.device is not None or is_anothers):
        return _another_outbox(device)
    if not isinstance(person, str) or person in ("", who.person, who.name):
        return None
    return NotAllowed(
        PERSON_NOT_YOU,
        f"The command is {person}'s, and {who.name} is signed in.",
        f"Sign in as {person}, or leave the person out.",
        value=person,
        field="person",
    )
