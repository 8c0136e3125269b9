"""What cooking by a recipe costs: what is taken of each item, at the price it is bought for.

Exact until it is shown: a third of a penny of pepper is no penny. A preparation costs what making
it once costs, by its share of the yield; what nobody counts costs nothing that anybody could say.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from pantry.rules.allocation import Need
from pantry.rules.menu import Recipe
from pantry.rules.recipes import needs_of_cooking
from pantry.rules.stock import Item
from pantry.rules.supply import Pack


@dataclass(frozen=True, slots=True)
class CostLine:
    """What so much of one item costs, and how that is known.

    Attributes:
        quantity: what is taken, in thousandths of the item's base unit.
        minor: exact minor units; None: nobody knows.
        pack: at whose price; None: it is made here, or has no price.
        made_by: the id of the recipe by which it is made here.
    """

    item: str
    quantity: int
    minor: Fraction | None
    pack: Pack | None = None
    made_by: str | None = None


@dataclass(frozen=True, slots=True)
class Costing:
    """What everything taken costs together.

    Attributes:
        lines: by item.
        minor: the sum of what is known, exact minor units.
        unknown: the items, of the recipe or of its preparations, without a price.
    """

    lines: tuple[CostLine, ...]
    minor: Fraction
    unknown: frozenset[str]


@dataclass(frozen=True, slots=True)
class Prices:
    """At what price a house reckons.

    Attributes:
        items: by id.
        packs: the cheapest pack of each item by what is in it, as `cheapest` finds it.
        preparations: the recipe of each preparation, by the id of the item it makes.
    """

    items: Mapping[str, Item]
    packs: Mapping[str, Pack]
    preparations: Mapping[str, Recipe]


def cheapest(packs: Iterable[Pack]) -> dict[str, Pack]:
    """The pack of each item that has most in it for its price; of equals, the first by its id."""
    found: dict[str, Pack] = {}
    for pack in sorted((each for each in packs if each.quantity > 0), key=lambda each: each.id):
        best = found.get(pack.item)
        if best is None or pack.price * best.quantity < best.price * pack.quantity:
            found[pack.item] = pack
    return found


def costing(needs: Iterable[Need], prices: Prices) -> Costing:
    """What these needs cost: each at its pack's price, or at that of making it."""
    lines: list[CostLine] = []
    unknown: set[str] = set()
    for need in needs:
        line, missing = _line(need, prices)
        lines.append(line)
        unknown |= missing
    total = sum((line.minor for line in lines if line.minor is not None), Fraction(0))
    return Costing(tuple(lines), total, frozenset(unknown))


def _line(need: Need, prices: Prices) -> tuple[CostLine, frozenset[str]]:
    recipe, pack = prices.preparations.get(need.item), prices.packs.get(need.item)
    if recipe is not None and recipe.ingredients:
        made = costing(needs_of_cooking(recipe, recipe.yields, prices.items), prices)
        share = Fraction(need.quantity, 1000) / recipe.yields
        return CostLine(need.item, need.quantity, made.minor * share, None, recipe.id), made.unknown
    if pack is None:
        return CostLine(need.item, need.quantity, None), frozenset({need.item})
    minor = Fraction(need.quantity * pack.price, pack.quantity)
    return CostLine(need.item, need.quantity, minor, pack), frozenset()
