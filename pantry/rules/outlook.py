"""How one item stands once the lots proposed for it are counted in (PL1)."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction
from typing import NamedTuple

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.case import Case
from pantry.rules.fefo import allocated, one_by_one
from pantry.rules.lots import Lot, Shopper, packs_for, source_of, together
from pantry.rules.market import Market
from pantry.rules.projection import Buy, Run

_ROUNDS = 4
"""How often what is bought is given anew as whole lots; the second time is rare."""


@dataclass(frozen=True, slots=True)
class Giving:
    """Gives a case's needs what there is, and lots beside; for `covered` see `fefo.allocate`."""

    case: Case
    covered: Mapping[str, int]
    yielding: frozenset[str]

    def together(self, lots: Sequence[Source], buy: Buy | None) -> Allocation:
        """What is given with all of these lots; the buyer is asked for the rest."""
        case = self.case.with_more(lots)
        return allocated(case, buy=buy, covered=self.covered, yielding=self.yielding)

    def one_by_one(self, lots: Sequence[Source]) -> Iterator[Run]:
        """What is given with none, one, two ... of these lots, up to all but the last."""
        return one_by_one(self.case, lots, self.covered, self.yielding)


class Step(NamedTuple):
    """What one lot adds to what there is without it and the later ones.

    Attributes:
        before: what is given without it.
        short: what each need is short of without it, by need id.
        gains: how much less each need is short with it, by need id.
    """

    lot: Lot
    before: Run
    short: dict[str, int]
    gains: dict[str, int]


@dataclass(frozen=True, slots=True)
class Outlook:
    """One item's needs, what it can be given from, and what is given.

    Attributes:
        needs: in the order of time.
        sources: batches, open orders, harvests: everything that is not a proposal.
        opens: opening a pack starts a life of its own.
        is_plain: nothing is opened, thawed, whole or fixed.
        lots: what is proposed to be ordered, one for each delivery and pack.
        allocation: of the needs to the sources and the lots.
        steps: the lots one after the other, in the order of delivery; None: not worked out yet.
    """

    item: str
    needs: tuple[Need, ...]
    sources: tuple[Source, ...]
    opens: bool
    is_plain: bool
    giving: Giving
    lots: tuple[Lot, ...]
    allocation: Allocation
    steps: tuple[Step, ...] | None = None

    def is_no_shorter_than(self, other: "Outlook") -> bool:
        """Whether no need is short of more than it is there."""
        before = other.allocation.short
        return all(short <= before.get(id_, 0) for id_, short in self.allocation.short.items())

    def lost(self, horizon: datetime) -> Fraction:
        """The price, in minor units, of what the lots leave to die by the horizon."""
        lots = {lot.id: lot for lot in self.lots}
        died = [(loss.source, loss.quantity) for loss in self.allocation.lost]
        died += [
            (part.id, part.quantity)
            for part in self.allocation.left
            if part.usable_until is not None and part.usable_until <= horizon
        ]
        return sum(
            (
                Fraction(lots[id_].goods * quantity, lots[id_].quantity)
                for id_, quantity in died
                if id_ in lots
            ),
            Fraction(0),
        )


def with_lots(
    outlook: Outlook, lots: Iterable[Lot], market: Market, buy: Buy | None = None
) -> Outlook:
    """The same with these lots in place of its own; `buy` is asked for what is short even so."""
    merged = together(lots)
    allocation = outlook.giving.together([source_of(lot, market) for lot in merged], buy)
    return replace(outlook, lots=merged, allocation=allocation, steps=None)


def settled(outlook: Outlook, lots: Iterable[Lot], shopper: Shopper, buy: Buy | None) -> Outlook:
    """The same with these lots, and with whatever else has to be bought so that none is short.

    What was bought one after the other is given anew as whole lots, each need the one that dies
    first. Where opened packs then cover less, the rest is bought as well.
    """
    market = shopper.market
    for _ in range(_ROUNDS):
        found = with_lots(outlook, lots, market, buy)
        bought = [one.lot for one in shopper.used(found.allocation)]
        if not bought and not found.allocation.short:
            return trimmed(found, market)
        lots = (*found.lots, *bought)
        if not bought:
            break
    return trimmed(with_lots(outlook, lots, market), market)


def trimmed(outlook: Outlook, market: Market) -> Outlook:
    """The same without packs that no need is short without, the latest delivery first."""
    picked = {pick.source for pick in outlook.allocation.picks}
    used = [lot for lot in outlook.lots if lot.id in picked]
    if len(used) < len(outlook.lots):
        outlook = with_lots(outlook, used, market)
    outlook = with_steps(outlook, market)
    for step in reversed(outlook.steps or ()):
        enough = packs_for(sum(step.gains.values()), step.lot.offer)
        if enough < step.lot.packs:
            others = (other for other in outlook.lots if other.key != step.lot.key)
            smaller = (replace(step.lot, packs=enough),) if enough else ()
            fewer = with_lots(outlook, (*others, *smaller), market)
            if fewer.is_no_shorter_than(outlook):
                outlook = fewer
    return with_steps(outlook, market)


def with_steps(outlook: Outlook, market: Market) -> Outlook:
    """The same with its steps worked out."""
    if outlook.steps is not None:
        return outlook
    if not outlook.lots:
        return replace(outlook, steps=())
    sources = [source_of(lot, market) for lot in outlook.lots]
    before = [(run, run.short()) for run in outlook.giving.one_by_one(sources)]
    after = [*(short for _, short in before[1:]), outlook.allocation.short]
    return replace(
        outlook,
        steps=tuple(
            Step(lot, run, short, _gains(short, without, lot))
            for lot, (run, short), without in zip(outlook.lots, before, after, strict=True)
        ),
    )


def _gains(before: Mapping[str, int], after: Mapping[str, int], lot: Lot) -> dict[str, int]:
    """How much less each need is short, in the order of time, up to what the lot holds.

    Where opening a pack matters it may be more in all: what was opened before keeps for others.
    """
    rest = lot.quantity
    gains: dict[str, int] = {}
    for id_, short in before.items():
        gain = min(short - after.get(id_, 0), rest)
        if gain > 0:
            gains[id_] = gain
            rest -= gain
    return gains
