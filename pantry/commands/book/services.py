"""The sheets `services` and `choices`: what is proposed, chosen, served."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from pantry.commands import menus
from pantry.commands.book import cells
from pantry.commands.book.reading import ALREADY_THERE, NAME_TWICE, Line, Reading
from pantry.commands.book.supply import clock
from pantry.commands.confirm import RECIPE_UNAPPROVED
from pantry.commands.naming import SERVICE_UNKNOWN
from pantry.records.slugs import slug
from pantry.records.tables import ServiceRow, ServingRow
from pantry.rules.house_time import instant_of
from pantry.rules.menu import RecipeKind, ServiceState

_KEY = {"date", "meal", "table"}
_KEEPS_ALTERNATIVES = (ServiceState.PROPOSED.value, ServiceState.TAKEN_OFF.value)


@dataclass(slots=True)
class Meal:
    """A service of the book, and the dishes that its rows of `choices` name."""

    row: ServiceRow
    servings: list[ServingRow] = field(default_factory=list)

    def menu(self) -> list[ServingRow]:
        """Its dishes: of what was chosen only those, or all of them where none is marked."""
        chosen = [serving for serving in self.servings if serving.chosen]
        if self.row.state in _KEEPS_ALTERNATIVES:
            return self.servings
        return [
            serving.model_copy(update={"line": number, "chosen": True})
            for number, serving in enumerate(chosen or self.servings)
        ]


def read_services(reading: Reading, variants: Mapping[str, list[str]]) -> list[Meal]:
    """Every row of `services` with its rows of `choices`.

    Args:
        reading: the book, with recipes and tables.
        variants: the names of every recipe's variants, by its id.
    """
    meals: dict[str, Meal] = {}
    is_whole = reading.is_whole("services", "date")
    for line in reading.lines("services"):
        row = _service(line)
        _refuse_taken(line, row.id, meals)
        meals.setdefault(row.id, Meal(row))
        is_whole = is_whole and not line.faulty & _KEY
    for line in reading.lines("choices"):
        _read_choice(line, meals, variants)
        if is_whole:
            _refuse_homeless(line, meals)
    return list(meals.values())


def _identity(line: Line) -> str:
    """`DATE/MEAL/TABLE`, as the cells say it."""
    return f"{line.text('date')}/{slug(line.text('meal'))}/{slug(line.text('table'))}"


def _service(line: Line) -> ServiceRow:
    reading = line.reading
    on = line.read("date", cells.day, reading.at.date())
    return ServiceRow(
        house=reading.house.id,
        id=_identity(line),
        on=on,
        meal=line.identity("meal"),
        dining_table=line.refer("table", reading.tables),
        at=instant_of(on, clock(line, "time"), reading.zone),
        covers=line.read("covers", cells.whole(), 0),
        state=line.read("state", cells.one_of(*ServiceState), ServiceState.PROPOSED.value),
    )


def _refuse_taken(line: Line, identity: str, meals: Mapping[str, Meal]) -> None:
    if identity in meals and not line.faulty:
        line.fault(
            "",
            NAME_TWICE,
            f"An earlier row has the service {identity} already.",
            "Keep one of the two rows.",
        )
    if identity in line.reading.known.services:
        line.fault(
            "date",
            ALREADY_THERE,
            f"The service {identity} stands on the books already.",
            "Leave the row and its choices out; change its menu or covers in the program.",
        )


def _read_choice(line: Line, meals: Mapping[str, Meal], variants: Mapping[str, list[str]]) -> None:
    reading = line.reading
    line.read("date", cells.day, None)
    line.refer("table", reading.tables)
    identity = _identity(line)
    meal = meals.get(identity)
    serving = ServingRow(
        house=reading.house.id,
        service=identity,
        line=len(meal.servings) if meal else 0,
        course=line.text("course"),
        dish=_dish(line, meal),
        variant=_variant(line, variants),
        portions=line.read("portions", cells.whole(1), None),
        chosen=line.says("chosen"),
    )
    if meal:
        meal.servings.append(serving)


def _refuse_homeless(line: Line, meals: Mapping[str, Meal]) -> None:
    """Refuse a choice for a service that is in no row."""
    identity = _identity(line)
    if identity not in meals and not line.faulty & _KEY:
        line.fault(
            "date",
            SERVICE_UNKNOWN,
            f"The book has no service {identity}.",
            "Add it to the sheet services, or correct the date, meal or table.",
        )


def _dish(line: Line, meal: Meal | None) -> str:
    dish = line.refer("dish", line.reading.recipes)
    facts = line.reading.recipes.things.get(dish)
    if facts and facts.kind is not RecipeKind.DISH:
        line.fault(
            "dish",
            menus.DISH_NOT_A_DISH,
            f"{facts.name} is a preparation.",
            "Put a dish on the menu that uses it.",
        )
    if facts and not facts.approved and meal and _is_confirmed(line, meal):
        line.fault(
            "dish",
            RECIPE_UNAPPROVED,
            f"{facts.name} is confirmed, and its recipe has not been approved.",
            "Write yes in its column approved once the household has seen it, or take it off.",
        )
    return dish


def _is_confirmed(line: Line, meal: Meal) -> bool:
    return meal.row.state == ServiceState.CONFIRMED.value and line.says("chosen")


def _variant(line: Line, variants: Mapping[str, list[str]]) -> str | None:
    """The variant as its recipe writes it."""
    wanted = slug(line.text("variant"))
    dish = slug(line.text("dish"))
    if not wanted:
        return None
    names = variants.get(dish, [])
    for name in names:
        if slug(name) == wanted:
            return name
    if dish in line.reading.recipes.things:
        line.fault(
            "variant",
            menus.VARIANT_UNKNOWN_HERE,
            f"{line.text('dish')} has no variant {line.text('variant')!r}.",
            f"It has: {', '.join(names) or 'none'}.",
        )
    return line.text("variant")
