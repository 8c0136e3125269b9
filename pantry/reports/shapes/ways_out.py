"""What is left where no order can bring it any more, tagged by `kind` (PL5)."""

from pantry.reports.shapes.written import Instant, Number, Quantity, Shape


class Purchase(Shape, frozen=True):
    """So many packs of one delivery that can still be ordered."""

    item: str
    supplier: str
    pack: str
    packs: Number
    order_by: Instant
    delivery: Instant
    at_risk: bool


class OneWayOut(Shape, frozen=True, tag_field="kind"):
    """A way out for one dish of one service."""

    service: str
    dish: str


class AnotherSupplier(OneWayOut, frozen=True, tag="another_supplier"):
    """A delivery of another supplier still makes it."""

    buy: Purchase


class Substitute(OneWayOut, frozen=True, tag="substitute"):
    """An approved substitute; `buy` is null where all of it is there."""

    item: str
    quantity: Quantity
    when: str | None
    buy: Purchase | None


class Variant(OneWayOut, frozen=True, tag="variant"):
    """The dish in a variant."""

    variant: str
    buy: list[Purchase]


class AnotherDish(OneWayOut, frozen=True, tag="another_dish"):
    """Another dish of the course."""

    instead: str


class FewerPortions(OneWayOut, frozen=True, tag="fewer_portions"):
    """What is there does for so many portions."""

    portions: Number


class ShopRun(OneWayOut, frozen=True, tag="shop_run"):
    """Somebody goes and buys it; `shops`: where, as it is agreed for those who sell it."""

    item: str
    quantity: Quantity
    shops: list[str]


WayOut = AnotherSupplier | Substitute | Variant | AnotherDish | FewerPortions | ShopRun
