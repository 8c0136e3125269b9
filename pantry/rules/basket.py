"""What all proposed orders together come to: goods, charges and minimums (PL4)."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pantry.rules.deliveries import Delivery
from pantry.rules.lots import Lot
from pantry.rules.supply import Supplier


@dataclass(frozen=True, slots=True)
class Order:
    """What one delivery comes to, in minor units.

    Attributes:
        goods: the price of what is proposed for it.
        charge: what it costs to have it come; 0 where an order for it is already placed.
        below_minimum: what is paid, or still to be filled up, because it is under the minimum.
    """

    delivery: Delivery
    goods: int
    charge: int
    below_minimum: int


class Basket:
    """Goods by delivery, and what a delivery costs beside them.

    Attributes:
        goods: minor units by delivery id.
        total: everything, in minor units: goods, charges, what is below minimums.

    Args:
        suppliers: by id.
        placed: the ids of deliveries for which an order is already placed, so that their charge
            and minimum are settled and what is added to it costs its price.
    """

    __slots__ = ("_deliveries", "_lines", "_placed", "_suppliers", "goods", "total")

    def __init__(self, suppliers: Mapping[str, Supplier], placed: frozenset[str]) -> None:
        self._suppliers = suppliers
        self._placed = placed
        self._deliveries: dict[str, Delivery] = {}
        self._lines: dict[str, int] = {}
        self.goods: dict[str, int] = {}
        self.total = 0

    def add(self, lots: Iterable[Lot]) -> None:
        """Put lots in."""
        for lot in lots:
            delivery = lot.offer.delivery
            self.total += lot.goods + self.adding(delivery, lot.goods)
            self._deliveries[delivery.id] = delivery
            self._lines[delivery.id] = self._lines.get(delivery.id, 0) + 1
            self.goods[delivery.id] = self.goods.get(delivery.id, 0) + lot.goods

    def remove(self, lots: Iterable[Lot]) -> None:
        """Take lots out that were put in."""
        for lot in lots:
            delivery = lot.offer.delivery
            self._lines[delivery.id] -= 1
            self.goods[delivery.id] -= lot.goods
            if not self._lines[delivery.id]:
                del self._lines[delivery.id], self.goods[delivery.id]
                del self._deliveries[delivery.id]
            self.total -= lot.goods + self.adding(delivery, lot.goods)

    def deliveries(self) -> tuple[Delivery, ...]:
        """The deliveries that something is proposed for, in the order of time."""
        return tuple(sorted(self._deliveries.values(), key=lambda d: (d.at, d.id)))

    def is_used(self, delivery: Delivery) -> bool:
        """Whether something is proposed or already placed for it."""
        return delivery.id in self._lines or delivery.id in self._placed

    def beside(self, delivery: Delivery) -> int:
        """Its charge and shortfall below the minimum; 0 where nothing is proposed for it."""
        return sum(self._terms(delivery, 0)) if delivery.id in self._lines else 0

    def adding(self, delivery: Delivery, goods: int) -> int:
        """What putting goods on the delivery, even free ones, adds beside their price.

        Negative where it fills up a minimum.
        """
        if delivery.id in self._placed:
            return 0
        supplier = self._suppliers[delivery.supplier]
        filled = self.goods.get(delivery.id)
        if filled is None:
            return supplier.charge + max(0, supplier.minimum - goods)
        still = max(0, supplier.minimum - filled)
        return max(0, supplier.minimum - filled - goods) - still

    def orders(self) -> tuple[Order, ...]:
        """What each delivery comes to, in the order of time."""
        return tuple(
            Order(delivery, self.goods[delivery.id], *self._terms(delivery, 0))
            for delivery in self.deliveries()
        )

    def _terms(self, delivery: Delivery, more: int) -> tuple[int, int]:
        """Its charge, and how much it is below the supplier's minimum."""
        if delivery.id in self._placed:
            return 0, 0
        supplier = self._suppliers[delivery.supplier]
        value = self.goods.get(delivery.id, 0) + more
        return supplier.charge, max(0, supplier.minimum - value)
