"""What must hold during and after every history, whatever befell it."""

import json
from datetime import timedelta

from sqlalchemy import Connection, text

from pantry.records.verify import disagreements
from tests.simulation import copies
from tests.simulation.oracle import Oracle
from tests.simulation.oracle_ledger import Posting, Shelf
from tests.simulation.seen import Base
from tests.simulation.thornwick import ID

_JOURNAL = text(
    "SELECT position, id, device, n, envelope, outcome, answer FROM journal"
    " WHERE house = :house ORDER BY position"
)
_BALANCES = text(
    "SELECT batch, account, quantity FROM balance WHERE house = :house AND quantity <> 0"
)
_QUESTIONS = text("SELECT kind, about FROM question WHERE house = :house")
_HEADS = text("SELECT change FROM house WHERE id = :house")
NOTHING = timedelta(0)
_ROUNDED = timedelta(seconds=1)
_IN_THE_HOUSE = ("area:", "hold:", "kitchen:", "emergency")


class Broken(AssertionError):  # noqa: N818 - the history is broken; the check does not err
    """Something that must hold does not."""


def require(holds: object, otherwise: str) -> None:
    """Stop where something does not hold.

    Raises:
        Broken: it does not.
    """
    if not holds:
        raise Broken(otherwise)


def expected_on_screen(base: Base, own: list[dict], given: dict[str, dict]) -> Shelf:
    """What a phone must show: what stood when its copy was made, then its own commands in order.

    Args:
        base: by the oracle, at the position that the copy is of.
        own: the commands the phone has saved that are not in that journal.
        given: every command ever saved, by id.
    """
    shelf = {key: q for key, q in base.stands.items() if key[1].startswith(("area:", "kitchen:"))}
    known = set(base.known)
    for command in own:
        if command["kind"] == "correct":
            steps = _steps(given[command["body"]["command"]], known)
            steps = [(key, -change) for key, change in steps]
        elif command["kind"] == "count":
            area = "area:" + command["body"]["area"]
            lines = command["body"]["lines"]
            counted = {(line["batch"], area): _amount(line["quantity"]) for line in lines}
            steps = [(key, q - shelf.get(key, 0)) for key, q in counted.items()]
        else:
            steps = _steps(command, known)
        for key, change in steps:
            shelf[key] = shelf.get(key, 0) + change
    return {key: quantity for key, quantity in shelf.items() if quantity}


def _steps(command: dict, known: set[str]) -> list[tuple[tuple[str, str], int]]:
    """What one fact changes in the house, for somebody who knows these batches."""
    body, kind = command["body"], command["kind"]
    batch = body.get("batch")
    if kind == "receive":
        known.add(batch)
    if batch not in known:
        return []
    amount, area = _amount(body["quantity"]), "area:" + body.get("area", "cold-room")
    if kind == "receive":
        return [((batch, area), amount)]
    if kind == "open":
        known.add(body["child"])
        return [((batch, area), -amount), ((body["child"], area), amount)]
    if kind == "move":
        return [((batch, "area:" + body["from_area"]), -amount), ((batch, area), amount)]
    if kind == "take_out":
        return [((batch, area), -amount), ((batch, "kitchen:" + body["preparation"]), amount)]
    return [((batch, area), -amount)]


def _amount(written: str | dict) -> int:
    value, unit = written.values() if isinstance(written, dict) else written.split()
    whole, _, part = value.partition(".")
    return int(whole + part.ljust(3, "0")[:3]) * (1_000 if unit in ("l", "kg") else 1)


def check_books(connection: Connection, oracle: Oracle) -> None:
    """The books agree with themselves, with the journal that was heard, and with the oracle.

    Raises:
        Broken: they do not.
    """
    found = disagreements(connection, ID)
    require(not found, f"verify: {found[:3]}")
    _check_journal(connection, oracle)
    _check_numbers(connection)
    _check_balances(connection, oracle)
    _check_questions(connection, oracle)


def _check_journal(connection: Connection, oracle: Oracle) -> None:
    rows = connection.execute(_JOURNAL, {"house": ID}).all()
    heard = [_canonical(heard.command) for heard in oracle.journal]
    kept = [row.envelope for row in rows]
    require(len({row.id for row in rows}) == len(rows), "a command is in the journal twice")
    for number, (have, want) in enumerate(zip(kept, heard, strict=False), 1):
        require(have == want, f"position {number} holds {have}, not {want}")
    require(len(kept) == len(heard), f"{len(kept)} commands are kept, {len(heard)} were answered")
    for row, heard_ in zip(rows, oracle.journal, strict=True):
        require(row.outcome == heard_.outcome, f"position {row.position}: other outcome")
        require(json.loads(row.answer)["position"] == row.position, "an answer's position is wrong")


def _canonical(command: dict) -> str:
    return json.dumps(command, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def _check_numbers(connection: Connection) -> None:
    """Every device's numbers stand in the journal from 1 up, in order."""
    numbers: dict[str, list[int]] = {}
    for row in connection.execute(_JOURNAL, {"house": ID}):
        if row.device:
            numbers.setdefault(row.device, []).append(row.n)
    for device, found in numbers.items():
        require(found == list(range(1, len(found) + 1)), f"{device}: numbers {found}")


def _check_balances(connection: Connection, oracle: Oracle) -> None:
    """What stands is what happened, in its order; where clocks leave that open, one of the orders.

    Where neither order fits, a person was asked which was first.
    """
    have = balances(connection)
    want = oracle.ledger.stands()
    wrong = sorted(key for key in have.keys() | want.keys() if have.get(key) != want.get(key))
    doubtful = oracle.ledger.doubtful()
    asked = [about for kind, about in questions(connection) if kind == "which_was_first"]
    for key in wrong:
        batch = key[0]
        if batch not in doubtful or not (
            any(about.endswith(batch) for about in asked)
            or any(_of(have, batch) == each for each in oracle.ledger.possible(batch))
        ):
            raise Broken(f"{key}: the books say {have.get(key, 0)}, it is {want.get(key, 0)}")


def _of(shelf: Shelf, batch: str) -> Shelf:
    return {key: quantity for key, quantity in shelf.items() if key[0] == batch}


def balances(connection: Connection) -> Shelf:
    """What the books say stands where."""
    rows = connection.execute(_BALANCES, {"house": ID})
    return {(batch, account): int(quantity) for batch, account, quantity in rows}


def questions(connection: Connection) -> list[tuple[str, str]]:
    """Kind and subject of every question that was asked."""
    return [(kind, about) for kind, about in connection.execute(_QUESTIONS, {"house": ID})]


def _check_questions(connection: Connection, oracle: Oracle) -> None:
    """Whoever has to know is asked: about facts without effect, numbers lost, shelves overdrawn."""
    asked = questions(connection)
    for heard in oracle.journal:
        command = heard.command
        if heard.outcome == "kept":
            is_asked = any(about == command["id"] for _, about in asked)
            require(is_asked, f"nobody is asked about {command['kind']} without effect")
        if command["kind"] == "missing":
            is_asked = any(_is_about(command, *each) for each in asked)
            require(is_asked, f"nobody is asked about {command['device']}'s {command['n']}")
    for account, batch in oracle.ledger.unsure():
        is_asked = ("which_was_first", f"{account}|{batch}") in asked
        require(is_asked, f"nobody is asked what was first of {batch} in {account}")
    for (batch, account), quantity in oracle.ledger.stands().items():
        if quantity < 0 and account.startswith(_IN_THE_HOUSE):
            is_asked = any(batch in about for _, about in asked)
            require(is_asked, f"nobody is asked about {quantity} of {batch} in {account}")


def _is_about(missing: dict, kind: str, about: str) -> bool:
    """Whether a question is about a number that nobody holds."""
    device, _, numbers = about.partition("|")
    if kind != "numbers_missing" or device != missing["device"]:
        return False
    first, _, last = numbers.partition("-")
    return int(first) <= missing["n"] <= int(last)


def silently_wrong(connection: Connection, oracle: Oracle) -> int:
    """Of how many batches clocks made the books say what is not so, and nobody is asked.

    Raises:
        Broken: a clock was further off than its phone said.
    """
    for count in oracle.ledger.postings:
        for moved in oracle.ledger.postings:
            if count.source is None and moved.batch == count.batch and moved.source:
                _check_bounds(count, moved)
    have, want = balances(connection), oracle.ledger.truly()
    wrong = {key[0] for key in have.keys() | want.keys() if have.get(key) != want.get(key)}
    asked = [about for kind, about in questions(connection) if kind == "which_was_first"]
    return sum(not any(about.endswith(batch) for about in asked) for batch in wrong)


def _check_bounds(one: Posting, other: Posting) -> None:
    apart = one.at - other.at
    order_is_wrong = (apart > NOTHING) != (one.truly > other.truly) and one.truly != other.truly
    require(
        not order_is_wrong or abs(apart) <= one.bound + other.bound + _ROUNDED,
        f"{one.command[-6:]} and {other.command[-6:]} are in the wrong order, beyond their bounds",
    )


def check_copy(connection: Connection, name: str, things: copies.Things) -> None:
    """A copy made of changes is the same as a fresh one.

    Raises:
        Broken: it is not.
    """
    fresh = copies.whole(connection)
    for key in sorted(fresh.keys() | things.keys()):
        require(
            fresh.get(key) == things.get(key),
            f"{name} has of {key}: {things.get(key)}, it is {fresh.get(key)}",
        )


def head_of_changes(connection: Connection) -> int:
    return connection.execute(_HEADS, {"house": ID}).scalar_one()
