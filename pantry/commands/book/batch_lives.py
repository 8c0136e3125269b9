"""The life of a batch that a book brings, from its mark, its state and the day of it (SL1-SL4).

Local codes, the maker's label and licensed practice come first.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime

from pantry.commands.book.known import RecipeFacts
from pantry.commands.book.reading import Line
from pantry.refusals import Refusal, UnsafeFood
from pantry.rules import shelf_life
from pantry.rules.house_lives import HouseLives
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import Life
from pantry.rules.stock import AreaKind, DateKind, DateMark, Item, State


@dataclass(frozen=True, slots=True)
class Kept:
    """What a row says of how a batch is kept.

    Attributes:
        state_at: since when it is in its state; None: the row does not say.
        recipe: what makes its item in this house; None: nothing does.
        now: when the book is imported.
    """

    item: Item
    quantity: int
    mark: DateMark
    state: State
    state_at: datetime | None
    recipe: RecipeFacts | None
    in_freezer: bool
    now: datetime
    lives: HouseLives


def state_of(written: str, area: AreaKind | None) -> State:
    """The state of a batch: sealed where nothing is said, and frozen in a freezer."""
    state = State(written or State.SEALED)
    return State.FROZEN if state is State.SEALED and area is AreaKind.FROZEN else state


def life_of(line: Line, kept: Kept) -> Life:
    """The batch's two answers; what cannot be is a fault of the row.

    What was opened in the freezer stays frozen, with its opened life left. A frozen batch without
    a day was bought frozen, and its mark holds; one with a use-by is taken to be frozen on the day
    of the import, which leaves it no more than it had.
    """
    if kept.state_at is None and _needs_day(kept):
        line.missing("state_date", f"How long it keeps {_said(kept.state)} depends on the day.")
        return Life()
    try:
        return _LIVES[kept.state](kept)
    except UnsafeFood as refusal:
        line.fault(
            "state_date" if line.text("state_date") else "date",
            refusal.code,
            refusal.problem,
            "Correct the dates; if they are right the food must not be used, and its row is left "
            "out.",
        )
    except Refusal as refusal:
        line.refused("state", refusal)
    return Life()


def _said(state: State) -> str:
    return f"once {state.replace('_', ' ')}"


def _needs_day(kept: Kept) -> bool:
    if kept.state is State.OPENED:
        return kept.lives.opened(kept.item) != (None, None)
    return kept.state in (State.MADE, State.THAWED, State.VACUUM_PACKED)


def _sealed(kept: Kept) -> Life:
    return shelf_life.of_mark(kept.mark, kept.lives.zone)


def _opened(kept: Kept) -> Life:
    parent = shelf_life.of_mark(kept.mark, kept.lives.zone, frozen=kept.in_freezer)
    at = kept.state_at or kept.now
    days, hours = kept.lives.opened(kept.item)
    return shelf_life.opened(parent, at, days, kept.lives.zone, life_hours=hours)


def _frozen(kept: Kept) -> Life:
    zone, frozen_life = kept.lives.zone, kept.item.frozen_life_days
    if kept.state_at is None and kept.mark.kind is not DateKind.USE_BY:
        return shelf_life.of_mark(kept.mark, zone, frozen=True)
    fresh = shelf_life.of_mark(kept.mark, zone)
    life = shelf_life.frozen(fresh, kept.state_at or kept.now, frozen_life, zone)
    return life if frozen_life else replace(life, good_until=fresh.good_until)


def _thawed(kept: Kept) -> Life:
    lives = kept.lives
    return shelf_life.thawed(
        shelf_life.of_mark(kept.mark, lives.zone, frozen=True),
        kept.state_at or kept.now,
        lives.thawed_hours(kept.item),
        lives.zone,
        lives.thaw_time(kept.item, kept.quantity),
        thawing_counts=lives.policy.thawing_counts,
    )


def _made(kept: Kept) -> Life:
    """Its own life from the day it was made, never past what its label says."""
    recipe, lives = kept.recipe, kept.lives
    days, hours = lives.prepared(recipe.life_days if recipe else None)
    own = shelf_life.made(
        kept.state_at or kept.now,
        days,
        recipe.dating if recipe else Dating.COOKED,
        (),
        lives.zone,
        life_hours=hours,
    )
    label = shelf_life.of_mark(kept.mark, lives.zone)
    ends = [end for end in (own.usable_until, label.usable_until) if end]
    return Life(min(ends, default=None), label.good_until)


def _vacuum_packed(kept: Kept) -> Life:
    parent = shelf_life.of_mark(kept.mark, kept.lives.zone)
    at, days = kept.state_at or kept.now, kept.lives.vacuum_days()
    return shelf_life.vacuum_packed(parent, at, days, kept.lives.zone)


_LIVES: dict[State, Callable[[Kept], Life]] = {
    State.SEALED: _sealed,
    State.OPENED: _opened,
    State.FROZEN: _frozen,
    State.THAWED: _thawed,
    State.MADE: _made,
    State.VACUUM_PACKED: _vacuum_packed,
}
