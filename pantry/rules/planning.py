"""The steps from what needs are short of to the lots that cover it (PL1, PL3, PL4)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.basket import Basket
from pantry.rules.below_par import Refill, refilled
from pantry.rules.consolidation import EFFORT, consolidated
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.lots import Bought, Shopper
from pantry.rules.market import Market
from pantry.rules.occupancy import Occupancy
from pantry.rules.outlook import Giving, Outlook, settled, with_lots
from pantry.rules.outlooks import Outlooks
from pantry.rules.projection import Buy
from pantry.rules.sizing import Sizings


@dataclass(frozen=True, slots=True)
class ItemPlan:
    """What is proposed for one item, step by step.

    Attributes:
        menu: with the lots that needs are short without.
        refills: what par wants beside them.
        extra: what daily use is short of even so, and the lots for it.
        final: with all of them.
    """

    menu: Outlook
    refills: tuple[Refill, ...]
    extra: tuple[Bought, ...]
    final: Outlook


@dataclass(slots=True)
class Planning:
    """The steps of one plan, and what they have come to so far."""

    kitchen: Kitchen
    market: Market
    daily: frozenset[str]
    horizon: datetime
    placed: frozenset[str]
    covered: Mapping[str, int]
    yielding: frozenset[str]
    occupancy: Occupancy
    shopper: Shopper = field(init=False)
    basket: Basket = field(init=False)
    sizings: Sizings = field(init=False)
    projection: Projection = field(init=False)
    givings: dict[str, Giving] = field(default_factory=dict)
    plans: dict[str, ItemPlan] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.shopper = Shopper(self.market)
        self.basket = Basket(self.market.suppliers, self.placed)
        self.sizings = Sizings(self.market, self.horizon)

    def run(self, needs: Sequence[Need]) -> None:
        """Buy for the needs, make it cheaper, add par and the rest of daily use."""
        self.projection = project(
            needs,
            self.kitchen,
            self.market.calendar.now,
            given=self._given,
            last_order_by=self._last_chance,
            covered=self.covered,
            yielding=self.yielding,
        )
        outlooks = Outlooks(
            self.kitchen,
            self.market,
            self.projection,
            self.givings,
            self.daily,
            self.covered,
            self.yielding,
        )
        menu = consolidated(self._bought(outlooks), self.basket, self.sizings)
        for item in sorted(menu.keys() | self._with_floor()):
            self._complete(outlooks, menu.get(item) or outlooks.for_menus(item))
        self._consolidate_again()

    def _given(self, item: str, needs: Sequence[Need]) -> Allocation:
        """What needs of an item are given, with what is bought where they are short."""
        case = self.kitchen.case(item, needs, self.market.calendar.now)
        giving = self.givings[item] = Giving(case, self.covered, self.yielding)
        return giving.together((), self._menu_buyer(item))

    def _last_chance(self, need: Need) -> datetime | None:
        return self.market.last_chance(need.item, need.wanted_by, need.until)

    def _menu_buyer(self, item: str) -> Buy | None:
        """Buys for menus, and for daily use unless the item has a floor that sees to it."""
        if not self.market.packs(item):
            return None
        if self.kitchen.items[item].floor is None:
            return self.shopper.buy

        def for_menus(need: Need, short: int) -> Source | None:
            return None if need.id in self.daily else self.shopper.buy(need, short)

        return for_menus

    def _with_floor(self) -> set[str]:
        items = self.kitchen.items.values()
        prepared = self.kitchen.preparations
        return {i.id for i in items if i.floor is not None and i.measured and i.id not in prepared}

    def _bought(self, outlooks: Outlooks) -> dict[str, Outlook]:
        """The items that something was bought for, with whole lots."""
        found: dict[str, Outlook] = {}
        for item in dict.fromkeys(one.lot.offer.pack.item for one in self.shopper.bought.values()):
            lots = [one.lot for one in self.shopper.used(self.projection.allocations[item])]
            outlook = outlooks.for_menus(item)
            found[item] = settled(outlook, lots, self.shopper, self._menu_buyer(item))
            self.basket.add(found[item].lots)
        return found

    def _complete(self, outlooks: Outlooks, menu: Outlook) -> None:
        """Add what par wants, and then what daily use is short of even so."""
        item = self.kitchen.items[menu.item]
        final, refills = refilled(
            outlooks.with_daily_use(menu),
            item,
            self.daily,
            self.market,
            self.basket,
            self.horizon,
            self.occupancy,
        )
        extra: tuple[Bought, ...] = ()
        if final.allocation.short and outlooks.falls_daily(menu.item):
            tried = with_lots(final, final.lots, self.market, self.shopper.buy)
            extra = tuple(self.shopper.used(tried.allocation))
            lots = [one.lot for one in extra]
            self.basket.add(lots)
            final = with_lots(final, (*final.lots, *lots), self.market)
        self.plans[menu.item] = ItemPlan(menu, refills, extra, final)

    def _consolidate_again(self) -> None:
        """Now that what par wants is known: its deliveries cost others no charge any more."""
        if not any(of_item.refills or of_item.extra for of_item in self.plans.values()):
            return
        items = self.kitchen.items
        movable = {
            item: of_item.final
            for item, of_item in self.plans.items()
            if of_item.final.lots and items[item].floor is None
        }
        found = consolidated(movable, self.basket, self.sizings, EFFORT // 4)
        for item, outlook in found.items():
            self.plans[item] = ItemPlan(outlook, (), (), outlook)
