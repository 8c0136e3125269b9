"""The course of a history: what happens in each step, what goes wrong, how it ends."""

from collections import Counter
from dataclasses import dataclass
from datetime import timedelta

from pantry.records.database import reading
from tests.simulation import checks
from tests.simulation.checks import Broken
from tests.simulation.history import Giver, History, Kinds, Under
from tests.simulation.phone import Phone
from tests.simulation.premises import Premises
from tests.simulation.restoring import FAULTS, Restoring
from tests.simulation.thornwick import CHEF, LATE_PHONE, MANAGER, STRANGER

TOLD = 30
"""So many of the last steps are told of a history that failed."""

ROUNDS = 120
"""After so many exchanges without a fault nobody may still wait."""


@dataclass(frozen=True)
class Played:
    """A history that was played to its end, or to where it broke.

    Attributes:
        seed: gives the same history again.
        broken: what does not hold, None where everything does.
        log: the last steps.
        counts: of what happened.
        head: the last link of the journal's chain: the same for the same seed.
    """

    seed: int
    broken: str | None
    log: tuple[str, ...]
    counts: Counter[str]
    head: str = ""

    def told(self) -> str:
        """What happened last, and what does not hold."""
        return "\n".join([f"seed {self.seed}", *self.log, f"BROKEN: {self.broken}"])


def play(seed: int, premises: Premises, kinds: Kinds | None = None) -> Played:
    """Play one history; the same seed gives the same one."""
    history = History(seed, premises, kinds)
    course = Course(history)
    broken, head = None, ""
    try:
        course.run()
        head = history.server.house().chain
    except Exception as error:  # noqa: BLE001 - whatever it is, the seed and the steps are told
        broken = f"{type(error).__name__}: {error}"
    finally:
        history.server.close()
    return Played(seed, broken, tuple(history.log[-TOLD:]), history.counts, head)


class Course:
    """Drives a history from its founding to the last check."""

    def __init__(self, history: History) -> None:
        self.world = history
        self.draw = history.draw
        self.has_desk = self.draw.random() < 0.7
        self.restoring = Restoring(history)
        self.is_fair = self.draw.random() < 0.4
        history.loss = 0.01 if self.is_fair else 0.1

    def run(self) -> None:
        """Every step, then an end without faults, then everything that must hold."""
        for _ in range(self.draw.randint(60, 120)):
            self._next_step()
            self._befalls()
        self._end()
        self._last_checks()

    def _next_step(self) -> None:
        self.world.step += 1
        self.world.now += timedelta(seconds=self.draw.randint(20, 1200))
        if self.draw.random() < 0.02:
            self.world.now += timedelta(hours=self.draw.randint(5, 30))

    def _befalls(self) -> None:
        happenings = (
            (44, self._somebody_gives),
            (2, self._two_at_one_shelf),
            (26, self._phones_exchange),
            (7 if self.has_desk else 0, self._desk_gives),
            (6 if self.has_desk else 0, self._desk_exchanges),
            (5, self._late_requests_arrive),
            (4, self._goes_on_or_offline),
            (2, self._clock_steps),
            (2, self._phone_crashes),
            (4, self._backup),
            (3, self.restoring.lose_disk),
            (1, self._late_phone_comes),
            (1, self._revoked),
            (6, self.restoring.turn),
            (2, self._look_into_the_books),
        )
        weights, doers = zip(*happenings, strict=True)
        (doer,) = self.draw.choices(doers, weights)
        doer()

    # People

    def _phone(self) -> Phone:
        return self.draw.choice(self.world.phones)

    def _somebody_gives(self) -> None:
        phone = self._phone()
        for _ in range(self.draw.choice([1, 1, 2, 3])):
            self.world.now += timedelta(seconds=self.draw.randint(1, 40))
            self.world.give(phone)

    def _two_at_one_shelf(self) -> None:
        """Two people, one counts what the other spills; or one, whose phone was off between."""
        one, other = self.draw.sample(self.world.phones, 2)
        count = self.world.people.count(one)
        if count is None:
            return
        does = [(one, count), (other, self.world.people.beside(count))]
        self.draw.shuffle(does)
        is_alone = self.draw.random() < 0.3
        for giver, wish in does:
            self.world.now += timedelta(seconds=self.draw.randint(1, 40))
            self.world.record(one if is_alone else giver, {"person": CHEF} | wish)
            if is_alone:
                one.crash()
                self._set_clock(one, while_off=True)

    def _desk_gives(self) -> None:
        if self.draw.random() < 0.06:
            broken = {"kind": self.draw.choice(["juggle", "waste"]), "body": {}, "colour": "red"}
            self.world.record(self.world.desk, broken | {"person": STRANGER})
        else:
            self.world.give(self.world.desk)

    def _late_phone_comes(self) -> None:
        if len(self.world.phones) == 3:
            self.world.phones.append(self.world.new_phone(LATE_PHONE))
            self._by_manager("enrol_device", {"device": LATE_PHONE, "name": LATE_PHONE})

    def _revoked(self) -> None:
        if self.draw.random() < 0.3:
            self._by_manager("revoke_device", {"device": self._phone().name})

    def _by_manager(self, kind: str, body: dict) -> None:
        self.world.record(self.world.desk, {"kind": kind, "body": body, "person": MANAGER})

    # Network

    def _phones_exchange(self) -> None:
        phones = [phone for phone in self.world.phones if phone.online]
        if not phones:
            return
        together = self.draw.sample(phones, min(len(phones), self.draw.choice([1, 1, 1, 2, 3])))
        self._send(list(together))

    def _desk_exchanges(self) -> None:
        if self.draw.random() < 0.05:
            self.world.desk.close()
        self._send([self.world.desk])

    def _send(self, givers: list[Giver]) -> None:
        """Each request arrives, is lost, arrives late, arrives twice, or is overtaken."""
        together = []
        for giver in givers:
            request = giver.request()
            fate = self._fate(giver)
            self.world.counts[f"request {fate}"] += 1
            if fate in ("late", "twice"):
                later = self.world.step + self.draw.randint(1, 12)
                self.world.under_way.append(Under(later, giver, request))
            if fate == "overtaken":
                self.world.arrive([(giver, giver.request(ahead=True))], late=True)
            if fate in ("arrives", "twice", "overtaken"):
                together.append((giver, request))
        fault = self.draw.choice(FAULTS) if self.draw.random() < 0.06 else None
        if together:
            self.world.arrive(together, fault)
        self._enrol_whoever_is_unknown()

    def _fate(self, giver: Giver) -> str:
        """What becomes of a request; a phone's next one may overtake it."""
        fates = ["arrives", "lost", "late", "twice", "overtaken"]
        weights = [94, 1, 1, 2, 2] if self.is_fair else [76, 6, 7, 7, 4]
        fate = self.draw.choices(fates, weights)[0]
        return "arrives" if fate == "overtaken" and giver is self.world.desk else fate

    def _late_requests_arrive(self) -> None:
        """What is due arrives, in any order; nobody waits for the reply any more."""
        due = [each for each in self.world.under_way if each.step <= self.world.step]
        self.world.under_way = [each for each in self.world.under_way if each not in due]
        self.draw.shuffle(due)
        if due:
            self.world.arrive([(each.giver, each.request) for each in due], late=True)

    def _goes_on_or_offline(self) -> None:
        phone = self._phone()
        phone.online = not phone.online
        self.world.say(f"{phone.name} is {'online' if phone.online else 'offline'}")

    def _clock_steps(self) -> None:
        self._set_clock(self._phone(), while_off=False)

    def _set_clock(self, phone: Phone, *, while_off: bool) -> None:
        off = timedelta(seconds=self.draw.randint(-900, 900))
        phone.clock.steps(off - phone.clock.off, while_off=while_off)
        self.world.say(f"{phone.name}'s clock is {off} off")

    def _phone_crashes(self) -> None:
        phone = self._phone()
        phone.crash()
        self.world.counts["phone crashed"] += 1
        self.world.say(f"{phone.name} crashes")
        if self.draw.random() < 0.2:
            self._set_clock(phone, while_off=True)
        self.world.look_at(phone)

    # Server

    def _backup(self) -> None:
        if self.world.server.exchange.is_open:
            if self.draw.random() < 0.35:
                self.world.server.back_up_in_vain()
                self.world.say("a backup is cut off")
            else:
                self.world.say(f"backed up to {self.world.server.back_up()}")
                self.world.counts["backups"] += 1

    def _enrol_whoever_is_unknown(self) -> None:
        for phone in self.world.phones:
            if phone.stopped == "device_unknown":
                phone.stopped = None
                self._by_manager("enrol_device", {"device": phone.name, "name": phone.name})

    def _look_into_the_books(self) -> None:
        with reading(self.world.server.engine) as connection:
            checks.check_books(connection, self.world.oracle)

    # The end

    def _end(self) -> None:
        """No more faults: everybody comes back, hands in, and hears what is new."""
        world = self.world
        world.loss = 0.0
        world.say("no more faults")
        self._late_requests_arrive()
        for phone in world.phones:
            phone.online = True
        for _ in range(ROUNDS):
            world.step += 1
            world.exchange(world.phones)
            world.exchange([world.desk])
            self._enrol_whoever_is_unknown()
            self.restoring.turn()
            if world.server.exchange.is_open and self._everybody_is_done():
                return
        waiting = {phone.name: len(phone.waiting) for phone in world.phones if phone.waiting}
        raise Broken(f"after {ROUNDS} exchanges without a fault somebody still waits: {waiting}")

    def _everybody_is_done(self) -> bool:
        with reading(self.world.server.engine) as connection:
            head = checks.head_of_changes(connection)
        phones, desk = self.world.phones, self.world.desk
        return (
            not any(phone.waiting or phone.state.cursor != head for phone in phones)
            and not desk.waiting
            and desk.cursor == head
        )

    def _last_checks(self) -> None:
        world = self.world
        with reading(world.server.engine) as connection:
            checks.check_books(connection, world.oracle)
            for phone in world.phones:
                checks.check_copy(connection, phone.name, phone.things)
            checks.check_copy(connection, "the desk", world.desk.things)
            world.counts["silently wrong"] += checks.silently_wrong(connection, world.oracle)
        world.check_nothing_is_lost()
