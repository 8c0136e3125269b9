"""Who goes short when there is not enough: what can be bought yields, then rank decides (AL2)."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise, takewhile
from typing import NamedTuple

from pantry.rules.allocation import Pick
from pantry.rules.case import Case
from pantry.rules.implied_use import might_serve
from pantry.rules.precedence import is_pressing, precedence
from pantry.rules.projection import Buy, Run, project


class Claim(NamedTuple):
    """A need's claim to have so much in all, in the order in which claims are met.

    Attributes:
        place: of the need in the line.
        upto: what it is to have in all.
        pressing: whether nothing can be bought for it any more.
    """

    place: int
    upto: int
    pressing: bool


def claims_of(case: Case, covered: Mapping[str, int], yielding: frozenset[str]) -> list[Claim]:
    """All claims, first met first.

    First what pressing needs had already been promised (a confirmed need whose last order-by has
    passed is never uncovered, unless the chef agrees by name), then the rest of the pressing needs
    by rank, then what can still be bought, in the order of time.
    """
    line, now = case.line, case.now
    pressing = [place for place, want in enumerate(line) if is_pressing(want.need, now)]
    pressing.sort(key=lambda place: precedence(line[place].need, now))
    promised, rest = [], []
    for place in pressing:
        need = line[place].need
        kept = min(covered.get(need.id, 0), need.quantity)
        if kept > 0 and need.id not in yielding:
            promised.append(Claim(place, kept, pressing=True))
        rest.append(Claim(place, need.quantity, pressing=True))
    others = [
        Claim(place, want.need.quantity, pressing=False)
        for place, want in enumerate(line)
        if not is_pressing(want.need, now)
    ]
    return promised + rest + others


def may_gain(run: Run) -> bool:
    """Whether a pressing need is short, and something that no fixed pick takes might do for it."""
    case, line = run.case, run.case.line
    short = [
        want
        for want, granted in zip(line, run.granted, strict=True)
        if granted < want.need.quantity and is_pressing(want.need, case.now)
    ]
    parts = case.begun().parts if short else ()
    return any(might_serve(part, want.at, want.until) for want in short for part in parts)


def out_of_order(run: Run, order: Sequence[Claim]) -> bool:
    """Whether a pressing claim went short while a later one was given something.

    What a later claim has of fixed picks is its own, whoever goes short (AL2).
    """
    counted = list(run.fixed)
    short = False
    for claim in order:
        met = min(run.granted[claim.place], claim.upto)
        if short and met > counted[claim.place]:
            return True
        counted[claim.place] = max(counted[claim.place], met)
        short = short or (claim.pressing and met < claim.upto)
    return False


def share(case: Case, order: Sequence[Claim], buy: Buy | None) -> Run:
    """Meet claims in their order, buying for those that can be bought for."""
    sharing = Sharing(case, buy)
    sharing.meet_all(order)
    return sharing.run


def _in_time(order: Sequence[Claim]) -> bool:
    """Whether the claims stand in the order of the line, each need once."""
    return all(one.place < next_.place for one, next_ in pairwise(order))


class Sharing:
    """Meets claim after claim, each as far as all that were met before stay met.

    Why a greedy is enough: give every need a unit at a time. A set of units can be met together
    if they can be matched with different units of the sources; such sets are the independent
    sets of a (transversal) matroid. First expired, first out in the order of time meets as many
    as any matching does: at its turn a unit takes what dies first of what reaches its use; any
    other choice can be exchanged for it, since what lives longer and is there already can serve
    whatever the first could. So `claim - missing` is just how many units can join those that
    are met. In a matroid the greedy by precedence meets, for every first part of the order, as much
    of it as can be met at all, and ends with a largest set: no coverage is lost by the order.

    Opening, thawing and whole pieces are no matroid. There every amount that is taken on is one
    that a projection meets to the full, so that precedence is kept; only the largest total is not
    certain. A claim that is refused because what dies first would be opened for it is offered what
    stands beside: all that was met before is fixed, and it is tried once more.

    Claims in the order of time are met by one projection: at its turn each is given all that is
    there for it. Where that leaves what was met before met, it is what the greedy would find claim
    by claim, and what is short then stays short.

    Attributes:
        case: what is shared, with what was bought, and fixed where a claim was met beside.
        run: the projection in which all that is met is given.
    """

    def __init__(self, case: Case, buy: Buy | None) -> None:
        self.case = case
        self.buy = buy
        self.run = Run(case)
        self.pressing: Sequence[Claim] = ()

    @property
    def amounts(self) -> list[int]:
        """For each need of the line, what it has in all."""
        return self.run.granted

    def meet_all(self, order: Sequence[Claim]) -> None:
        """Meet all claims in the order of `claims_of`."""
        self.pressing = list(takewhile(lambda claim: claim.pressing, order))
        self._meet(self.pressing)
        self._meet(order[len(self.pressing) :])

    def _meet(self, order: Sequence[Claim]) -> None:
        """Meet claims all at once if they can be, else by halves, so that few runs are needed."""
        if not order:
            return
        run = self._try(order)
        if not run.missing:
            return
        if not self._may_buy(order) and _in_time(order) and self._is_all(order, run):
            self.run = run
        elif len(order) == 1:
            self._meet_one(order[0], run.missing)
            self._buy_rest(order[0])
        elif self._may_buy(order) or self._may_gain(order, run):
            half = len(order) // 2
            self._meet(order[:half])
            self._meet(order[half:])

    def _is_all(self, order: Sequence[Claim], run: Run) -> bool:
        """Whether a run that asked for claims in the order of time met all that can be met of them.

        It keeps what was met before, and nothing that is wanted stands beside what it gave.
        """
        if any(now < had for now, had in zip(run.granted, self.amounts, strict=True)):
            return False
        if self.case.exact or not self._is_left(picks := run.picks()):
            return True
        beside = project(self.case.with_fixed(picks), self._raised(order))
        return sum(beside.granted) <= sum(run.granted)

    def _may_gain(self, order: Sequence[Claim], run: Run) -> bool:
        """Whether any of these claims may be met further, if `run` is what came of asking for all.

        Where nothing is opened, thawed or whole, that is all that can be given. Elsewhere it is at
        most what could be given if it were so and nothing were fixed, which is soon known; most
        claims that nothing is left for are found by it many at a time.
        """
        met = sum(self.amounts)
        if self.case.exact:
            return sum(run.granted) > met
        return sum(project(self.case.loosened(), self._raised(order)).granted) > met

    def _may_buy(self, order: Sequence[Claim]) -> bool:
        return self.buy is not None and not all(claim.pressing for claim in order)

    def _meet_one(self, claim: Claim, missing: int) -> None:
        """Take on what can be met of a claim, from what dies first or else from what is beside."""
        self._meet_part(claim, missing)
        had = self.amounts[claim.place]
        if had == claim.upto or self.case.exact:
            return
        open_to_all = self.case
        picks = self.run.picks()
        if not self._is_left(picks):
            return
        self.case = open_to_all.with_fixed(picks)
        self._meet_part(claim, self._try([claim]).missing)
        if self.amounts[claim.place] == had:
            self.case = open_to_all

    def _is_left(self, picks: Iterable[Pick]) -> bool:
        """Whether anything is left of any source that some need could be given from."""
        given: dict[str, int] = {}
        for pick in picks:
            given[pick.source] = given.get(pick.source, 0) + pick.quantity
        first = min(want.until for want in self.case.line)
        return any(
            source.quantity > given.get(source.id, 0)
            and (source.usable_until is None or source.usable_until >= first)
            for source in self.case.sources
        )

    def _meet_part(self, claim: Claim, missing: int) -> None:
        """Take on what is left of a claim after what is missing, until nothing is missing."""
        piece = self.case.handling.piece
        upto = claim.upto
        while missing and upto - missing > self.amounts[claim.place]:
            upto -= missing
            upto -= upto % piece if piece else 0
            missing = self._try([claim._replace(upto=upto)]).missing

    def _try(self, order: Iterable[Claim]) -> Run:
        """Project with these claims met as well; it is taken on if nothing is missing."""
        run = project(self.case, self._raised(order))
        if not run.missing:
            self.run = run
        return run

    def _raised(self, order: Iterable[Claim]) -> list[int]:
        """The amounts that are met, those of these claims raised."""
        amounts = list(self.amounts)
        for claim in order:
            amounts[claim.place] = max(amounts[claim.place], claim.upto)
        return amounts

    def _buy_rest(self, claim: Claim) -> None:
        """Buy what a claim is short of; what is over serves pressing needs before any other."""
        if self.buy is None or claim.pressing:
            return
        need = self.case.line[claim.place].need
        bought = False
        while (had := self.amounts[claim.place]) < claim.upto:
            source = self.buy(need, claim.upto - had)
            if source is None:
                break
            self.case.add(source)
            bought = True
            self._meet_one(claim, self._try([claim]).missing)
            if self.amounts[claim.place] == had:
                # what was bought for nothing is left over
                self.run = project(self.case, self.amounts)
                break
        if bought:
            self._meet(self.pressing)
