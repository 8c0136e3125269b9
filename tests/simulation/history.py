"""The world of one history: people, phones, network, server, and what the outside has seen."""

import json
import uuid
from collections import Counter
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random

from tests.simulation import checks
from tests.simulation.checks import require
from tests.simulation.clock import Clock
from tests.simulation.desk import Desk
from tests.simulation.exchange import Exchange
from tests.simulation.oracle import Oracle
from tests.simulation.people import People
from tests.simulation.phone import Phone
from tests.simulation.premises import Premises
from tests.simulation.seen import Base, Seen
from tests.simulation.server import Done, Server
from tests.simulation.storage import PhoneDied
from tests.simulation.telling import answered, brief, name_of, shortly
from tests.simulation.thornwick import BEGINS, PHONES, founding

Giver = Phone | Desk


@dataclass(frozen=True)
class Kinds:
    """Which programs take part; a planted fault is another kind of one of them."""

    phone: type[Phone] = Phone
    desk: type[Desk] = Desk
    exchange: type[Exchange] = Exchange
    server: type[Server] = Server


@dataclass(frozen=True)
class Under:
    """A request that is under way, and when it will arrive."""

    step: int
    giver: Giver
    request: dict


class History:
    """The world of one seed.

    Attributes:
        loss: how likely a reply is lost on its way.
        excused: ids that were lost as they may be: they stood in no backup and on no phone.
    """

    def __init__(self, seed: int, premises: Premises, kinds: Kinds | None = None) -> None:
        kinds = kinds or Kinds()
        self.seed = seed
        self.draw = Random(seed)
        self.now = BEGINS
        self.step = 0
        self.log: list[str] = []
        self.counts: Counter[str] = Counter()
        self.people = People(self.draw, self.new_id)
        self.seen = Seen()
        self.oracle = Oracle(self.seen.truly)
        self.under_way: list[Under] = []
        self.excused: set[str] = set()
        self.loss = 0.1
        premises.begin()
        exchange = kinds.exchange(self.draw.choice([8, 8, 40]))
        self.server = kinds.server(premises, exchange)
        self._kinds = kinds
        self.phones = [self.new_phone(name) for name in PHONES]
        self.desk = kinds.desk()
        for command in founding():
            self.oracle.hear(command, "applied")

    def new_phone(self, name: str) -> Phone:
        return self._kinds.phone(name, Clock(timedelta(seconds=self.draw.randint(-900, 900))))

    def new_id(self) -> str:
        """A UUIDv7 of the history's own chance and time."""
        value = int(self.now.timestamp() * 1000) << 80 | self.draw.getrandbits(80)
        value = value & ~(0xF << 76) | 0x7 << 76
        return str(uuid.UUID(int=value & ~(0x3 << 62) | 0x2 << 62))

    def say(self, what: str) -> None:
        self.log.append(f"{self.step:3} {self.now:%d %H:%M} {what}")

    # Giving commands

    def give(self, giver: Giver) -> None:
        """Somebody records or decides something."""
        if wish := self.people.wish(giver):
            self.record(giver, wish)

    def record(self, giver: Giver, wish: dict) -> None:
        undone = wish.get("undone")
        command = {"id": self.new_id()} | giver.stamped(self.now) | wish
        command.pop("undone", None)
        self.seen.truly[command["id"]] = self.now
        if isinstance(giver, Desk):
            giver.give(command)
        elif saved := self._save(giver, command, undone):
            command = saved
            self.seen.saved.add(command["id"])
        else:
            return
        self.seen.given[command["id"]] = command
        self.counts["commands"] += 1
        self.say(f"{name_of(giver)} gives {shortly(command)}")
        self.look_at(giver)

    def _save(self, phone: Phone, command: dict, undone: str | None) -> dict | None:
        if self.draw.random() < 0.03:
            phone.storage.dies_at = 0
        try:
            return phone.save(command, undone)
        except PhoneDied:
            phone.crash()
            self.counts["phone died saving"] += 1
            self.say(f"{phone.name} dies before {command['kind']} is saved")
            return None
        finally:
            phone.storage.dies_at = None

    def look_at(self, giver: Giver) -> None:
        """What the screen shows is the copy and one's own commands, each once."""
        if isinstance(giver, Desk):
            return
        base = self.seen.copies.get(giver.name, Base({}, frozenset(), frozenset(), frozenset()))
        own = [
            self.seen.given[key]
            for key in self.seen.saved - base.heard - self.excused
            if self.seen.given[key]["device"] == giver.name
        ]
        own.sort(key=lambda command: command["n"])
        want = checks.expected_on_screen(base, own, self.seen.given)
        have = giver.shown()
        wrong = [key for key in have.keys() | want.keys() if have.get(key) != want.get(key)]
        wrong = sorted(key for key in wrong if key[0] not in base.doubtful)
        told = "; ".join(f"{key}: {have.get(key)}, it is {want.get(key)}" for key in wrong)
        require(not wrong, f"{giver.name} shows of {told}")

    # Exchanges

    def exchange(self, givers: list[Giver], fault: str | None = None) -> None:
        """Several requests arrive together; `fault` befalls the server."""
        self.arrive([(giver, giver.request()) for giver in givers], fault)

    def arrive(
        self, together: list[tuple[Giver, dict]], fault: str | None = None, *, late: bool = False
    ) -> None:
        """Requests arrive; the replies reach those who still wait for them."""
        done = self.server.serve([request for _, request in together], self.now, fault)
        self.counts["exchanges"] += len(done)
        if fault:
            self.counts[f"server: {fault}"] += 1
        for (giver, request), each in zip(together, done, strict=True):
            self._hear(request, each)
            lost = late or self.draw.random() < self.loss
            heard = each.reply is not None and not lost
            self.say(
                f"{name_of(giver)} sends {[brief(c) for c in request['commands']]}"
                f"{' late' if late else ''}{f', {fault}' if fault else ''}: "
                f"{answered(each.committed)}{'' if heard else ' (unheard)'}"
            )
            if heard:
                self._deliver(giver, each)

    def _hear(self, request: dict, done: Done) -> None:
        """What was committed is heard by the oracle, once; a second answer is the first again."""
        if done.committed is None or "answers" not in done.committed:
            return
        self._hear_missing(done.committed["missing"])
        by_id = {command["id"]: command for command in request["commands"] if "id" in command}
        for answer in done.committed["answers"]:
            self.hear_answer(by_id[answer["id"]], answer)
        ledger = self.oracle.ledger
        known, heard = frozenset(self.oracle.homes), frozenset(self.oracle.heard)
        done.committed["base"] = Base(ledger.stands(), known, heard, ledger.doubtful())

    def _hear_missing(self, missing: list[dict]) -> None:
        """Numbers that nobody holds: each has its place in the journal, and nothing follows."""
        for each in missing:
            self.oracle.hear(each, "refused")
            self.counts["numbers missing"] += 1
            self.say(f"{each['device']}: {each['n']} is missing")

    def hear_answer(self, command: dict, answer: dict) -> None:
        written = json.dumps(answer, sort_keys=True)
        code = answer.get("problem", {}).get("code")
        require(code != "program_failed", f"the program failed on {shortly(command)}")
        if answer["position"] is None:
            return
        first = self.seen.first.setdefault(command["id"], written)
        require(first == written, f"{shortly(command)} was answered {first}, now {written}")
        if command["id"] in self.oracle.heard:
            return
        given = self.seen.given.get(command["id"])
        require(given == command, f"{shortly(command)} is kept, and nobody gave it")
        self.oracle.hear(command, answer["outcome"])
        self.counts[f"outcome: {answer['outcome']}"] += 1
        self.seen.outcome.setdefault(command["id"], answer["outcome"])
        require(
            answer["position"] == len(self.oracle.journal), f"position {answer['position']} skips"
        )

    def _deliver(self, giver: Giver, done: Done) -> None:
        reply = done.reply
        self._check_reply(giver, reply)
        if isinstance(giver, Desk):
            giver.take(reply)
            return
        if self.draw.random() < 0.3 * self.loss:
            giver.storage.dies_at = self.draw.choice([0, 1])
        try:
            giver.take(reply, *self._round_trip())
        except PhoneDied:
            giver.crash()
            self.counts["phone died hearing"] += 1
            self.say(f"{giver.name} dies before the reply is stored")
        else:
            if "base" in reply:
                self.seen.copies[giver.name] = reply["base"]
        giver.storage.dies_at = None
        self.look_at(giver)

    def _round_trip(self) -> tuple[datetime, datetime]:
        """When the request was sent and the reply heard; now and then the way is very long."""
        longest = self.draw.choice([2, 2, 2, 200])
        before, after = (timedelta(seconds=self.draw.uniform(0, longest)) for _ in range(2))
        return self.now - before, self.now + after

    def _check_reply(self, giver: Giver, reply: dict) -> None:
        """Numbers of changes have no gap; answers that reached somebody are remembered."""
        numbers = reply.get("numbers")
        if numbers:
            cursor = giver.cursor if isinstance(giver, Desk) else giver.state.cursor
            require(
                numbers == list(range(cursor + 1, reply["cursor"] + 1)),
                f"changes {numbers} follow {cursor}",
            )
        for answer in reply.get("answers", []):
            if answer["position"] is not None:
                self.seen.told.add(answer["id"])

    # After a restore

    def forget_after(self, position: int, *, older: bool) -> set[str]:
        """The server's disk is an older one now; answers the ids that are on it.

        What stands neither there nor on a phone is lost. That may be where the newest backup could
        not be read, and for what came from a desk (SY7).
        """
        self.oracle = self.oracle.again(position)
        kept = {heard.command["id"] for heard in self.oracle.journal}
        self.seen.first = {key: first for key, first in self.seen.first.items() if key in kept}
        held = {entry.id for phone in self.phones for entry in phone.state.entries}
        for key in self.seen.saved - kept - held - self.excused:
            require(older, f"{shortly(self.seen.given[key])} is on no disk and on no phone")
            self.excused.add(key)
        return kept

    def held_with_a_place(self) -> set[str]:
        """Ids that phones hold and know the place of, in a journal that is lost."""
        entries = (entry for phone in self.phones for entry in phone.state.entries)
        return {entry.id for entry in entries if entry.position or entry.was}

    def replay(self, fault: str | None) -> None:
        """The restored server replays the next few of what it gathered."""
        exchange = self.server.exchange
        (done,) = self.server.do([lambda c: exchange.replay(c, self.now)], fault)
        if done.committed is None:
            return
        self._hear_missing(done.committed["missing"])
        for command, answer in done.committed["done"]:
            self.say(f"replays {shortly(command)}: {answer['outcome']}@{answer['position']}")
            self.hear_answer(command, answer)
        exchange.replaying = not done.committed["finished"]

    # At the end

    def check_nothing_is_lost(self) -> None:
        """Every command that was saved or answered is in the journal, but for what is excused."""
        kept = {heard.command["id"] for heard in self.oracle.journal}
        for key in self.seen.saved - kept:
            require(key in self.excused, f"{shortly(self.seen.given[key])} was saved and is lost")
        for key in self.seen.told - self.seen.saved - kept:
            was_on_disk = self.counts["disks lost"]
            require(was_on_disk, f"{shortly(self.seen.given[key])} was answered and is lost")
        made = dict.fromkeys(PHONES, 0)
        for command in (self.seen.given[key] for key in self.seen.saved):
            made[command["device"]] = max(made.get(command["device"], 0), command["n"])
        for phone in self.phones:
            require(
                phone.state.made == made.get(phone.name, 0),
                f"{phone.name} made {made.get(phone.name)} and says {phone.state.made}",
            )
