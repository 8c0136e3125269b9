"""The search for cheaper lots (PL4): which deliveries are used, and how large the lots are.

A local search: every item's lots are sized anew against all the others; a delivery is tried to be
given up; one that is not used is tried to be used. Only what makes the whole cheaper is kept, so
that it ends; so it does when its effort is spent. It is deterministic: the same question has the
same answer.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from pantry.rules.basket import Basket
from pantry.rules.covering import FINE
from pantry.rules.deliveries import Delivery
from pantry.rules.lot_sizing import Option, Sizing, cheapest_lots, least_cost
from pantry.rules.lots import Lot

NONE: frozenset[str] = frozenset()


@dataclass(slots=True)
class DeliverySearch:
    """The search, and where it stands.

    Attributes:
        wanted: by item; only these items' lots are moved.
        basket: everything that is proposed, other items' lots too.
        lots: by item.
        lost: by item, the price of what its lots leave to die, in thousandths.
        horizon: what dies by then unused counts as lost.
        effort: how many more partial answers may be looked at.
    """

    wanted: Mapping[str, Sizing]
    basket: Basket
    lots: dict[str, tuple[Lot, ...]]
    lost: dict[str, int]
    horizon: datetime
    effort: int
    _users: dict[str, list[str]] = field(init=False)
    _least: dict[str, int] = field(init=False)

    def __post_init__(self) -> None:
        """Note what each item costs at least, and which items could use which delivery."""
        self._least = {item: least_cost(wanted) for item, wanted in self.wanted.items()}
        self._users = {}
        for item, wanted in self.wanted.items():
            for id_ in dict.fromkeys(option.offer.delivery.id for option in wanted.options):
                self._users.setdefault(id_, []).append(item)

    def improve(self) -> None:
        """Go on until nothing gets cheaper or the effort is spent; then start from each supplier.

        A start from a supplier looks upon all of their deliveries as costing nothing beside their
        goods; it is kept if what it leads to is cheaper.
        """
        self._descend()
        for deliveries in self._by_supplier():
            if self.effort <= 0:
                return
            before = self._cost()
            items = self._possible(sorted(deliveries))
            undo = {item: (self.lots[item], self.lost[item]) for item in self.wanted}
            more = self._to_save(items)
            for item in items:
                self._size(item, NONE, deliveries, more)
            self._descend()
            if self._cost() >= before:
                for item, known in undo.items():
                    self._put(item, *known)

    def _descend(self) -> None:
        """Size lots, give up and take up deliveries until that makes nothing cheaper."""
        before = None
        while self.effort > 0 and self._cost() != before:
            before = self._cost()
            self._resize()
            self._give_up()
            self._take_up()

    def _by_supplier(self) -> list[frozenset[str]]:
        """The deliveries that could be used, supplier by supplier."""
        found: dict[str, set[str]] = {}
        for wanted in self.wanted.values():
            for option in wanted.options:
                delivery = option.offer.delivery
                found.setdefault(delivery.supplier, set()).add(delivery.id)
        return [frozenset(found[supplier]) for supplier in sorted(found)]

    def _cost(self) -> int:
        return FINE * self.basket.total + sum(self.lost.values())

    def _resize(self) -> None:
        """Size every item's lots against what all the others use, the most to save first."""
        to_save = {item: self._to_save([item]) for item in self.wanted}
        for item in sorted(to_save, key=lambda item: (-to_save[item], item)):
            if to_save[item] > 0:
                self._try([item])

    def _give_up(self) -> None:
        """Try to do without each delivery, what costs most beside its goods first."""
        costly = [d for d in self.basket.deliveries() if self.basket.beside(d)]
        costly.sort(key=lambda d: (-self.basket.beside(d), -d.at.timestamp()))
        for delivery in costly:
            without = frozenset((delivery.id,))
            items = [item for item in self._possible(without) if self._is_on(item, without)]
            if not items or self._try(items, without=without):
                continue
            for other in self._others(items, without):
                if self._try(items, without=without, towards=frozenset((other,))):
                    break

    def _take_up(self) -> None:
        """Try to use each delivery that is not used and that several items could use."""
        for id_, items in self._users.items():
            if id_ not in self.basket.goods and len(items) > 1:
                self._try(items, towards=frozenset((id_,)))

    def _others(self, items: Sequence[str], without: frozenset[str]) -> list[str]:
        """The deliveries that all of the items could use in their place and that are not used."""
        common = [
            {option.offer.delivery.id for option in self.wanted[item].options} for item in items
        ]
        return sorted(set.intersection(*common) - without - self.basket.goods.keys())

    def _possible(self, deliveries: Iterable[str]) -> list[str]:
        """The items that could use any of the deliveries."""
        return list(dict.fromkeys(i for id_ in deliveries for i in self._users.get(id_, ())))

    def _is_on(self, item: str, deliveries: frozenset[str]) -> bool:
        return any(lot.offer.delivery.id in deliveries for lot in self.lots[item])

    def _try(
        self, items: Iterable[str], without: frozenset[str] = NONE, towards: frozenset[str] = NONE
    ) -> bool:
        """Size these items' lots anew; keep it if the whole gets cheaper.

        Args:
            items: whose lots.
            without: deliveries that may not be used.
            towards: deliveries looked upon as costing nothing beside their goods meanwhile.
        """
        if self.effort <= 0:
            return False
        before = self._cost()
        undo = {item: (self.lots[item], self.lost[item]) for item in items}
        more = self._to_save(undo) if without or towards else 0
        done: list[str] = []
        for item in undo:
            done.append(item)
            if not self._size(item, without, towards, more):
                break
        else:
            if towards:
                for item in undo:
                    self._size(item, without, NONE, 0)
            if self._cost() < before:
                return True
        for item in done:
            self._put(item, *undo[item])
        return False

    def _to_save(self, items: Iterable[str]) -> int:
        """The most that moving all of these items' lots can save."""
        used = {lot.offer.delivery for item in items for lot in self.lots[item]}
        beside = FINE * sum(self.basket.beside(delivery) for delivery in used)
        return beside + sum(self._alone(item) - self._least[item] for item in items)

    def _size(self, item: str, without: frozenset[str], towards: frozenset[str], more: int) -> bool:
        """Size one item's lots against all the others'; False where nothing is found.

        They have to cost less than they add now; or less than their goods and `more`, in
        thousandths, where other items are to follow: what these leave behind may fall below its
        minimum until then.
        """
        wanted = self.wanted[item]
        self.basket.remove(self.lots[item])

        def adds(delivery: Delivery, goods: int) -> int:
            if delivery.id in towards:
                return 0
            added = self.basket.adding(delivery, goods)
            return max(0, added) if towards else added

        options = self._worth_trying(wanted, without, towards)
        under = self._alone(item) + more if more else self._cost_of(item)
        found = cheapest_lots(replace(wanted, options=options), adds, under)
        self.effort -= found.tried
        self.basket.add(self.lots[item])
        if found.lots is None:
            return False
        self._put(item, found.lots, found.lost)
        return True

    def _cost_of(self, item: str) -> int:
        """What the item's lots add to the basket they are not in, in thousandths."""
        goods: dict[Delivery, int] = {}
        for lot in self.lots[item]:
            goods[lot.offer.delivery] = goods.get(lot.offer.delivery, 0) + lot.goods
        beside = sum(self.basket.adding(delivery, price) for delivery, price in goods.items())
        return FINE * beside + self._alone(item)

    def _alone(self, item: str) -> int:
        """What the item's lots cost without what their deliveries cost beside, in thousandths."""
        return FINE * sum(lot.goods for lot in self.lots[item]) + self.lost[item]

    def _worth_trying(
        self, wanted: Sizing, without: frozenset[str], towards: frozenset[str]
    ) -> tuple[Option, ...]:
        """The options on deliveries that are used; of the others, of what would do alike the last.

        Options that would do for the same needs differ in nothing but what the delivery costs.
        """
        last: dict[tuple[str, int], Option] = {}
        used = []
        for option in wanted.options:
            delivery = option.offer.delivery
            if delivery.id in without:
                continue
            if delivery.id in towards or self.basket.is_used(delivery):
                used.append(option)
            else:
                last[option.offer.pack.id, option.part.serves] = option
        return (*used, *last.values())

    def _put(self, item: str, lots: tuple[Lot, ...], lost: int) -> None:
        self.basket.remove(self.lots[item])
        self.basket.add(lots)
        self.lots[item] = lots
        self.lost[item] = lost
