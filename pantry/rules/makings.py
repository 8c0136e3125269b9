"""The makings of a preparation: when it is made, how much of it, for whom, of what (RQ1, RQ2)."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TypeAlias
from zoneinfo import ZoneInfo

from pantry.rules.allocation import Need, Pick, Source
from pantry.rules.house_time import before, local_date
from pantry.rules.menu import Dating, Recipe
from pantry.rules.recipes import needs_of_making
from pantry.rules.stock import Item

MadeUntil: TypeAlias = Callable[[Recipe, datetime], datetime | None]
"""The last instant at which what is made of a recipe at an instant may be used; None: no limit."""


@dataclass(frozen=True, slots=True)
class Making:
    """A preparation that has to be made, because what is there does not suffice.

    Attributes:
        id: `make|item|date` of the first use; a second of that day that cannot be one with the
            first (it would not live so long) ends in `|2`, and so on.
        quantity: thousandths of the item's base unit; whole recipes where it is a full recipe.
        start: when it is made and its ingredients are wanted; its life counts from this day.
        ready: when it is wanted.
        services: what it is for, the first first.
        late: its lead no longer fits between now and `ready`.
    """

    id: str
    item: str
    recipe: str
    quantity: int
    start: datetime
    ready: datetime
    services: tuple[str, ...]
    late: bool


@dataclass(slots=True)
class _Lot:
    """A making being decided: what is not covered on one day is made at once."""

    id: str
    start: datetime
    ready: datetime
    usable_until: datetime | None
    late: bool
    quantity: int = 0


class Makings:
    """Decides one preparation's makings, asked in the order of time for each need that is short.

    What is not covered on the same local day is made together, wanted by the earliest of it. What
    is over of a full recipe is left for later needs within its life.
    """

    __slots__ = ("lots", "now", "recipe", "until", "zone")

    def __init__(self, recipe: Recipe, now: datetime, zone: ZoneInfo, until: MadeUntil) -> None:
        self.recipe = recipe
        self.now = now
        self.zone = zone
        self.until = until
        self.lots: list[_Lot] = []

    def make(self, need: Need, short: int) -> Source | None:
        """What is made for a need that is short of so much; None: it would not live so long."""
        lot = self._lot_for(need)
        if lot is None:
            return None
        quantity = in_recipes(self.recipe, short)
        lot.quantity += quantity
        return Source(
            kind="making",
            id=lot.id,
            item=need.item,
            quantity=quantity,
            usable_until=lot.usable_until,
            good_until=None,
            since=lot.start,
            ready=lot.ready,
        )

    def decided(
        self, needs: Iterable[Need], picks: Iterable[Pick]
    ) -> Iterator[tuple[Making, Sequence[Need]]]:
        """Every making, with the needs that were given of it, the first first."""
        of = {need.id: need for need in needs}
        served: dict[str, list[Need]] = {lot.id: [] for lot in self.lots}
        for pick in picks:
            if pick.source in served:
                served[pick.source].append(of[pick.need])
        for lot in self.lots:
            services = dict.fromkeys(each.service for each in served[lot.id] if each.service)
            making = Making(
                id=lot.id,
                item=self.recipe.makes or "",
                recipe=self.recipe.id,
                quantity=lot.quantity,
                start=lot.start,
                ready=lot.ready,
                services=tuple(services),
                late=lot.late,
            )
            yield making, served[lot.id]

    def _lot_for(self, need: Need) -> _Lot | None:
        """The making of the need's day if it lives through the need, or else a new one."""
        at = max(need.wanted_by, self.now)
        until = max(need.until, at)
        day = f"make|{need.item}|{local_date(at, self.zone)}"
        same_day = [lot for lot in self.lots if lot.id.startswith(day)]
        for lot in same_day:
            if lot.usable_until is None or lot.usable_until >= until:
                return lot
        lot = self._new_lot(at, f"{day}|{len(same_day) + 1}" if same_day else day)
        if lot.usable_until and lot.usable_until < until:
            return None
        self.lots.append(lot)
        return lot

    def _new_lot(self, at: datetime, id_: str) -> _Lot:
        start = before(at, self.recipe.lead, self.zone)
        late, start = start < self.now, max(start, self.now)
        return _Lot(id_, start, at, self.until(self.recipe, start), late)


def in_recipes(recipe: Recipe, short: int) -> int:
    """What is made so that this much is there: whole recipes, where it is only made whole (RQ1).

    Args:
        recipe: of a preparation.
        short: thousandths of its item's base unit.
    """
    if not recipe.full_recipes:
        return short
    whole = recipe.yields * 1000
    return round(-(-short // whole) * whole)


def ingredients_of(
    making: Making, served: Sequence[Need], recipe: Recipe, items: Mapping[str, Item]
) -> list[Need]:
    """What a making needs of each item (RQ1, RQ2).

    The ingredients are wanted when it is made. What is cooked or preserved uses them up then; what
    is only assembled lives no longer than they do, so that they must reach its own last use (SL4).

    Args:
        making: what is made.
        served: the needs that are given of it, the first first.
        recipe: of the preparation.
        items: by item id.

    Raises:
        NotThere: `ingredient_unknown`.
        MissingFact: `piece_unknown`.
        UnreadableInput: `yield_missing`.
    """
    first = next((need for need in served if need.service), served[0])
    last_use = making.start
    if recipe.dating is Dating.ASSEMBLED:
        last_use = max(making.start, *(need.until for need in served))
    like = Need(
        id=making.id,
        service=first.service,
        dish=first.dish,
        item=making.item,
        quantity=0,
        wanted_by=making.start,
        until=last_use,
        rank=min(need.rank for need in served),
        via=making.item,
    )
    return needs_of_making(recipe, making.quantity, items, like)
