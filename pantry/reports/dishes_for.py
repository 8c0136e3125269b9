"""What each dish would come to at a meal, while its menu is being written (RQ4, PL5).

Nothing is proposed by asking. Each dish stands alone against what chosen menus leave; two that
would need the same see each other only once they are proposed.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property

from pantry.records.read.menu import last_served
from pantry.records.tables import BatchRow
from pantry.refusals import Refusal
from pantry.reports import safe_dishes
from pantry.reports.coverage_rows import Covered, Projected, by_need, dish_choose_by
from pantry.reports.meal_asked import MealAsked, meal_asked
from pantry.reports.presence import Told
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.allergens import Certainty
from pantry.rules.deadlines import ChooseBy
from pantry.rules.fefo import Need, Source
from pantry.rules.implied_use import FOREVER
from pantry.rules.menu import Recipe, RecipeKind, Service, ServiceState, Serving
from pantry.rules.proposals import Menus, propose
from pantry.rules.seasons import in_season

_ONE_COVER = 1
_SAVED = timedelta(days=7)
"""What dies so soon after a meal is worth eating at it; an estimate."""


def dishes_for(view: View, **meal: str | int) -> list[Row]:
    """A row for each dish as it stands and for each of its variants, by name.

    Args:
        view: the house as it stands.
        **meal: `date`, `meal`, `table`, `time` (the house's clocks) and `covers`; without covers,
            as many as are said to eat there then.

    Raises:
        NotThere: `table_not_there`.
        UnreadableInput: `meal_unreadable`.
    """
    asked = meal_asked(
        view,
        on=str(meal["date"]),
        meal=str(meal["meal"]),
        table=str(meal["table"]),
        clock=str(meal["time"]),
    )
    covers = int(meal["covers"]) if "covers" in meal else _said(view, asked)
    thought_of = _ThoughtOf(view, Projected(view), _service(asked, covers))
    dishes = [each for each in view.recipes.values() if each.kind is RecipeKind.DISH]
    return [
        thought_of.row(recipe, variant)
        for recipe in sorted(dishes, key=lambda each: (each.name, each.id))
        for variant in (None, *(name for name, _ in recipe.variants))
    ]


def _said(view: View, asked: MealAsked) -> int:
    """How many eat there; where nobody is said to, what one of them would come to."""
    return Told(view).at(asked).number or _ONE_COVER


def _service(asked: MealAsked, covers: int) -> Service:
    return Service(
        id=asked.id,
        date=asked.date,
        meal=asked.meal,
        table=asked.table,
        at=asked.at,
        covers=covers,
        state=ServiceState.PROPOSED,
    )


@dataclass(frozen=True)
class _ThoughtOf:
    """One meal, and the house's menus projected without it."""

    view: View
    found: Projected
    service: Service

    def row(self, recipe: Recipe, variant: str | None) -> Row:
        """A dish, or a variant of it. What cannot be worked out says why, and hides no other."""
        serving = Serving("", recipe.id, variant)
        try:
            covered = self._covered(serving)
            told = self._told(covered)
            against = safe_dishes.told(self.view, self.service, serving)
            unknown = self._unknown(serving)
        except Refusal as refusal:
            covering = {"covering": "unclear", "choose_by": None, "early": False}
            told = covering | {"lacking": [], "dies": [], "past_best": [], "garden": []}
            told["problem"] = str(refusal)
            against, unknown = [], True
        last = self._last_served.get(recipe.id, {}).get(self.service.table)
        return {
            "dish": recipe.id,
            "name": recipe.name,
            "variant": variant,
            **told,
            "against": against,
            "unknown": unknown,
            "in_season": in_season(recipe, self.service.date),
            "last_served": None if last is None else last.isoformat(),
            "approved": recipe.approved,
        }

    def _covered(self, serving: Serving) -> Covered:
        view = self.view
        menus = Menus(view.recipes, view.items, view.tables)
        own = propose(self.service, serving, menus, self.found.beside)
        return Covered(self.service, serving, own.needs, by_need(own.picks), own.short)

    def _told(self, covered: Covered) -> Row:
        chosen_by = dish_choose_by(self.view, covered)
        lacking = [need for need in covered.needs if covered.lacking(need)]
        given = list(self._given(covered))
        return {
            "covering": self._covering(chosen_by, lacking),
            "choose_by": instant(chosen_by.at),
            "early": chosen_by.earlier_than_notice,
            "lacking": self._lacks(covered, lacking),
            "dies": self._dies(given),
            "past_best": self._past_best(given),
            "garden": list(self._garden(given)),
            "problem": None,
        }

    def _covering(self, chosen_by: ChooseBy, lacking: Sequence[Need]) -> str:
        if any(self._is_gone(need) for need in lacking):
            return "cannot_be_had"
        if chosen_by.at is not None and chosen_by.at < self.view.now:
            return "too_late"
        return "to_buy" if lacking else "covered"

    def _is_gone(self, need: Need) -> bool:
        order_by = self.view.last_order_by(need)
        return order_by is None or order_by < self.view.now

    def _lacks(self, covered: Covered, lacking: Sequence[Need]) -> list[Row]:
        """Each item it lacks once, by name; what has to be ordered first says by when."""
        short: dict[str, int] = {}
        order_by: dict[str, datetime | None] = {}
        for need in lacking:
            short[need.item] = short.get(need.item, 0) + covered.lacking(need)
            known, asked = order_by.get(need.item, FOREVER), self.view.last_order_by(need)
            order_by[need.item] = None if known is None or asked is None else min(known, asked)
        return [
            {
                "item": self.view.item_name(item),
                "quantity": amount(short[item], self.view.items[item]),
                "order_by": instant(order_by[item]),
            }
            for item in sorted(short, key=self.view.item_name)
        ]

    def _given(self, covered: Covered) -> Iterator[tuple[Source, int]]:
        """What it would be given from, and how much."""
        for need in covered.needs:
            for pick in covered.given.get(need.id, ()):
                source = self.found.sources.get(pick.source)
                if source is not None:
                    yield source, pick.quantity

    def _dies(self, given: Sequence[tuple[Source, int]]) -> list[Row]:
        """What stands in the house and would be lost within a week after the meal, by its end."""
        at = self.service.at
        used: dict[str, tuple[datetime, int, str]] = {}
        for source, quantity in given:
            end, row = _end(source), self._batches.get(source.id)
            if end is None or row is None or not at <= end <= at + _SAVED:
                continue
            first, sum_of, mark = used.get(source.item, (end, 0, row.date_kind))
            used[source.item] = (
                min(first, end),
                sum_of + quantity,
                row.date_kind if end < first else mark,
            )
        return [
            {
                "item": self.view.item_name(item),
                "quantity": amount(quantity, self.view.items[item]),
                "until": instant(end),
                "date_mark": mark,
            }
            for item, (end, quantity, mark) in sorted(used.items(), key=lambda each: each[1][0])
        ]

    def _past_best(self, given: Sequence[tuple[Source, int]]) -> list[str]:
        """What it would use that is past its best by then: a person decides."""
        flagged = {s.item for s, _ in given if s.good_until and s.good_until < self.service.at}
        return sorted(self.view.item_name(item) for item in flagged)

    def _garden(self, given: Sequence[tuple[Source, int]]) -> Iterator[Row]:
        """What the garden is to give, and how much of that no chosen menu takes."""
        for source, quantity in given:
            if source.kind == "harvest":
                item = self.view.items[source.item]
                left = source.quantity - self._promised_of_garden.get(source.id, 0)
                yield {
                    "item": item.name,
                    "quantity": amount(quantity, item),
                    "left": amount(left, item),
                    "ready": instant(source.ready),
                }

    def _unknown(self, serving: Serving) -> bool:
        """Whether not everything in it has declared what somebody at the table cannot eat."""
        found = safe_dishes.against(self.view, self.service, serving)
        return any(each.certainty is Certainty.UNKNOWN for each in found)

    @cached_property
    def _promised_of_garden(self) -> Mapping[str, int]:
        taken: dict[str, int] = {}
        for picks in self.found.confirmed_picks.values():
            for pick in picks:
                taken[pick.source] = taken.get(pick.source, 0) + pick.quantity
        return taken

    @cached_property
    def _batches(self) -> Mapping[str, BatchRow]:
        return {row.id: row for row in self.view.batches}

    @cached_property
    def _last_served(self) -> Mapping[str, Mapping[str, date]]:
        return last_served(self.view.connection, self.view.id)


def _end(source: Source) -> datetime | None:
    """When what stands in the house dies, or else when it is only flagged."""
    return (source.usable_until or source.good_until) if source.kind == "batch" else None
