"""From a menu to ingredients: the order of preparations, and what is needed (RQ1, RQ2)."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from fractions import Fraction
from typing import NamedTuple
from zoneinfo import ZoneInfo

from pantry.refusals import MissingFact, NotThere, UnreadableInput, declare
from pantry.rules.allocation import Need
from pantry.rules.house_time import before
from pantry.rules.menu import DiningTable, Recipe, RecipeKind, Scaling, Service, Serving
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.variants import with_variant

RECIPE_CYCLE = declare("recipe_cycle", "A preparation is made from itself, through others.")
RECIPE_MISSING = declare("recipe_missing", "A dish on the menu has no recipe.")
YIELD_MISSING = declare("yield_missing", "A recipe, or the trimming of a line, yields nothing.")
INGREDIENT_UNKNOWN = declare(
    "ingredient_unknown", "A recipe names an item the house does not have."
)
TABLE_MISSING = declare("table_missing", "A service is for a table that the house does not have.")
PIECE_UNKNOWN = declare(
    "piece_unknown", "An item is taken in whole pieces, but what a piece weighs is not known."
)

_EACH = 1000  # thousandths of the base unit
_NO_TIME = datetime.max.replace(tzinfo=UTC)


class _Draft(NamedTuple):
    """A need before it is rounded: exact thousandths, and the rest of it in a need like it."""

    id: str
    item: str
    exact: Fraction
    like: Need


def levels(preparations: Mapping[str, Recipe]) -> dict[str, int]:
    """The low-level code of every preparation and ingredient, by item id (RQ1).

    0 is what no preparation is made from; an ingredient stands below everything it goes into, so
    that its needs are complete once every level above has been worked out (MRP's low-level coding).

    Args:
        preparations: the recipe of each preparation, by the id of the item it makes.

    Raises:
        UnreadableInput: `recipe_cycle`, naming the chain.
    """
    parts = {made: {line.item for line in it.ingredients} for made, it in preparations.items()}
    users = Counter(part for uses in parts.values() for part in uses)
    level = dict.fromkeys(set(parts) - set(users), 0)
    ready = list(level)
    while ready:
        item = ready.pop()
        for part in parts.get(item, ()):
            level[part] = max(level.get(part, 0), level[item] + 1)
            users[part] -= 1
            if not users[part]:
                ready.append(part)
    if any(users.values()):
        raise _cycle({item for item, count in users.items() if count}, parts, preparations)
    return level


def preparations_below(
    items: Iterable[str], preparations: Mapping[str, Recipe]
) -> dict[str, Recipe]:
    """The preparations among some items and among all that these are made from, by item."""
    found: dict[str, Recipe] = {}
    waiting = list(items)
    while waiting:
        item = waiting.pop()
        if item in preparations and item not in found:
            found[item] = preparations[item]
            waiting.extend(line.item for line in preparations[item].ingredients)
    return found


def piece_of(item: Item) -> int:
    """Thousandths of the base unit in one whole piece (a bird, an egg); 0: it is divisible.

    Raises:
        MissingFact: `piece_unknown`, for a whole item in g or ml whose piece weight (and density)
            the house does not know (MS3).
    """
    if not item.whole:
        return 0
    if item.base_unit is BaseUnit.EACH:
        return _EACH
    density = Fraction(1) if item.base_unit is BaseUnit.G else item.density
    if item.piece_weight is None or density is None:
        raise MissingFact(
            PIECE_UNKNOWN,
            f"{item.name} is taken in whole pieces, but what one weighs is not known.",
            "Give its piece weight (and its density, if it is measured in ml).",
            value=item.name,
        )
    return round(item.piece_weight / density * _EACH)


def direct_needs(
    service: Service,
    recipes: Mapping[str, Recipe],
    items: Mapping[str, Item],
    tables: Mapping[str, DiningTable],
    zone: ZoneInfo,
) -> list[Need]:
    """What a service's dishes want of each item, preparations included (RQ1, RQ2).

    Servings of the same dish, variant and course are cooked together, so that fixed lines count
    once. Whole items are summed over the service and rounded up to whole pieces, what that adds
    going to the largest need. Items that are not counted give no need.

    Args:
        service: its servings; every one of them counts, chosen or not.
        recipes: by dish id.
        items: by item id.
        tables: by table id.
        zone: the house's, in which a lead of whole days is counted.

    Returns:
        One need for each dish and item, id `service|course|dish|item` and `|variant` where there is
        one, wanted the recipe's lead before the service, usable until the service.

    Raises:
        NotThere: `recipe_missing`, `table_missing`, `ingredient_unknown`, and those of a variant.
        MissingFact: `piece_unknown`.
        UnreadableInput: `yield_missing`, `variant_unclear`.
    """
    table = tables.get(service.table)
    if table is None:
        raise _unknown(TABLE_MISSING, f"The house has no table {service.table!r}.", service.table)
    drafts: list[_Draft] = []
    for (course, dish, variant), portions in _cooked_together(service).items():
        if dish not in recipes:
            raise _unknown(RECIPE_MISSING, f"There is no recipe for {dish!r}.", dish)
        recipe = with_variant(recipes[dish], variant)
        wanted_by = before(service.at, recipe.lead, zone)
        like = Need("", service.id, dish, "", 0, wanted_by, service.at, table.rank)
        end = f"|{variant}" if variant else ""
        drafts.extend(
            _Draft(f"{service.id}|{course}|{dish}|{item}{end}", item, exact, like)
            for item, exact in _wanted(recipe, portions, items).items()
        )
    return _rounded(drafts, items)


def needs_of_making(
    recipe: Recipe, quantity: int, items: Mapping[str, Item], like: Need
) -> list[Need]:
    """What making so much of a preparation wants of each item (RQ1).

    Args:
        recipe: the preparation's.
        quantity: what is made, in thousandths of its item's base unit.
        items: by item id.
        like: says for whom, when and until when; its id opens each need's id (`id|item`).

    Raises:
        NotThere: `ingredient_unknown`.
        MissingFact: `piece_unknown`.
        UnreadableInput: `yield_missing`.
    """
    wanted = _wanted(recipe, Fraction(quantity, _EACH), items)
    drafts = [_Draft(f"{like.id}|{item}", item, exact, like) for item, exact in wanted.items()]
    return _rounded(drafts, items)


def needs_of_cooking(recipe: Recipe, portions: Fraction, items: Mapping[str, Item]) -> list[Need]:
    """What a recipe wants of each item for so many portions, or base units, whoever eats (RQ1).

    Raises:
        As `needs_of_making`.
    """
    like = Need(recipe.id, "", recipe.id, "", 0, _NO_TIME, _NO_TIME, 0)
    return needs_of_making(recipe, round(portions * _EACH), items, like)


def cooked_from(recipes: Mapping[str, Recipe], recipe: str) -> set[str]:
    """The ids of the dishes that are cooked from a recipe, itself or through preparations."""
    found = {recipe}
    waiting = [recipe]
    while waiting:
        made = recipes[waiting.pop()].makes
        for other in recipes.values() if made else ():
            if other.id not in found and any(line.item == made for line in other.ingredients):
                found.add(other.id)
                waiting.append(other.id)
    return {each for each in found if recipes[each].kind is RecipeKind.DISH}


def _unknown(code: str, problem: str, value: str) -> NotThere:
    return NotThere(code, problem, "Add it, or correct the name.", value=value)


def _cycle(
    stuck: set[str], parts: Mapping[str, set[str]], preparations: Mapping[str, Recipe]
) -> UnreadableInput:
    """The refusal naming one chain; everything stuck has something stuck that is made from it."""
    chain = [min(stuck)]
    while chain[-1] not in chain[:-1]:
        chain.append(min(made for made in stuck if chain[-1] in parts.get(made, ())))
    chain = chain[chain.index(chain[-1]) :][::-1]
    named = " → ".join(preparations[item].name for item in chain)
    return UnreadableInput(
        RECIPE_CYCLE,
        f"A preparation is made from itself: {named}.",
        "Take one of these out of the recipe of the one before it.",
        value=named,
    )


def _cooked_together(service: Service) -> dict[tuple[str, str, str | None], Fraction]:
    """Portions of each dish and variant in each course, smaller portions counted as such."""
    portions: dict[tuple[str, str, str | None], Fraction] = defaultdict(Fraction)
    for serving in service.servings:
        portions[serving.course, serving.dish, serving.variant] += _portions(serving, service)
    return portions


def _portions(serving: Serving, service: Service) -> Fraction:
    count = service.covers if serving.portions is None else serving.portions
    return count * serving.portion_factor


def _wanted(recipe: Recipe, made: Fraction, items: Mapping[str, Item]) -> dict[str, Fraction]:
    """Exact thousandths of each counted item for so many portions or base units; {} for none."""
    if recipe.yields <= 0 or any(line.trimming_yield <= 0 for line in recipe.ingredients):
        raise UnreadableInput(
            YIELD_MISSING,
            f"{recipe.name}, or the trimming of one of its lines, yields nothing.",
            "Give what it yields, as more than nothing.",
            value=recipe.name,
        )
    wanted: dict[str, Fraction] = defaultdict(Fraction)
    times = {Scaling.PER_PORTION: made / recipe.yields * _EACH, Scaling.FIXED: Fraction(_EACH)}
    for line in recipe.ingredients if made else ():
        if line.item not in items:
            problem = f"{recipe.name} names {line.item!r}, which the house does not have."
            raise _unknown(INGREDIENT_UNKNOWN, problem, line.item)
        if items[line.item].measured:
            trimmed = times[line.scaling] * line.amount
            wanted[line.item] += trimmed / line.trimming_yield
    return wanted


def _rounded(drafts: Sequence[_Draft], items: Mapping[str, Item]) -> list[Need]:
    """The needs, each rounded half-even once (MS1); whole items over all of them together."""
    quantities = {draft.id: round(draft.exact) for draft in drafts}
    whole: dict[str, list[_Draft]] = defaultdict(list)
    for draft in drafts:
        if items[draft.item].whole:
            whole[draft.item].append(draft)
    for item, shares in whole.items():
        _round_up(quantities, shares, piece_of(items[item]))
    return [_need(draft, quantities[draft.id]) for draft in drafts if quantities[draft.id]]


def _round_up(quantities: dict[str, int], shares: Sequence[_Draft], piece: int) -> None:
    """Bring these quantities to whole pieces in all, the largest taking what that adds.

    The pieces follow from the exact sum: three needs of 2/3 of a lemon are two lemons.
    """
    exact = sum((share.exact for share in shares), Fraction(0))
    largest = min(shares, key=lambda share: (-share.exact, share.id))
    rounded = sum(quantities[share.id] for share in shares)
    quantities[largest.id] += -(-exact // piece) * piece - rounded


def _need(draft: _Draft, quantity: int) -> Need:
    like = draft.like
    return Need(
        draft.id,
        like.service,
        like.dish,
        draft.item,
        quantity,
        like.wanted_by,
        like.until,
        like.rank,
        like.via,
    )
