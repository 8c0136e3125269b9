"""The lives a house works with: the item's own, else its food-safety policy's (SL3, SL5)."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TypeAlias
from zoneinfo import ZoneInfo

from pantry.handbook.policies import Policy
from pantry.rules.allocation import Handling, Source
from pantry.rules.house_time import end_of_day, last_day, local_date
from pantry.rules.menu import Recipe
from pantry.rules.recipes import piece_of
from pantry.rules.safety import thaw_time
from pantry.rules.shelf_life import resumed
from pantry.rules.stock import BaseUnit, Item

_Then: TypeAlias = Callable[[datetime], datetime]


@dataclass(frozen=True, slots=True)
class HouseLives:
    """The lives of one house: its policy, in its zone."""

    policy: Policy
    zone: ZoneInfo

    def is_thawed(self, item: Item) -> bool:
        """Whether it is thawed before it is used: not what is cooked from frozen, such as peas.

        What the house gave a thawed life, and every high-risk food. Common practice, no source.
        """
        return item.thawed_life_hours is not None or item.high_risk

    def thawed_hours(self, item: Item) -> int:
        """Hours from the end of thawing in which an item is used."""
        if item.thawed_life_hours is not None:
            return item.thawed_life_hours
        return self.policy.number("thawed.any").amount

    def opened(self, item: Item) -> tuple[int | None, int | None]:
        """Days and hours that an item keeps once opened: its own, for high-risk food the policy's.

        Where neither is known opening changes nothing: a bag of flour is no pot of cream.
        """
        if item.opened_life_days is not None or not item.high_risk:
            return item.opened_life_days, None
        number = self.policy.life("opened", "any")
        return number.days, number.hours

    def prepared(self, life_days: int | None) -> tuple[int | None, int | None]:
        """Days and hours that what the kitchen makes keeps: the recipe's own, else the policy's."""
        if life_days is not None:
            return life_days, None
        number = self.policy.life("prepared", "any")
        return number.days, number.hours

    def left_over(self, parts: Iterable[Item]) -> tuple[int | None, int | None]:
        """Days and hours that left-overs keep from their first cooking: the policy's (SL4).

        Where the policy has a number for a food that goes into it by its name, such as rice, the
        shorter counts.
        """
        words = {word for item in parts for word in item.id.split("-")}
        foods = [food for food in self.policy.names("prepared") if food in words]
        numbers = [self.policy.life("prepared", food) for food in ("left_over", *foods)]
        return (
            min((each.days for each in numbers if each.days is not None), default=None),
            min((each.hours for each in numbers if each.hours is not None), default=None),
        )

    def made_until(self, recipe: Recipe, at: datetime) -> datetime | None:
        """The last instant at which what is made of a recipe at an instant may be used (SL4)."""
        until = self._kept(*self.prepared(recipe.life_days))
        return until(at) if until else None

    def vacuum_days(self) -> int:
        """Days a chilled food keeps once vacuum packed, the day of packing being day 1."""
        return self.policy.number("vacuum.any").days or 1

    def thaw_time(self, item: Item, quantity: int) -> timedelta:
        """How long so much of an item, in thousandths, takes to thaw in the cold room, by weight.

        Whole pieces thaw beside each other; what is not weighed counts as one step of weight.
        """
        weighed = item.base_unit is not BaseUnit.EACH
        return thaw_time(self.policy, (piece_of(item) or quantity) if weighed else 0)

    def handling(self, item: Item, container: int = 0) -> Handling:
        """What using an item implies, for planning.

        Args:
            item: the item.
            container: what its largest frozen container holds, in thousandths: that is thawed
                whole, and the longest; 0: it is taken out of the freezer portion by portion.
        """
        if not self.is_thawed(item):
            return Handling(opened_until=self._opened_until(item), piece=piece_of(item))
        lead = self.thaw_time(item, container)
        kept = timedelta(hours=self.thawed_hours(item)) + lead
        waits = timedelta(0) if self.policy.thawing_counts else lead
        return Handling(
            opened_until=self._opened_until(item),
            thawed_until=lambda at: at + kept,
            left_until=lambda left, at: resumed(left, at + waits, self.zone),
            thaw_start=lambda at: at - lead,
            piece=piece_of(item),
        )

    def handling_of(self, sources: Mapping[str, Iterable[Source]]) -> Callable[[Item], Handling]:
        """The same for any item, with the containers that stand in the freezer."""

        def of(item: Item) -> Handling:
            frozen = (each for each in sources.get(item.id, ()) if each.frozen)
            return self.handling(
                item, max((each.sealed_quantity or 0 for each in frozen), default=0)
            )

        return of

    def _opened_until(self, item: Item) -> _Then | None:
        return self._kept(*self.opened(item))

    def _kept(self, days: int | None, hours: int | None) -> _Then | None:
        if days is not None:
            return lambda at: end_of_day(last_day(local_date(at, self.zone), days), self.zone)
        if hours is not None:
            kept = timedelta(hours=hours)
            return lambda at: at + kept
        return None
