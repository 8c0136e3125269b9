"""The steps from what needs are short of to the lots that cover it (PL1, PL3, PL4)."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime

from pantry.rules.allocation import Allocation, Need, Source
from pantry.rules.basket import Basket
from pantry.rules.below_par import Refill, refilled
from pantry.rules.consolidation import EFFORT, consolidated
from pantry.rules.fefo import allocate
from pantry.rules.kitchen import Buy, Kitchen, Projection, project
from pantry.rules.lots import Bought, Shopper
from pantry.rules.market import Market
from pantry.rules.outlook import Outlook, settled, with_lots


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
    shopper: Shopper = field(init=False)
    basket: Basket = field(init=False)
    projection: Projection = field(init=False)
    plans: dict[str, ItemPlan] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.shopper = Shopper(self.market)
        self.basket = Basket(self.market.suppliers, self.placed)

    def run(self, needs: Sequence[Need]) -> None:
        """Buy for the needs, make it cheaper, add par and the rest of daily use."""
        self.projection = project(
            needs,
            self.kitchen,
            self.market.calendar.now,
            buy=self._menu_buyer,
            last_order_by=self._last_chance,
            covered=self.covered,
            yielding=self.yielding,
        )
        menu = consolidated(self._bought(), self.basket, self.market, self.horizon)
        for item in sorted(menu.keys() | self._with_floor()):
            self._complete(item, menu.get(item) or self._outlook(item))
        self._consolidate_again()

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

    def _outlook(self, item: str) -> Outlook:
        needs = self.projection.needs.get(item, ())
        sources = tuple(self.kitchen.sources.get(item, ()))
        handling = self.kitchen.handling(self.kitchen.items[item])
        fixed = self.kitchen.fixed.get(item, ())

        def give(given: Sequence[Source], buy: Buy | None) -> Allocation:
            return allocate(
                needs,
                given,
                self.market.calendar.now,
                fixed=fixed,
                handling=handling,
                buy=buy,
                covered=self.covered,
                yielding=self.yielding,
            )

        known = self.projection.allocations.get(item) or give(sources, None)
        opens = handling.opened_until is not None
        frozen = any(source.frozen for source in sources)
        is_plain = not (opens or frozen or fixed or handling.piece)
        return Outlook(item, needs, sources, opens, is_plain, give, (), known)

    def _bought(self) -> dict[str, Outlook]:
        """The items that something was bought for, with whole lots."""
        found: dict[str, Outlook] = {}
        for item in dict.fromkeys(one.lot.offer.pack.item for one in self.shopper.bought.values()):
            outlook = self._outlook(item)
            lots = [one.lot for one in self.shopper.used(outlook.allocation)]
            found[item] = settled(outlook, lots, self.shopper, self._menu_buyer(item))
            self.basket.add(found[item].lots)
        return found

    def _complete(self, item: str, menu: Outlook) -> None:
        """Add what par wants, and then what daily use is short of even so."""
        final, refills = refilled(
            menu, self.kitchen.items[item], self.daily, self.market, self.basket, self.horizon
        )
        extra: tuple[Bought, ...] = ()
        if final.allocation.short and self.kitchen.items[item].floor is not None:
            tried = with_lots(final, final.lots, self.market, self.shopper.buy)
            extra = tuple(self.shopper.used(tried.allocation))
            lots = [one.lot for one in extra]
            self.basket.add(lots)
            final = with_lots(final, (*final.lots, *lots), self.market)
        self.plans[item] = ItemPlan(menu, refills, extra, final)

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
        found = consolidated(movable, self.basket, self.market, self.horizon, EFFORT // 4)
        for item, outlook in found.items():
            self.plans[item] = ItemPlan(outlook, (), (), outlook)
