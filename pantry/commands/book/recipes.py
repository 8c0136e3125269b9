"""The sheets `recipes` and `ingredients`: what the kitchen makes, and of what."""

from dataclasses import dataclass
from fractions import Fraction

from pantry.commands.book import amounts, cells, items
from pantry.commands.book.known import RecipeFacts
from pantry.commands.book.reading import Line, Reading
from pantry.handbook.trimming_yields import trimming_yield
from pantry.records.tables import IngredientRow, RecipeRow
from pantry.refusals import declare
from pantry.rules.amounts import Amount, UnitSystem
from pantry.rules.house_time import Span, write_span
from pantry.rules.menu import Dating, RecipeKind, Scaling
from pantry.rules.stock import BaseUnit
from pantry.rules.units import Dimension

YIELD_NOT_PORTIONS = declare("yield_not_portions", "A dish yields portions, and nothing else.")
YIELD_NOT_MEASURED = declare(
    "yield_not_measured", "A preparation yields a weight, volume or count."
)

_PORTIONS = frozenset({"", "portion"})
_BASE_UNITS = {
    Dimension.MASS: BaseUnit.G,
    Dimension.VOLUME: BaseUnit.ML,
    Dimension.COUNT: BaseUnit.EACH,
}


def read_recipes(reading: Reading) -> None:
    """Every row of `recipes`; a preparation that is in no sheet of items makes an item of its own.

    The yields of preparations are read against that item, so items come first.
    """
    for line in reading.lines("recipes"):
        identity = line.name("recipe", reading.recipes)
        facts = _facts(line, identity)
        reading.recipes.things[identity] = facts
        reading.rows.append(_row(line, facts))


def _facts(line: Line, identity: str) -> RecipeFacts:
    kind = RecipeKind(line.read("kind", cells.one_of(*RecipeKind), RecipeKind.DISH.value))
    house_system = line.reading.house.unit_system
    return RecipeFacts(
        id=identity,
        name=line.text("recipe"),
        kind=kind,
        makes=identity if kind is RecipeKind.PREPARATION else None,
        unit_system=line.read("unit_system", cells.one_of(*UnitSystem), house_system),
        dating=Dating(line.read("dates", cells.one_of(*Dating), Dating.COOKED.value)),
        life_days=line.read("life_days", cells.whole(1), None),
        approved=line.says("approved", otherwise=True),
    )


def _row(line: Line, facts: RecipeFacts) -> RecipeRow:
    area = line.optional("area", line.reading.areas)
    yields = _of_preparation(line, facts, area) if facts.makes else _portions(line, facts)
    first = line.read("season_from", cells.month_day, None)
    last = line.read("season_to", cells.month_day, None)
    for column, other in (("season_from", "season_to"), ("season_to", "season_from")):
        if not line.text(column) and line.text(other):
            line.missing(column, "A season has a beginning and an end.")
    return RecipeRow(
        house=line.reading.house.id,
        id=facts.id,
        name=facts.name,
        kind=facts.kind.value,
        yields=str(yields),
        dating=facts.dating.value,
        makes=facts.makes,
        lead=write_span(line.read("lead", cells.span, Span())),
        life_days=facts.life_days,
        full_recipes=line.says("full_recipes"),
        area=area,
        approved=facts.approved,
        season_from=first,
        season_to=last,
        unit_system=facts.unit_system,
        method=line.text("method"),
    )


def _portions(line: Line, facts: RecipeFacts) -> Fraction:
    """Portions of a dish: `8` or `8 portions`."""
    amount = amounts.packed(line, "yield", UnitSystem(facts.unit_system)).total
    if "yield" in line.faulty or not line.text("yield"):
        return Fraction(1)
    if amount.unit not in _PORTIONS or amount.value <= 0:
        line.fault(
            "yield",
            YIELD_NOT_PORTIONS,
            f"A dish yields portions, not {line.text('yield')!r}.",
            "Write how many portions, such as 8 or 8 portions; what is kept is a preparation.",
        )
    return amount.value


def _of_preparation(line: Line, facts: RecipeFacts, area: str | None) -> Fraction:
    """What a preparation yields, in base units of the item that it makes."""
    reading = line.reading
    amount = amounts.packed(line, "yield", UnitSystem(facts.unit_system)).total
    item = reading.items.things.get(facts.id)
    if item is None:
        item = items.made_here(line, facts.id, _base_unit(line, amount), area)
    exact = amounts.of_item(line, "yield", amount, item)
    amounts.thousandths(line, "yield", exact)
    return exact


def _base_unit(line: Line, amount: Amount) -> BaseUnit:
    unit = _BASE_UNITS.get(amount.dimension)
    if unit is None:
        line.fault(
            "yield",
            YIELD_NOT_MEASURED,
            f"How much {line.text('yield')!r} is, nobody can measure.",
            "Write what it makes in g, ml or pieces, such as 1.2 kg, 2 l or 24.",
        )
    return unit or BaseUnit.EACH


@dataclass(frozen=True, slots=True)
class Part:
    """One row of `ingredients`: that a recipe is made of an item."""

    line: Line
    recipe: str
    item: str


def read_ingredients(reading: Reading) -> list[Part]:
    """Every row of `ingredients`, in order."""
    parts: list[Part] = []
    count: dict[str, int] = {}
    for line in reading.lines("ingredients"):
        recipe = line.refer("recipe", reading.recipes)
        item = line.refer("ingredient", reading.items)
        parts.append(Part(line, recipe, item))
        count[recipe] = count.get(recipe, -1) + 1
        scaling = line.read("scaling", cells.one_of(*Scaling), Scaling.PER_PORTION.value)
        reading.rows.append(
            IngredientRow(
                house=reading.house.id,
                recipe=recipe,
                line=count[recipe],
                item=item,
                written=line.text("amount"),
                amount=str(exact_amount(line, "amount", item, recipe)),
                scaling=scaling,
                trimming_yield=str(_trimming(line, item)),
            )
        )
    return parts


def exact_amount(line: Line, column: str, item: str, recipe: str) -> Fraction:
    """A recipe's amount of an item in its base unit; nobody measures what is not counted (MS3)."""
    reading = line.reading
    thing, facts = reading.items.things.get(item), reading.recipes.things.get(recipe)
    if thing is None or not thing.measured:
        return Fraction(0)
    system = UnitSystem(facts.unit_system) if facts else reading.unit_system
    return amounts.exact(line, column, thing, system)


def _trimming(line: Line, item: str) -> Fraction:
    """The trimming yield of a line of trimmed food; 1 for what is as bought. It may exceed 1.

    The kitchen's own comes first, then the handbook's of a food of that name.
    """
    trimming = line.read("trimming_yield", cells.decimal, None)
    said = line.read("as", cells.one_of("as_bought", "trimmed"), "")
    if not line.text("as") and line.text("trimming_yield"):
        line.missing("as", "With a trimming yield, say whether the amount is as_bought or trimmed.")
    if said != "trimmed":
        return Fraction(1)
    thing = line.reading.items.things.get(item)
    known = trimming_yield(thing.name) if thing else None
    if trimming is None and known is None and not line.text("trimming_yield"):
        line.missing("trimming_yield", "An amount of trimmed food needs it.")
    return trimming or (known.kept if known else Fraction(1))
