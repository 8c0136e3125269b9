"""Making orders that were found lot by lot cheaper together, without uncovering anything (PL4).

A local search over which deliveries are used: every item's lots are sized anew against all the
others; a delivery is tried to be given up; one that is not used is tried to be used. Only what
makes the whole cheaper is kept, so that it ends; so it does when its effort is spent. It is
deterministic: the same question has the same answer.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from pantry.rules.basket import Basket
from pantry.rules.deliveries import Delivery
from pantry.rules.lot_sizing import FINE, Sizing, cheapest_lots
from pantry.rules.lots import Lot
from pantry.rules.market import Market
from pantry.rules.outlook import Outlook, trimmed, with_lots
from pantry.rules.sizing import sizing_of

NONE: frozenset[str] = frozenset()

EFFORT = 3000
"""How many times the lots of an item may be sized in one plan."""


def consolidated(
    outlooks: Mapping[str, Outlook], basket: Basket, market: Market, horizon: datetime
) -> dict[str, Outlook]:
    """The outlooks with cheaper lots where some were found; the basket is changed alike.

    Lots that would leave a need shorter than it was are not taken (opening a pack, whole pieces
    and fixed picks are not looked at in the search).

    Args:
        outlooks: by item, each with its lots, all of them in the basket.
        basket: everything proposed; what is of other items stays.
        market: what can be bought when.
        horizon: what dies by then unused counts as lost.
    """
    wanted = {item: sizing_of(outlook, market, horizon) for item, outlook in outlooks.items()}
    search = Consolidation(
        wanted,
        basket,
        {item: outlook.lots for item, outlook in outlooks.items()},
        {item: int(outlook.lost(horizon) * FINE) for item, outlook in outlooks.items()},
        horizon,
        EFFORT,
    )
    search.improve()
    found = dict(outlooks)
    for item, outlook in outlooks.items():
        if search.lots[item] == outlook.lots:
            continue
        moved = trimmed(with_lots(outlook, search.lots[item], market), market)
        found[item] = moved if moved.is_no_shorter_than(outlook) else outlook
        basket.remove(search.lots[item])
        basket.add(found[item].lots)
    return found


@dataclass(slots=True)
class Consolidation:
    """The search, and where it stands.

    Attributes:
        wanted: by item; only these items' lots are moved.
        basket: everything that is proposed, other items' lots too.
        lots: by item.
        lost: by item, the price of what its lots leave to die, in thousandths.
        horizon: what dies by then unused counts as lost.
        effort: how many more times the lots of an item may be sized.
    """

    wanted: Mapping[str, Sizing]
    basket: Basket
    lots: dict[str, tuple[Lot, ...]]
    lost: dict[str, int]
    horizon: datetime
    effort: int
    _users: dict[str, list[str]] = field(init=False)

    def __post_init__(self) -> None:
        """Note which items could use which delivery."""
        self._users = {}
        for item, wanted in self.wanted.items():
            for id_ in dict.fromkeys(option.offer.delivery.id for option in wanted.options):
                self._users.setdefault(id_, []).append(item)

    def improve(self) -> None:
        """Go on until nothing gets cheaper or the effort is spent."""
        self._resize()
        while self.effort > 0:
            before = self._cost()
            self._give_up()
            self._take_up()
            if self._cost() == before:
                return

    def _cost(self) -> int:
        return FINE * self.basket.total() + sum(self.lost.values())

    def _resize(self) -> None:
        """Size every item's lots against what all the others use."""
        for item in self.wanted:
            self._try([item])

    def _give_up(self) -> None:
        """Try to do without each delivery, what costs most beside its goods first."""
        used = sorted(
            self.basket.deliveries(), key=lambda d: (-self.basket.beside(d), -d.at.timestamp())
        )
        for delivery in used:
            items = [item for item in self.wanted if self._is_on(item, delivery)]
            if not items or not self.basket.beside(delivery):
                continue
            without = frozenset((delivery.id,))
            if self._try(items, without=without):
                continue
            for other in self._others(items, delivery):
                if self._try(items, without=without, towards=frozenset((other,))):
                    break

    def _take_up(self) -> None:
        """Try to use each delivery that is not used and that several items could use."""
        for id_, items in self._users.items():
            if id_ not in self.basket.goods and len(items) > 1:
                self._try(items, towards=frozenset((id_,)))

    def _others(self, items: Sequence[str], delivery: Delivery) -> list[str]:
        """The deliveries that all of the items could use in its place and that are not used."""
        common = [
            {option.offer.delivery.id for option in self.wanted[item].options} for item in items
        ]
        shared = set.intersection(*common) - {delivery.id} - set(self.basket.goods)
        return sorted(shared)

    def _is_on(self, item: str, delivery: Delivery) -> bool:
        return any(lot.offer.delivery.id == delivery.id for lot in self.lots[item])

    def _try(
        self, items: Iterable[str], without: frozenset[str] = NONE, towards: frozenset[str] = NONE
    ) -> bool:
        """Size these items' lots anew; keep it if the whole gets cheaper.

        Args:
            items: whose lots.
            without: deliveries that may not be used.
            towards: deliveries looked upon as costing nothing beside their goods meanwhile.
        """
        before = self._cost()
        undo = {item: (self.lots[item], self.lost[item]) for item in items}
        done: list[str] = []
        for item in undo:
            done.append(item)
            if not self._size(item, without, towards):
                break
        else:
            if towards:
                for item in undo:
                    self._size(item, without, NONE)
            if self._cost() < before:
                return True
        for item in done:
            self._put(item, *undo[item])
        return False

    def _size(self, item: str, without: frozenset[str], towards: frozenset[str]) -> bool:
        """Size one item's lots against all the others'; False where it cannot be covered."""
        self.effort -= 1
        wanted = self.wanted[item]
        allowed = tuple(o for o in wanted.options if o.offer.delivery.id not in without)
        self.basket.remove(self.lots[item])

        def extra(delivery: Delivery, goods: int) -> int:
            return 0 if delivery.id in towards else self.basket.adding(delivery, goods)

        found = cheapest_lots(replace(wanted, options=allowed), extra)
        self.basket.add(self.lots[item])
        if found is None:
            return False
        self._put(item, *found)
        return True

    def _put(self, item: str, lots: tuple[Lot, ...], lost: int) -> None:
        self.basket.remove(self.lots[item])
        self.basket.add(lots)
        self.lots[item] = lots
        self.lost[item] = lost
