"""Planted faults: each a bug that somebody could really write, to see that the simulator sees it.

A fault of a phone, a desk, the exchange or the server's process is another kind of it, with one
method written wrongly; a fault of the product is a patch for as long as the history lasts.
"""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field
from itertools import chain

from tests.simulation import planted_phones as phones
from tests.simulation import planted_product as product
from tests.simulation import planted_servers as servers
from tests.simulation.course import Played, play
from tests.simulation.history import Kinds
from tests.simulation.premises import Premises


@dataclass(frozen=True)
class Fault:
    """One planted fault.

    Attributes:
        says: what somebody got wrong.
        within: it must be seen within so many seeds from 0.
        first: the seed that saw it when this was written; the others follow where it sees no more.
        kinds: the programs that have it.
        patched: the product with it.
    """

    says: str
    within: int
    kinds: Kinds = field(default_factory=Kinds)
    patched: Callable[[], AbstractContextManager[None]] = nullcontext
    first: int = 0

    @property
    def seeds(self) -> Iterator[int]:
        """The seeds within which it must be seen, the likeliest first."""
        return chain([self.first], (seed for seed in range(self.within) if seed != self.first))

    def played(self, seed: int, premises: Premises) -> Played:
        """A history with the fault in it."""
        with self.patched():
            return play(seed, premises, self.kinds)


FAULTS: dict[str, Fault] = {
    "pruned at the answer": Fault(
        "the phone forgets a command once it is answered, backed up or not",
        20,
        Kinds(phone=phones.PrunesAtAnswer),
        first=2,
    ),
    "outbox wiped at a new epoch": Fault(
        "the phone begins afresh when the server was restored",
        20,
        Kinds(phone=phones.WipesAtNewEpoch),
    ),
    "outbox wiped at a fresh copy": Fault(
        "a fresh copy replaces the outbox too", 10, Kinds(phone=phones.WipesAtFreshCopy)
    ),
    "nothing handed in again": Fault(
        "the phone takes answers of the lost journal for answers of this one",
        20,
        Kinds(phone=phones.ForgetsToHandInAgain),
        first=1,
    ),
    "a new id at every try": Fault(
        "the phone makes the id when it sends", 10, Kinds(phone=phones.NewIdOnRetry)
    ),
    "a new id at the desk's second try": Fault(
        "the desk makes another id when it tries again", 20, Kinds(desk=phones.DeskNewIdOnRetry)
    ),
    "shown twice": Fault(
        "own commands are shown on top of a copy that contains them",
        20,
        Kinds(phone=phones.ShowsTwice),
    ),
    "answers stored before the copy": Fault(
        "two transactions for one reply: answers first", 20, Kinds(phone=phones.AnswersBeforeCopy)
    ),
    "cursor stored before the changes": Fault(
        "two transactions for one reply: cursor first",
        80,
        Kinds(phone=phones.CursorBeforeCopy),
        first=4,
    ),
    "saved before it is written": Fault(
        "the screen says saved before the strict write has ended",
        20,
        Kinds(phone=phones.SavedBeforeWritten),
    ),
    "sent once": Fault("the phone does not send again", 10, Kinds(phone=phones.SendsOnlyNew)),
    "raw clock": Fault("the phone's time is taken as it is", 150, Kinds(phone=phones.RawClock)),
    "epoch ignored": Fault(
        "a restored server goes on as if nothing had happened",
        40,
        Kinds(exchange=servers.EpochIgnored),
        first=1,
    ),
    "replayed phone by phone": Fault(
        "after a restore each phone's commands are replayed in turn",
        150,
        Kinds(exchange=servers.ReplaysPhoneByPhone),
        first=2,
    ),
    "backed up by changes": Fault(
        "`backed_up` tells the number of the last change, not the place in the journal",
        40,
        Kinds(exchange=servers.BackedUpByChanges),
        first=2,
    ),
    "missing numbers not asked about": Fault(
        "numbers that nobody holds are passed over in silence",
        150,
        Kinds(exchange=servers.MissingIsNotAsked),
        first=46,
    ),
    "answered before the commit": Fault(
        "replies leave as soon as they are known",
        20,
        Kinds(server=servers.AnswersBeforeCommit),
        first=1,
    ),
    "backed up before it is verified": Fault(
        "`backed_up` moves when the copy begins",
        150,
        Kinds(server=servers.BackedUpBeforeVerified),
        first=28,
    ),
    "the same id twice": Fault(
        "the server does not look whether it has the command",
        10,
        patched=product.nothing_is_known_again,
    ),
    "the last write wins": Fault(
        "a base is not looked at", 10, patched=product.base_is_not_looked_at
    ),
    "short stock refuses": Fault(
        "a fact is turned away for what the books say", 10, patched=product.short_stock_refuses
    ),
    "nobody asks about an overdraw": Fault(
        "a shelf below nothing opens no question", 20, patched=product.nobody_asks_about_overdraws
    ),
    "a gap is let in": Fault(
        "the server takes a number whose predecessor it lacks",
        80,
        patched=product.gap_is_let_in,
        first=6,
    ),
    "a revoked phone is turned away": Fault(
        "what a revoked phone still holds is not taken in",
        40,
        patched=product.revoked_is_turned_away,
        first=3,
    ),
    "half of it is kept": Fault("no savepoint around a command", 40, patched=product.half_is_kept),
    "numbers of what failed stay used": Fault(
        "a change number is not given back with the savepoint",
        40,
        patched=product.numbers_stay_used,
    ),
    "numbers counted in memory": Fault(
        "a change number is given before the commit, and stays given when it fails",
        40,
        patched=product.numbers_are_counted_in_memory,
        first=6,
    ),
    "a movement is lost": Fault(
        "the balance is moved and the ledger is not", 10, patched=product.movement_is_lost
    ),
    "a count is added to": Fault(
        "what happened before a count counts again when it is handed in late",
        20,
        patched=product.count_is_added,
    ),
    "own order not known": Fault(
        "of one device too only the time is looked at",
        150,
        patched=product.own_order_is_not_known,
        first=18,
    ),
    "taken back as of now": Fault(
        "what is taken back is taken back after whatever was counted since",
        150,
        patched=product.taken_back_as_of_now,
        first=7,
    ),
    "only counts look for doubts": Fault(
        "a movement that is handed in after a count beside it opens no question",
        150,
        patched=product.only_counts_look_for_doubts,
        first=1,
    ),
    "a change is not numbered": Fault(
        "something is different and nobody is told", 20, patched=product.level_is_not_noted, first=4
    ),
}
"""Every planted fault, by what it is called."""
