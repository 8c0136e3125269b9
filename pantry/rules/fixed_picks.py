"""What was given before and stays given: taken out, pinned, today's and tomorrow's picks (AL2)."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime

from pantry.rules.allocation import Handling, Need, Pick, Source
from pantry.rules.implied_use import FOREVER, Part, Use, draw, lives_until
from pantry.rules.precedence import precedence
from pantry.rules.shelf import Given


def what_holds(
    fixed: Iterable[Pick],
    needs: Sequence[Need],
    sources: Iterable[Source],
    now: datetime,
    piece: int,
) -> list[Pick]:
    """The fixed picks, cut to what their needs still want and their sources still have.

    Where a source has shrunk below what was fixed, those that go first by `precedence` keep theirs.
    What is cut is cut to whole pieces. A pick of a need or source that is gone is dropped.
    """
    wanted = {need.id: need.quantity for need in needs}
    there: dict[str, int] = {}
    for source in sources:
        there[source.id] = there.get(source.id, 0) + source.quantity
    known = sorted(
        (pick for pick in fixed if pick.quantity > 0 and pick.need in wanted), key=_of_one_need
    )
    if _is_enough(known, wanted, there):
        return known
    order = {need.id: precedence(need, now) for need in needs}
    known.sort(key=lambda pick: order[pick.need])
    kept = []
    for pick in known:
        quantity = min(pick.quantity, wanted[pick.need], there.get(pick.source, 0))
        if piece and quantity < pick.quantity:
            quantity -= quantity % piece
        if quantity > 0:
            wanted[pick.need] -= quantity
            there[pick.source] -= quantity
            kept.append(Pick(pick.need, pick.source, quantity, pick.thaw_from))
    return kept


def _of_one_need(pick: Pick) -> tuple[str, datetime, int]:
    return pick.source, pick.thaw_from or FOREVER, pick.quantity


def _is_enough(picks: Iterable[Pick], wanted: Mapping[str, int], there: Mapping[str, int]) -> bool:
    """Whether every need still wants and every source still has all that was fixed."""
    wanted, there = dict(wanted), dict(there)
    for pick in picks:
        wanted[pick.need] -= pick.quantity
        there[pick.source] = there.get(pick.source, 0) - pick.quantity
    return min(wanted.values(), default=0) >= 0 and min(there.values(), default=0) >= 0


def take_fixed(
    pick: Pick, at: datetime, until: datetime, parts: list[Part], handling: Handling
) -> list[Given]:
    """Take one fixed pick out of the parts of its source; what cannot be taken is released.

    Released is what is not there yet at `at`, and what no longer lives through `until` (SL2).
    Whether a thaw was begun in time is not asked: it was promised then.

    Args:
        pick: what was fixed.
        at: when its need wants it.
        until: through when its need wants it usable.
        parts: all parts of the pick's source; an opened or thawed rest is added to them.
        handling: what using the item implies.
    """
    use = Use(at, until, handling, pick.thaw_from)
    wanted = pick.quantity
    given: list[Given] = []
    in_order = sorted(parts, key=lambda part: _fixed_order(part, pick)) if parts[1:] else (*parts,)
    for part in in_order:
        taken = min(wanted, part.quantity)
        if not taken or part.ready > at or lives_until(part, use) < until:
            continue
        given.append((pick.source, taken, use.thaw_from if part.frozen else part.thaw_from))
        rest = draw(part, taken, use)
        if rest:
            parts.append(rest)
        wanted -= taken
    return given


def _fixed_order(part: Part, pick: Pick) -> tuple[bool, datetime, bool]:
    """What was thawed when the pick says goes before what was thawed otherwise; then dies first."""
    other_thaw = not part.frozen and part.thaw_from != pick.thaw_from
    return other_thaw, part.usable_until, not part.opened
