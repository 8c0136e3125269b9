"""Needs against batches: first expired, first out (AL1, AL2, RQ3)."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from operator import attrgetter

from pantry.rules.allocation import Allocation, Handling, Loss, Need, Pick, Source
from pantry.rules.case import Case
from pantry.rules.going_short import Claim, claims_of, may_gain, out_of_order, share
from pantry.rules.precedence import is_pressing
from pantry.rules.projection import Buy, Run, project

__all__ = ["Allocation", "Handling", "Loss", "Need", "Pick", "Source", "allocate"]

NOTHING_IMPLIED = Handling()
"""Opening and thawing change nothing, and the item is divisible."""


def allocate(
    needs: Sequence[Need],
    sources: Sequence[Source],
    now: datetime,
    *,
    fixed: Sequence[Pick] = (),
    handling: Handling = NOTHING_IMPLIED,
    buy: Buy | None = None,
    covered: Mapping[str, int] = {},
    yielding: frozenset[str] = frozenset(),
) -> Allocation:
    """Give every need of one item the source that is usable over its window and dies first.

    Needs are taken in the order of `wanted_by` (what should have been there is wanted now), then
    rank, then id. Sources are taken in the order of `usable_until`, `good_until` (None last),
    opened before unopened, older `since`, id (AL1). What is past `good_until` is given like any
    other; what is past `usable_until` never. What using implies is projected (RQ3).

    Fixed picks come first, and are never changed as far as the source still has them and they are
    usable through their need; the rest of such a need is given anew (AL2).

    When there is not enough, needs for which nothing can be bought any more come before all others:
    first what they had been promised, then by rank; the others follow in the order of time (AL2).

    Args:
        needs: of one item, ids all different, quantities in whole pieces where the item has any.
        sources: of the same item; never what is on hold, recalled, in transit or emergency.
        now: the present, aware, in UTC.
        fixed: picks made before that stay.
        handling: what using the item implies.
        buy: asked in the order of time for each need that is short and can still be bought for;
            what it answers joins the sources. It is asked again until the need is covered, it
            answers None, or what it answers does not help.
        covered: what each need had been promised before, by id; it stays covered while nothing can
            be bought for it any more and the food is there.
        yielding: ids of needs that the chef has agreed to uncover.
    """
    return allocated(
        Case(needs, sources, now, fixed, handling), buy=buy, covered=covered, yielding=yielding
    )


def allocated(
    case: Case,
    *,
    buy: Buy | None = None,
    covered: Mapping[str, int] = {},
    yielding: frozenset[str] = frozenset(),
) -> Allocation:
    """As `allocate`, of a case; what was bought is among its sources afterwards."""
    asked = [want.need.quantity for want in case.line]
    wait = buy is not None and any(is_pressing(want.need, case.now) for want in case.line)
    run = project(case, asked, None if wait else buy)
    claims = _passed_over(run, covered, yielding)
    if wait and run.missing and not claims:
        run = project(case, asked, buy)
        claims = _passed_over(run, covered, yielding)
    return (share(case, claims, buy) if claims else run).allocation()


def one_by_one(
    case: Case,
    more: Sequence[Source],
    covered: Mapping[str, int],
    yielding: frozenset[str],
) -> Iterator[Run]:
    """What comes of the case with none, one, two ... of more sources, up to all but the last.

    Until a source is there nothing is given otherwise than without it, so that each is gone on with
    from there.

    Args:
        case: the needs, and what is there anyway.
        more: what no fixed pick is of.
        covered: see `allocate`.
        yielding: see `allocate`.
    """
    asked = [want.need.quantity for want in case.line]
    run = Run(case)
    for source in more:
        ready = source.ready or case.now
        place = bisect_left(case.line, ready, key=attrgetter("at"))
        if place < run.place:
            run = Run(run.case)
        run.go_on(asked, place)
        following = run.with_more(source)
        run.go_on(asked)
        claims = _passed_over(run, covered, yielding)
        yield share(run.case, claims, None) if claims else run
        run = following


def _passed_over(run: Run, covered: Mapping[str, int], yielding: frozenset[str]) -> Sequence[Claim]:
    """All claims, where a pressing one was passed over for a later one; else none (AL2)."""
    if not run.missing or not may_gain(run):
        return ()
    order = claims_of(run.case, covered, yielding)
    return order if out_of_order(run, order) else ()
