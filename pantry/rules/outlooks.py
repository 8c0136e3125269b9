"""The outlooks of a projection's items, from which their lots are planned (PL1)."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from pantry.rules.allocation import Need, Pick
from pantry.rules.kitchen import Kitchen, Projection
from pantry.rules.market import Market
from pantry.rules.outlook import Giving, Outlook, with_lots


@dataclass(frozen=True, slots=True)
class Outlooks:
    """Makes outlooks from a projection in which lots may have been bought already.

    Attributes:
        givings: of the items that were projected, without what was bought.
        daily: ids of the needs of daily use.
        covered: what each need had been promised before, by id.
        yielding: ids of needs that the chef has agreed to uncover.
    """

    kitchen: Kitchen
    market: Market
    projection: Projection
    givings: Mapping[str, Giving]
    daily: frozenset[str]
    covered: Mapping[str, int]
    yielding: frozenset[str]

    def falls_daily(self, item: str) -> bool:
        """Whether the item is used daily and has a floor, so that par sees to that use."""
        known = self.kitchen.items[item]
        return known.floor is not None and known.daily_per_head > 0

    def for_menus(self, item: str) -> Outlook:
        """The item without lots. Where par sees to daily use, that only has what there is.

        So it neither makes the menu's lots larger nor eats them up before the meal.
        """
        needs = self.projection.needs.get(item, ())
        fixed = tuple(self.kitchen.fixed.get(item, ()))
        sources = tuple(self.kitchen.sources.get(item, ()))
        known = self.projection.allocations.get(item)
        giving = self.givings.get(item) or self._giving(item, needs)
        if known is not None and self.falls_daily(item):
            needs = tuple(self._cut(needs, giving.together((), None).short))
            giving = self._giving(item, needs)
            known = None
        handling = self.kitchen.handling(self.kitchen.items[item])
        frozen = any(source.frozen for source in sources)
        opens = handling.opened_until is not None
        plain = not (opens or frozen or fixed or handling.piece)
        allocation = known or giving.together((), None)
        return Outlook(item, needs, sources, opens, plain, giving, (), allocation)

    def with_daily_use(self, menu: Outlook) -> Outlook:
        """The same with all of the item's daily use, which takes what the menus leave."""
        if not self.falls_daily(menu.item):
            return menu
        needs = self.projection.needs.get(menu.item, ())
        promised = [pick for pick in menu.allocation.picks if pick.need not in self.daily]
        giving = self._giving(menu.item, needs, promised)
        found = with_lots(replace(menu, needs=needs, giving=giving), menu.lots, self.market)
        return replace(found, steps=menu.steps)

    def _cut(self, needs: Iterable[Need], short: Mapping[str, int]) -> Iterator[Need]:
        """The needs, those of daily use less what they are short of."""
        for need in needs:
            lacking = short.get(need.id, 0) if need.id in self.daily else 0
            if lacking < need.quantity:
                yield replace(need, quantity=need.quantity - lacking)

    def _giving(
        self, item: str, needs: Sequence[Need], fixed: Sequence[Pick] | None = None
    ) -> Giving:
        case = self.kitchen.case(item, needs, self.market.calendar.now, fixed)
        return Giving(case, self.covered, self.yielding)
